//! Places on the film that a hand can find and count from.

use std::collections::BTreeMap;

use onestrand_cut::{JoinKind, Slate, Strand};
use onestrand_film::{FrameName, FramePos, RollId};

/// What is to be seen there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LandmarkKind {
    /// The head of the roll.
    Head,
    /// Where the camera stopped: the first frame of a take.
    CameraStop(Option<Slate>),
    /// A join found on the roll: the first frame after it. Its kind, if known.
    Join(Option<JoinKind>),
    /// A number on the edge of the stock.
    EdgeNumber(String),
    /// Another picture from one frame to the next, with no sign of a camera
    /// starting: the first frame of a take.
    NewPicture(Option<Slate>),
    /// Over-exposed frames inside a take: the first of them.
    Flash,
    /// Where the blade went before: the end of a piece already taken.
    LastCut,
    /// The tail of the roll: behind its last frame.
    Tail,
    /// A strong change inside a take, in words.
    Change(String),
    /// What the user has marked, in the user's words.
    Mark(String),
    /// A slip of paper that the hand lays in itself, where no landmark lies near enough.
    PaperSlip,
}

impl LandmarkKind {
    /// Whether it cannot be mistaken for another place: a count may begin
    /// there. What is not sure in itself serves on the way, when the count that
    /// leads to it agrees.
    #[must_use]
    pub const fn is_sure(&self) -> bool {
        !matches!(self, Self::Change(_) | Self::Mark(_) | Self::PaperSlip)
    }

    /// Of two at the same frame the one with the lower rank is named.
    const fn rank(&self) -> u8 {
        match self {
            Self::LastCut => 0,
            Self::Head => 1,
            Self::Tail => 2,
            Self::CameraStop(_) => 3,
            Self::Join(_) => 4,
            Self::NewPicture(_) => 5,
            Self::EdgeNumber(_) => 6,
            Self::Flash => 7,
            Self::Mark(_) => 8,
            Self::Change(_) => 9,
            Self::PaperSlip => 10,
        }
    }
}

/// A place to count from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Landmark {
    /// What is to be seen.
    pub kind: LandmarkKind,
    /// Where: this frame is 0 of the count.
    pub at: FrameName,
}

impl Landmark {
    /// The words for it on a sheet.
    #[must_use]
    pub fn words(&self) -> String {
        let with = |what: &str, slate: &Option<Slate>| match slate {
            Some(slate) => format!("{what} {slate}"),
            None => what.to_owned(),
        };
        match &self.kind {
            LandmarkKind::Head => "head of the roll".to_owned(),
            LandmarkKind::CameraStop(slate) => with("camera stop", slate),
            LandmarkKind::Join(Some(kind)) => format!("{kind} join"),
            LandmarkKind::Join(None) => "join".to_owned(),
            LandmarkKind::EdgeNumber(number) => format!("edge number {number}"),
            LandmarkKind::NewPicture(slate) => with("new picture", slate),
            LandmarkKind::Flash => "flash".to_owned(),
            LandmarkKind::LastCut => "last cut".to_owned(),
            LandmarkKind::Tail => "tail of the roll".to_owned(),
            LandmarkKind::Change(words) | LandmarkKind::Mark(words) => words.clone(),
            LandmarkKind::PaperSlip => "your paper slip".to_owned(),
        }
    }

    /// The nearest landmark at or before a frame, given the ends of the pieces
    /// already taken from that roll.
    pub(crate) fn before(
        strand: &Strand,
        roll: &RollId,
        frame: FramePos,
        ends_taken: &[FramePos],
    ) -> Self {
        let take = strand
            .takes_of(roll)
            .iter()
            .rfind(|t| t.span.range.begin() <= frame);
        let cut = ends_taken.iter().copied().filter(|e| *e <= frame).max();
        let (kind, at) = match (take, cut) {
            (Some(t), Some(c)) if c > t.span.range.begin() => (LandmarkKind::LastCut, c),
            (None, Some(c)) => (LandmarkKind::LastCut, c),
            (Some(t), _) => {
                let slate = t.slate.clone();
                (LandmarkKind::CameraStop(slate), t.span.range.begin())
            }
            (None, None) => (LandmarkKind::Head, FramePos::ZERO),
        };
        let roll = roll.clone();
        Self {
            kind,
            at: FrameName { roll, frame: at },
        }
    }
}

/// What can be counted from on every roll, as whoever knows the rolls tells it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Landmarks {
    by_roll: BTreeMap<RollId, BTreeMap<FramePos, LandmarkKind>>,
}

impl Landmarks {
    /// Only what follows from the strand itself: where each take begins, taken
    /// as a camera stop.
    #[must_use]
    pub fn of_takes(strand: &Strand) -> Self {
        let mut all = Self::default();
        for take in strand.takes() {
            let slate = take.slate.clone();
            let at = take.span.range.begin();
            all.add(&take.span.roll, at, LandmarkKind::CameraStop(slate));
        }
        all
    }

    /// One more. Where something is known of that frame already, what can be
    /// told more surely stays.
    pub fn add(&mut self, roll: &RollId, at: FramePos, kind: LandmarkKind) {
        let of_roll = self.by_roll.entry(roll.clone()).or_default();
        match of_roll.get(&at) {
            Some(known) if known.rank() <= kind.rank() => {}
            _ => {
                of_roll.insert(at, kind);
            }
        }
    }

    /// Those of a roll, from its head.
    pub fn of_roll(&self, roll: &RollId) -> impl Iterator<Item = (FramePos, &LandmarkKind)> {
        let of_roll = self.by_roll.get(roll);
        of_roll.into_iter().flatten().map(|(at, kind)| (*at, kind))
    }

    /// How many there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.by_roll.values().map(BTreeMap::len).sum()
    }

    /// Whether there is none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }
}
