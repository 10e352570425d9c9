//! A version as sound sees it: pieces one behind the other.

use std::collections::BTreeMap;

/// What a piece shows of a roll.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shows {
    /// The roll.
    pub roll: String,
    /// The first frame that is shown.
    pub first: u32,
}

/// A piece at its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlacedPiece {
    /// The running frame it begins at.
    pub at: i64,
    /// How long. Unit: frames.
    pub frames: u32,
    /// What it shows; nothing for leader and cards.
    pub shows: Option<Shows>,
}

impl PlacedPiece {
    /// The running frame behind it.
    #[must_use]
    pub fn end(&self) -> i64 {
        self.at + i64::from(self.frames)
    }

    /// Where it shows a frame of a roll.
    fn shown(&self, roll: &str, frame: u32) -> Option<i64> {
        let shows = self.shows.as_ref().filter(|shows| shows.roll == roll)?;
        let into = frame.checked_sub(shows.first)?;
        (into < self.frames).then(|| self.at + i64::from(into))
    }
}

/// A version: its pieces, and where the takes of each roll begin.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Placed {
    pieces: Vec<PlacedPiece>,
    takes: BTreeMap<String, Vec<u32>>,
}

impl Placed {
    /// Pieces one behind the other; the places of `pieces` are worked out here.
    #[must_use]
    pub fn new(
        pieces: impl IntoIterator<Item = (u32, Option<Shows>)>,
        takes: BTreeMap<String, Vec<u32>>,
    ) -> Self {
        let mut at = 0;
        let placed = pieces.into_iter().map(|(frames, shows)| {
            let piece = PlacedPiece { at, frames, shows };
            at = piece.end();
            piece
        });
        let pieces = placed.collect();
        let mut takes = takes;
        for starts in takes.values_mut() {
            starts.sort_unstable();
        }
        Self { pieces, takes }
    }

    /// The pieces.
    #[must_use]
    pub fn pieces(&self) -> &[PlacedPiece] {
        &self.pieces
    }

    /// How long it is. Unit: frames.
    #[must_use]
    pub fn frames(&self) -> i64 {
        self.pieces.last().map_or(0, PlacedPiece::end)
    }

    /// Where a frame is shown; the first place, should it be shown twice.
    #[must_use]
    pub fn shown(&self, roll: &str, frame: u32) -> Option<i64> {
        self.pieces
            .iter()
            .find_map(|piece| piece.shown(roll, frame))
    }

    /// The first frame of the take in which a frame lies.
    #[must_use]
    pub fn take_of(&self, roll: &str, frame: u32) -> Option<u32> {
        let starts = self.takes.get(roll)?;
        let behind = starts.partition_point(|start| *start <= frame);
        behind.checked_sub(1).map(|nth| starts[nth])
    }

    /// Where the film is joined: the running frame behind each join. Two pieces that go on
    /// from each other on one roll are one strip and have no join.
    #[must_use]
    pub fn joins(&self) -> Vec<i64> {
        let cut = |two: &&[PlacedPiece]| match (&two[0].shows, &two[1].shows) {
            (Some(a), Some(b)) => a.roll != b.roll || a.first + two[0].frames != b.first,
            _ => true,
        };
        self.pieces
            .windows(2)
            .filter(cut)
            .map(|two| two[1].at)
            .collect()
    }

    /// Where the piece begins that begins with this frame of a roll. Where no piece does,
    /// the one of the same take that shows it, or whose first frame lies nearest.
    #[must_use]
    pub fn join_before(&self, roll: &str, first: u32) -> Option<i64> {
        let of_roll =
            |piece: &&PlacedPiece| piece.shows.as_ref().is_some_and(|shows| shows.roll == roll);
        let begins = |piece: &PlacedPiece| piece.shows.as_ref().map_or(0, |shows| shows.first);
        let mine: Vec<&PlacedPiece> = self.pieces.iter().filter(of_roll).collect();
        let exact = mine.iter().find(|piece| begins(piece) == first);
        let shows = || mine.iter().find(|piece| piece.shown(roll, first).is_some());
        let take = self.take_of(roll, first);
        let near = || {
            let same = mine
                .iter()
                .filter(|piece| take.is_some() && self.take_of(roll, begins(piece)) == take);
            same.min_by_key(|piece| begins(piece).abs_diff(first))
        };
        exact.or_else(shows).or_else(near).map(|piece| piece.at)
    }
}
