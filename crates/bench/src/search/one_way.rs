//! Plans in which every roll is worked in one direction: exact.

use super::course::Course;
use super::pins::Pins;
use super::table::{self, Table};
use crate::plan::{Figures, Plan, Take};
use crate::wanted::{Wanted, WantedRoll};

/// A plan with what it comes to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Found {
    pub(crate) plan: Plan,
    pub(crate) figures: Figures,
}

/// For each roll its direction: worked from the tail, or from the head.
#[derive(Debug)]
pub(crate) struct Directions<'a> {
    wanted: &'a Wanted,
    from_tail: Vec<bool>,
    courses: Vec<Course>,
}

/// The turns of a roll's strips in the order of one direction.
pub(crate) fn turns(roll: &WantedRoll, from_tail: bool) -> Vec<usize> {
    let mut turns: Vec<usize> = roll.strips.iter().map(|s| s.turn).collect();
    if from_tail {
        turns.reverse();
    }
    turns
}

impl<'a> Directions<'a> {
    /// These directions, if one table can hold all rolls.
    pub(crate) fn new(wanted: &'a Wanted, from_tail: Vec<bool>) -> Option<Self> {
        let pairs = wanted.rolls.iter().zip(&from_tail);
        let courses: Vec<Course> = pairs
            .map(|(roll, tail)| Course::in_order(&turns(roll, *tail), wanted.turns()))
            .collect();
        table::standings(&courses)?;
        Some(Self {
            wanted,
            from_tail,
            courses,
        })
    }

    /// Every roll from its head.
    pub(crate) fn heads(wanted: &'a Wanted) -> Option<Self> {
        Self::new(wanted, vec![false; wanted.rolls.len()])
    }

    /// Frames wound; the same for every order of the rolls.
    pub(crate) fn wound(&self) -> u64 {
        wound(self.wanted, &self.from_tail)
    }

    /// The fewest pins with which it can be done.
    pub(crate) fn fewest_pins(&self) -> usize {
        self.pins().fewest(self.wanted.turns())
    }

    /// What answers whether so many pins suffice.
    pub(crate) fn pins(&self) -> Pins {
        Pins::new(&self.courses)
    }

    /// A plan with the fewest roll changes within so many pins.
    pub(crate) fn within(&self, pins: usize) -> Option<Found> {
        let order = Table::new(&self.courses, pins).walk(&self.courses)?;
        let mut next = vec![0_usize; self.courses.len()];
        let takes = order.into_iter().map(|roll| {
            let backward = self.from_tail[roll];
            let strips = self.wanted.rolls[roll].strips.len();
            let at = next[roll];
            next[roll] += 1;
            let strip = if backward { strips - 1 - at } else { at };
            Take {
                roll,
                strip,
                backward,
            }
        });
        let plan = Plan {
            takes: takes.collect(),
            through: self.from_tail.clone(),
        };
        let figures = plan.figures(self.wanted);
        Some(Found { plan, figures })
    }

    /// The plan with fewest roll changes and then fewest pins within so many.
    pub(crate) fn best_within(&self, pins: usize) -> Option<Found> {
        let mut best = self.within(pins)?;
        // Between the fewest that serve at all and those of the plan in hand.
        let mut at_least = self.fewest_pins();
        while at_least < best.figures.pins {
            let middle = at_least.midpoint(best.figures.pins);
            match self.within(middle) {
                Some(found) if found.figures.changes == best.figures.changes => best = found,
                _ => at_least = middle + 1,
            }
        }
        Some(best)
    }

    /// Every corner of changes against pins, the fewest changes first.
    pub(crate) fn corners(&self) -> Vec<Found> {
        let mut corners: Vec<Found> = Vec::new();
        let mut pins = self.wanted.turns();
        while let Some(found) = self.within(pins) {
            let fewer = found.figures.pins.checked_sub(1);
            match corners.last_mut() {
                Some(last) if last.figures.changes == found.figures.changes => *last = found,
                _ => corners.push(found),
            }
            let Some(fewer) = fewer else { break };
            pins = fewer;
        }
        corners
    }
}

/// Frames wound with these directions.
pub(crate) fn wound(wanted: &Wanted, from_tail: &[bool]) -> u64 {
    let one = |(roll, tail): (&WantedRoll, &bool)| match tail {
        true => roll.wound_tails(),
        false => roll.wound_heads(),
    };
    wanted.rolls.iter().zip(from_tail).map(one).sum()
}
