//! A piece lifted, whose every frame stands elsewhere too.

use super::layout::Layout;
use super::words::frames_in_words;
use super::{Case, Remedy, RemedyKind, WaysOut};
use crate::{Change, ConflictKind, check};

impl WaysOut<'_> {
    /// For a piece that shows nothing but what is shown elsewhere too: to do
    /// without it. Tried like every other way.
    pub(super) fn lifts(&self, case: &Case<'_>) -> Vec<Remedy> {
        if case.conflict.kind != ConflictKind::Doubled {
            return Vec::new();
        }
        let wholly = |at: &&usize| {
            let spot = self.layout.spots[**at];
            let run = case.conflict.span;
            run.is_some_and(|run| run.0 <= spot.begin && spot.end <= run.1)
        };
        let pieces = case.quarrel.iter().filter(wholly);
        pieces.filter_map(|at| self.lift(*at, case)).collect()
    }

    fn lift(&self, at: usize, case: &Case<'_>) -> Option<Remedy> {
        let change = Change::Remove { at };
        let (next, _) = self.cut.apply(&change).ok()?;
        let layout = Layout::of(&next, self.strand, self.rules);
        // A roll that only this piece named is not counted any more.
        if layout.rolls.len() != self.layout.rolls.len() {
            return None;
        }
        let answer = check(&next, self.strand, self.rules);
        let after = layout.faults(answer.conflicts.iter()).with_a_piece_at(at);
        let left = after.without(&case.strict);
        if left.has_a_refusal() {
            return None;
        }
        let frames = self.cut.pieces()[at].frames().count();
        Some(Remedy {
            kind: RemedyKind::Lift,
            text: format!(
                "lift {}, {} less",
                at + 1,
                frames_in_words(u64::from(frames))
            ),
            joins: 2,
            frames,
            mends: true,
            warns: left.has_a_warning(),
            change,
        })
    }
}
