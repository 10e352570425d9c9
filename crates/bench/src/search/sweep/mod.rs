//! A sweep over all plans at once, strip by strip.
//!
//! Level n holds the standings of the bench after n strips. What another
//! standing of the same level does at least as well is left out, and so is what
//! cannot reach the plan known already. As long as nothing else had to be left
//! out for want of room, the best at the last level is the best there is.

mod child;
mod dominated;
mod groups;
mod level;
#[cfg(test)]
mod tests;

use super::one_way::Found;
use crate::habits::Winding;
use crate::plan::{Plan, Take};
use crate::wanted::Wanted;
use child::Child;
pub(crate) use groups::Groups;
use level::Level;

/// What is kept first when there is no room for all.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Aim {
    /// Few roll changes, then little winding.
    Changes,
    /// Few pins.
    Pins,
}

/// What is swept, and how far.
#[derive(Debug)]
pub(crate) struct Sweep<'a> {
    pub(crate) wanted: &'a Wanted,
    pub(crate) winding: Winding,
    pub(crate) pins: usize,
    pub(crate) groups: &'a Groups,
    /// Roll changes that no plan goes below.
    pub(crate) least_changes: u32,
    /// Only plans that need no more changes, and at as many wind no more.
    pub(crate) at_most: Option<(u32, u64)>,
    pub(crate) aim: Aim,
    /// To and fro, so many strips of a roll may be taken next: those whose turns
    /// come first.
    pub(crate) choice: usize,
    /// Of one set of strips taken, so many standings are held against each new
    /// one; with none, nothing is left out.
    pub(crate) compared: usize,
    /// Standings kept of a level.
    pub(crate) width: usize,
    /// Children looked at before the sweep becomes narrow.
    pub(crate) work: usize,
}

/// What a sweep found.
#[derive(Debug)]
pub(crate) struct Swept {
    pub(crate) found: Option<Found>,
    /// Whether standings were left out for want of room.
    pub(crate) dropped: bool,
}

/// Standings kept when the work is used up.
const NARROW: usize = 64;

impl Sweep<'_> {
    /// Sweeps.
    pub(crate) fn run(&self) -> Swept {
        let mut level = Level::first(self.wanted, self.groups);
        let mut history: Vec<Vec<(u32, Take)>> = Vec::new();
        let most = self.wanted.rolls.iter().map(|r| r.strips.len()).max();
        let to_and_fro = self.winding == Winding::ToAndFro;
        let mut dropped = to_and_fro && most > Some(self.choice);
        let mut work = 0_usize;
        for _ in 0..self.wanted.turns() {
            let mut children = self.children(&level);
            work += children.len();
            dominated::left_out(&level, &mut children, self);
            let width = if work > self.work { NARROW } else { self.width };
            if children.len() > width {
                dropped = true;
                match self.aim {
                    Aim::Changes => children.select_nth_unstable_by_key(width, Child::rank),
                    Aim::Pins => children.select_nth_unstable_by_key(width, Child::pins_rank),
                };
                children.truncate(width);
            }
            children.sort_unstable_by_key(Child::rank);
            level = level.after(&children, self);
            history.push(children.iter().map(|c| (c.parent, c.take)).collect());
        }
        let found = level.best().map(|last| self.found(&history, last));
        Swept { found, dropped }
    }

    fn children(&self, level: &Level) -> Vec<Child> {
        let mut children = Vec::new();
        for node in 0..level.len() {
            self.children_of(level, node, &mut children);
        }
        children
    }

    /// Whether a plan with so many changes and so much wound, at least, can
    /// still be wanted.
    fn wanted_still(&self, changes: u32, wound: u64) -> bool {
        let changes = changes.max(self.least_changes);
        self.at_most.is_none_or(|most| (changes, wound) <= most)
    }

    fn found(&self, history: &[Vec<(u32, Take)>], last: usize) -> Found {
        let mut takes = Vec::with_capacity(history.len());
        let mut at = last;
        for level in history.iter().rev() {
            let (parent, take) = level[at];
            takes.push(take);
            at = parent as usize;
        }
        takes.reverse();
        let plan = Plan {
            through: self.through(&takes),
            takes,
        };
        let figures = plan.figures(self.wanted);
        Found { plan, figures }
    }

    /// A roll whose first strip is taken backward was wound through, unless it
    /// may be wound as one likes.
    fn through(&self, takes: &[Take]) -> Vec<bool> {
        let first = |r| takes.iter().find(|t| t.roll == r);
        let tails = self.winding == Winding::Tails;
        (0..self.wanted.rolls.len())
            .map(|r| tails && first(r).is_some_and(|t| t.backward))
            .collect()
    }
}
