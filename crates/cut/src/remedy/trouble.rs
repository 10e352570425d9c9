//! The first thing that a trial change leaves wrong, or makes wrong.

use super::faults::Faults;
use super::layout::{Claim, Part, Seen};
use crate::{ConflictKind, JoinKind};

/// What is wrong. Pieces and gaps are counted from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Trouble {
    /// A piece without a frame.
    Empty { piece: usize },
    /// Frames that two want.
    Wanted { run: (i64, i64), by: [Claim; 2] },
    /// Frames that the roll does not have.
    Outside { run: (i64, i64), by: Claim },
    /// A join that cannot be made so.
    Joint { gap: usize },
    /// A piece that cannot be used so, wherever its ends lie.
    Piece,
    /// A strip that does not hold beside its joins.
    Short { first: usize, last: usize },
    /// A piece that no take holds.
    OutsideTake { piece: usize },
}

impl Seen<'_> {
    /// The first trouble that is not among those let pass.
    ///
    /// Only pieces that the trial touches, their neighbours in the cut and the
    /// ones to `watch` are looked at: about the others nothing has changed.
    pub(super) fn first_trouble(&self, let_pass: &Faults, watch: &[usize]) -> Option<Trouble> {
        let touched = self.touched(watch);
        let each = |find: fn(&Self, &Faults, usize) -> Option<Trouble>| {
            touched
                .iter()
                .find_map(|piece| find(self, let_pass, *piece))
        };
        each(Self::empty)
            .or_else(|| self.wanted(let_pass, &touched))
            .or_else(|| each(Self::outside))
            .or_else(|| each(Self::unfit))
            .or_else(|| each(Self::short))
            .or_else(|| each(Self::outside_take))
    }

    fn touched(&self, watch: &[usize]) -> Vec<usize> {
        let mut out = watch.to_vec();
        for (piece, _) in &self.trial.spots {
            out.extend([piece.saturating_sub(1), *piece, piece + 1]);
        }
        for (gap, _) in &self.trial.kinds {
            out.extend([gap.saturating_sub(1), *gap]);
        }
        out.retain(|piece| *piece < self.pieces());
        out.sort_unstable();
        out.dedup();
        out
    }

    fn empty(&self, _: &Faults, piece: usize) -> Option<Trouble> {
        let spot = self.spot(piece);
        (spot.begin >= spot.end).then_some(Trouble::Empty { piece })
    }

    /// Frames that one of these pieces, or one of its joins, wants, and another
    /// too.
    fn wanted(&self, let_pass: &Faults, touched: &[usize]) -> Option<Trouble> {
        let mut moved: Vec<(usize, Claim)> = Vec::with_capacity(3 * touched.len());
        for piece in touched {
            if let Some(roll) = self.spot(*piece).roll {
                moved.extend(self.claims_of(*piece).map(|claim| (roll, claim)));
            }
        }
        for (at, (roll, mine)) in moved.iter().enumerate() {
            let resting = self.layout.touching(*roll, (mine.begin, mine.end));
            let resting = resting.filter(|c| touched.binary_search(&c.piece).is_err());
            let others = moved[at + 1..].iter().filter(|m| m.0 == *roll);
            for theirs in resting.chain(others.map(|m| &m.1)) {
                let both = (mine.begin.max(theirs.begin), mine.end.min(theirs.end));
                let shown = mine.part == Part::Shown && theirs.part == Part::Shown;
                let kind = if shown {
                    ConflictKind::Doubled
                } else {
                    ConflictKind::Bite
                };
                if both.0 < both.1
                    && let Some(run) = let_pass.first_missing(kind, *roll, both)
                {
                    let by = [*mine, *theirs];
                    return Some(Trouble::Wanted { run, by });
                }
            }
        }
        None
    }

    fn outside(&self, let_pass: &Faults, piece: usize) -> Option<Trouble> {
        let roll = self.spot(piece).roll?;
        let frames = self.layout.rolls[roll].frames;
        self.claims_of(piece).find_map(|by| {
            let parts = [(by.begin, by.end.min(0)), (by.begin.max(frames), by.end)];
            let kind = ConflictKind::OutsideRoll;
            let missing = |part| let_pass.first_missing(kind, roll, part);
            let part = parts.into_iter().filter(|p| p.0 < p.1).find_map(missing);
            part.map(|run| Trouble::Outside { run, by })
        })
    }

    fn unfit(&self, let_pass: &Faults, piece: usize) -> Option<Trouble> {
        let spot = self.spot(piece);
        let protected = spot.roll.is_some_and(|r| self.layout.rolls[r].protected);
        if spot.effect && !let_pass.has_place(ConflictKind::Effect, piece)
            || protected && !let_pass.has_place(ConflictKind::Protected, piece)
        {
            return Some(Trouble::Piece);
        }
        [piece, piece + 1]
            .into_iter()
            .find(|gap| {
                [ConflictKind::Base, ConflictKind::Gauge]
                    .into_iter()
                    .any(|kind| self.refused_at(kind, *gap) && !let_pass.has_place(kind, *gap))
            })
            .map(|gap| Trouble::Joint { gap })
    }

    /// The rolls on both sides of a gap; none for leader and cards.
    fn sides(&self, gap: usize) -> [Option<usize>; 2] {
        let roll = |piece: Option<usize>| {
            let piece = piece.filter(|p| *p < self.pieces())?;
            self.spot(piece).roll
        };
        [roll(gap.checked_sub(1)), roll(Some(gap))]
    }

    /// Whether the join at a gap cannot be made for its base, or its gauges.
    pub(super) fn refused_at(&self, kind: ConflictKind, gap: usize) -> bool {
        match kind {
            ConflictKind::Base => self.base_refused(gap),
            _ => self.gauge_refused(gap),
        }
    }

    fn base_refused(&self, gap: usize) -> bool {
        let polyester = |roll: &usize| self.layout.rolls[*roll].polyester;
        self.kind(gap) != JoinKind::Tape
            && self.joint_at(gap)
            && self.sides(gap).iter().flatten().any(polyester)
    }

    fn gauge_refused(&self, gap: usize) -> bool {
        let [before, after] = self
            .sides(gap)
            .map(|roll| roll.map_or(self.layout.gauge, |r| self.layout.rolls[r].gauge));
        before != after && self.joint_at(gap)
    }

    fn short(&self, let_pass: &Faults, piece: usize) -> Option<Trouble> {
        let (first, last) = self.strip_of(piece);
        let frames: i64 = (first..=last)
            .map(|p| self.spot(p).end - self.spot(p).begin)
            .sum();
        let shortest = |gap: usize| self.layout.table.row(self.kind(gap)).shortest;
        let wanted = shortest(first).max(shortest(last + 1));
        let new = |p: usize| !let_pass.has_place(ConflictKind::Short, p);
        (frames < i64::from(wanted) && (first..=last).any(new))
            .then_some(Trouble::Short { first, last })
    }

    fn outside_take(&self, let_pass: &Faults, piece: usize) -> Option<Trouble> {
        let spot = self.spot(piece);
        let takes = &self.layout.rolls[spot.roll?].takes;
        let held = |take: &(i64, i64)| take.0 <= spot.begin && spot.end <= take.1;
        (!takes.is_empty()
            && !takes.iter().any(held)
            && !let_pass.has_place(ConflictKind::OutsideTake, piece))
        .then_some(Trouble::OutsideTake { piece })
    }
}
