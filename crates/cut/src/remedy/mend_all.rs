//! All that is refused mended in one step.

use super::faults::Faults;
use super::words::frames_in_words;
use super::{Remedy, RemedyKind, WaysOut, other_join, shift};
use crate::{Change, JoinKind, Piece, Severity, TrialCut, check};

impl WaysOut<'_> {
    /// One step after which nothing is refused, where at least two conflicts
    /// are: every join made in one other way if that does it, and each conflict
    /// mended in turn by its own cheapest way; where the turns lead nowhere, the
    /// cheapest shift that mends all, or the fewest joins that do.
    ///
    /// Each step in turn is the cheapest for its conflict; the sum need not be
    /// the cheapest there is.
    #[must_use]
    pub fn all_at_once(&self) -> Vec<Remedy> {
        let refused = |c: &&crate::Conflict| c.severity() == Severity::Refused;
        if self.conflicts.iter().filter(refused).count() < 2 {
            return Vec::new();
        }
        let mut ways: Vec<Remedy> = JoinKind::ALL
            .into_iter()
            .find_map(|kind| self.all_joins(kind))
            .into_iter()
            .collect();
        ways.extend(self.in_turn().or_else(|| self.together()));
        ways
    }

    /// All that is refused at once, where one after the other leads nowhere.
    fn together(&self) -> Option<Remedy> {
        let nothing = Faults::none(self.layout.rolls.len(), self.layout.spots.len());
        let loose = nothing.warnings_let_pass_but(&nothing);
        let all: Vec<usize> = (0..self.layout.spots.len()).collect();
        let one = |way: Remedy| Remedy {
            kind: RemedyKind::MendAll,
            ..way
        };
        let joins = other_join::other_joins(&self.layout, &loose, &all);
        if let Some(trial) = joins.first() {
            return Some(one(self.other_join(trial, &self.faults, &all)));
        }
        let goal = shift::Goal {
            layout: &self.layout,
            let_pass: &loose,
            watch: &all,
            at_most: shift::ANY_COST,
            boxes: shift::BOXES,
        };
        let (trial, cost) = shift::cheapest(&goal, super::bounds::Bounds::default())?;
        Some(one(self.shift(&trial, cost, &self.faults, &all)))
    }

    /// Every join of the film in one way.
    fn all_joins(&self, kind: JoinKind) -> Option<Remedy> {
        let mut changes = vec![Change::UsualJoin(kind)];
        for (at, piece) in self.cut.pieces().iter().enumerate() {
            if piece.join.is_some_and(|join| join != kind) {
                let piece = Piece {
                    join: None,
                    ..piece.clone()
                };
                changes.push(super::words::replace(at, piece));
            }
        }
        let change = super::words::one_change(changes);
        let (next, _) = self.cut.apply(&change).ok()?;
        let after = check(&next, self.strand, self.rules);
        after.is_ok().then(|| Remedy {
            kind: RemedyKind::MendAll,
            text: format!("make every join with {kind}"),
            joins: after.joins,
            frames: 0,
            mends: true,
            warns: self.warns_anew(&next),
            change,
        })
    }

    fn in_turn(&self) -> Option<Remedy> {
        let mut cut = self.cut.clone();
        let mut taken: Vec<Remedy> = Vec::new();
        // Each step leaves fewer frames and places refused than before it.
        while let Some(way) = self.next_step(&cut)? {
            cut = cut.apply(&way.change).ok()?.0;
            taken.push(way);
        }
        let frames: u32 = taken.iter().map(|w| w.frames).sum();
        let said: Vec<&str> = taken.iter().map(|w| w.text.as_str()).collect();
        Some(Remedy {
            kind: RemedyKind::MendAll,
            text: match said.as_slice() {
                [one] => (*one).to_owned(),
                _ => format!(
                    "{}, {} in all",
                    said.join("; "),
                    frames_in_words(u64::from(frames))
                ),
            },
            joins: taken.iter().map(|w| w.joins).sum(),
            frames,
            mends: true,
            warns: self.warns_anew(&cut),
            change: Change::All(taken.iter().map(|w| w.change.clone()).collect()),
        })
    }

    /// The cheapest way out of the first conflict that has one: none when all
    /// is mended, and nothing at all when no conflict left has a way out.
    #[expect(
        clippy::option_option,
        reason = "done, stuck and a step are three things"
    )]
    fn next_step(&self, cut: &TrialCut) -> Option<Option<Remedy>> {
        let ways = WaysOut::new(cut, self.strand, self.rules, self.twins);
        let mut refused = ways
            .conflicts
            .iter()
            .filter(|c| c.severity() == Severity::Refused)
            .peekable();
        if refused.peek().is_none() {
            return Some(None);
        }
        refused.find_map(|c| ways.cheapest_of(c)).map(Some)
    }

    /// Whether a changed cut is warned of something it was not before.
    fn warns_anew(&self, next: &TrialCut) -> bool {
        let after = check(next, self.strand, self.rules);
        let after = self.layout.faults(after.conflicts.iter());
        after.without(&self.faults).has_a_warning()
    }
}
