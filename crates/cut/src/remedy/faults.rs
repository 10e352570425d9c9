//! What is refused or warned of, frame by frame and place by place.

use crate::ConflictKind;

/// A set of frames of one roll: runs in order that do not touch.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Runs(Vec<(i64, i64)>);

impl Runs {
    /// The set of all frames of these runs.
    pub(super) fn of(mut runs: Vec<(i64, i64)>) -> Self {
        runs.sort_unstable();
        let mut out: Vec<(i64, i64)> = Vec::with_capacity(runs.len());
        for run in runs.into_iter().filter(|r| r.0 < r.1) {
            match out.last_mut() {
                Some(last) if run.0 <= last.1 => last.1 = last.1.max(run.1),
                _ => out.push(run),
            }
        }
        Self(out)
    }

    /// The frames of this set that are not in another.
    fn without(&self, other: &Self) -> Self {
        let mut out = Vec::new();
        for run in &self.0 {
            let mut rest = *run;
            while let Some(part) = other.first_missing(rest) {
                out.push(part);
                rest.0 = part.1;
            }
        }
        Self(out)
    }

    /// The first part of a run that is not in this set.
    pub(super) fn first_missing(&self, run: (i64, i64)) -> Option<(i64, i64)> {
        let (mut at, end) = run;
        let from = self.0.partition_point(|r| r.1 <= at);
        for held in &self.0[from..] {
            if at < held.0 {
                break;
            }
            at = at.max(held.1);
        }
        if at >= end {
            return None;
        }
        let next = self.0.partition_point(|r| r.1 <= at);
        let stop = self.0.get(next).map_or(end, |r| r.0.min(end));
        Some((at, stop))
    }
}

/// Kinds that are about frames of a roll.
const OF_FRAMES: [ConflictKind; 3] = [
    ConflictKind::Doubled,
    ConflictKind::Bite,
    ConflictKind::OutsideRoll,
];

/// The kinds of place from here on are only warned of.
const FIRST_WARNING: usize = 4;

/// Kinds that are about a place: a piece, or a join (by the piece behind it).
const OF_PLACES: [ConflictKind; 6] = [
    ConflictKind::Effect,
    ConflictKind::Protected,
    ConflictKind::Base,
    ConflictKind::Gauge,
    ConflictKind::Short,
    ConflictKind::OutsideTake,
];

/// Every frame and every place that something is the matter with.
///
/// Two cuts of as many pieces can be compared by it: a change brings nothing
/// new when each frame and place was in the set before.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Faults {
    frames: [Vec<Runs>; 3],
    places: [Vec<bool>; 6],
}

impl Faults {
    /// Nothing is the matter with any of so many rolls and pieces.
    pub(super) fn none(rolls: usize, pieces: usize) -> Self {
        Self {
            frames: std::array::from_fn(|_| vec![Runs::default(); rolls]),
            places: std::array::from_fn(|_| vec![false; pieces + 1]),
        }
    }

    pub(super) fn put_frames(&mut self, kind: ConflictKind, roll: usize, runs: Vec<(i64, i64)>) {
        if let Some(of) = OF_FRAMES.iter().position(|k| *k == kind) {
            self.frames[of][roll] = Runs::of(runs);
        }
    }

    pub(super) fn put_place(&mut self, kind: ConflictKind, place: usize) {
        if let Some(of) = OF_PLACES.iter().position(|k| *k == kind) {
            self.places[of][place] = true;
        }
    }

    /// What is in this set and not in another.
    pub(super) fn without(&self, other: &Self) -> Self {
        let mut out = self.clone();
        for (mine, theirs) in out.frames.iter_mut().zip(&other.frames) {
            for (mine, theirs) in mine.iter_mut().zip(theirs) {
                *mine = mine.without(theirs);
            }
        }
        for (mine, theirs) in out.places.iter_mut().zip(&other.places) {
            for (mine, theirs) in mine.iter_mut().zip(theirs) {
                *mine &= !*theirs;
            }
        }
        out
    }

    /// The same, with every place warned of let pass except those of another.
    pub(super) fn warnings_let_pass_but(&self, other: &Self) -> Self {
        let mut out = self.clone();
        for of in FIRST_WARNING..OF_PLACES.len() {
            for (mine, theirs) in out.places[of].iter_mut().zip(&other.places[of]) {
                *mine = !*theirs;
            }
        }
        out
    }

    /// The same numbered as with one piece more: a piece that nothing is the
    /// matter with. The join where it would stand is the one before it.
    pub(super) fn with_a_piece_at(mut self, at: usize) -> Self {
        for (kind, places) in OF_PLACES.iter().zip(&mut self.places) {
            let joins = matches!(kind, ConflictKind::Base | ConflictKind::Gauge);
            let behind = at + usize::from(joins);
            places.insert(behind.min(places.len()), false);
        }
        self
    }

    /// Whether anything in the set is refused.
    pub(super) fn has_a_refusal(&self) -> bool {
        let frames = self.frames.iter().flatten();
        frames.into_iter().any(|runs| !runs.0.is_empty())
            || self.places[..FIRST_WARNING].iter().flatten().any(|p| *p)
    }

    /// Whether a place in the set is only warned of.
    pub(super) fn has_a_warning(&self) -> bool {
        self.places[FIRST_WARNING..].iter().flatten().any(|p| *p)
    }

    /// The first frames of a run that are not in the set.
    pub(super) fn first_missing(
        &self,
        kind: ConflictKind,
        roll: usize,
        run: (i64, i64),
    ) -> Option<(i64, i64)> {
        let of = OF_FRAMES.iter().position(|k| *k == kind)?;
        self.frames[of][roll].first_missing(run)
    }

    /// Whether a place is in the set.
    pub(super) fn has_place(&self, kind: ConflictKind, place: usize) -> bool {
        let of = OF_PLACES.iter().position(|k| *k == kind);
        of.is_some_and(|of| self.places[of].get(place).copied().unwrap_or(false))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn runs_are_sets_of_frames() {
        let runs = Runs::of(vec![(5, 8), (1, 3), (7, 9), (3, 4), (6, 6)]);
        assert_eq!(runs.0, [(1, 4), (5, 9)]);
        assert_eq!(runs.first_missing((1, 9)), Some((4, 5)));
        assert_eq!(runs.first_missing((5, 9)), None);
        assert_eq!(runs.first_missing((6, 12)), Some((9, 12)));
        assert_eq!(runs.first_missing((0, 2)), Some((0, 1)));
        let rest = Runs::of(vec![(0, 10)]).without(&runs);
        assert_eq!(rest.0, [(0, 1), (4, 5), (9, 10)]);
    }
}
