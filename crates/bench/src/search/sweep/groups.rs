//! The bound: rolls in groups, each group with all other rolls thought away.

use crate::habits::Winding;
use crate::plan::{Plan, Take};
use crate::search::course::{Course, renumbered};
use crate::search::one_way::{Found, turns};
use crate::search::pins::Pins;
use crate::search::table::{self, Table};
use crate::wanted::Wanted;

/// Standings of one group when the rolls are too many for one table.
const GROUP_STANDINGS: usize = 1_200_000;

/// Groups of rolls with their tables. A plan of all rolls, with the strips of
/// the others left out, is a plan of the group that needs no more pins and no
/// more mountings: what the groups need adds up.
#[derive(Debug)]
pub(crate) struct Groups {
    pub(crate) tables: Vec<Table>,
    /// For each roll its group and its place there.
    pub(crate) places: Vec<(usize, usize)>,
    fewest_pins: usize,
    /// All rolls in the order of their turns, when one table holds them.
    whole: Option<Vec<Course>>,
}

fn course(wanted: &Wanted, roll: usize, winding: Winding) -> Vec<usize> {
    let mut turns = turns(&wanted.rolls[roll], false);
    if winding == Winding::ToAndFro {
        // Of two strips of a roll it is never worse, for pins and changes, to
        // take first the one whose turn comes first.
        turns.sort_unstable();
    }
    turns
}

fn courses(wanted: &Wanted, members: &[usize], winding: Winding) -> Vec<Course> {
    let lists: Vec<Vec<usize>> = members
        .iter()
        .map(|r| course(wanted, *r, winding))
        .collect();
    let lists: Vec<&[usize]> = lists.iter().map(Vec::as_slice).collect();
    let all = lists.iter().map(|l| l.len()).sum();
    let course = |list: &Vec<usize>| match winding {
        Winding::Tails => Course::from_either_end(list, all),
        _ => Course::in_order(list, all),
    };
    renumbered(&lists).iter().map(course).collect()
}

impl Groups {
    /// The tables for a way of winding and so many pins: one of all rolls when
    /// it is not too large.
    pub(crate) fn new(wanted: &Wanted, winding: Winding, pins: usize) -> Self {
        let members = members(wanted, winding);
        let mut places = vec![(0, 0); wanted.rolls.len()];
        for (g, group) in members.iter().enumerate() {
            for (i, roll) in group.iter().enumerate() {
                places[*roll] = (g, i);
            }
        }
        let courses: Vec<Vec<Course>> = members
            .iter()
            .map(|group| courses(wanted, group, winding))
            .collect();
        // To and fro cut order serves without a pin.
        let fewest = |c: &Vec<Course>| match winding {
            Winding::ToAndFro => 0,
            _ => Pins::new(c).fewest(wanted.turns()),
        };
        Self {
            tables: courses.iter().map(|c| Table::new(c, pins)).collect(),
            places,
            fewest_pins: courses.iter().map(fewest).max().unwrap_or(0),
            whole: courses.first().filter(|_| courses.len() == 1).cloned(),
        }
    }

    /// Roll changes that no plan within the pins goes below; nothing when there
    /// is no such plan.
    pub(crate) fn least_changes(&self) -> Option<u32> {
        let mountings = self.tables.iter().map(|t| t.mountings(0));
        let all: u32 = mountings.sum::<Option<u32>>()?;
        Some(all.saturating_sub(1))
    }

    /// To and fro: a plan with the fewest roll changes within the pins, each roll's
    /// strips in the order of their turns. It winds more than it must.
    pub(crate) fn in_turn(&self, wanted: &Wanted) -> Option<Found> {
        let courses = self.whole.as_ref()?;
        let order = self.tables[0].walk(courses)?;
        let mut next = vec![0_usize; wanted.rolls.len()];
        let mut stands = vec![0_u32; wanted.rolls.len()];
        let takes = order.into_iter().map(|roll| {
            let strip = wanted.rolls[roll].by_turn[next[roll]];
            next[roll] += 1;
            let of = wanted.rolls[roll].strips[strip];
            let backward = stands[roll].abs_diff(of.end) < stands[roll].abs_diff(of.begin);
            stands[roll] = if backward { of.begin } else { of.end };
            Take {
                roll,
                strip,
                backward,
            }
        });
        let plan = Plan {
            takes: takes.collect(),
            through: Vec::new(),
        };
        let figures = plan.figures(wanted);
        Some(Found { plan, figures })
    }

    /// Pins that no plan goes below.
    pub(crate) fn fewest_pins(&self) -> usize {
        self.fewest_pins
    }

    /// Whether all rolls stand in one table, so that its answers are exact.
    pub(crate) fn exact(&self) -> bool {
        self.whole.is_some()
    }
}

/// The rolls of each group, in the order of their names.
fn members(wanted: &Wanted, winding: Winding) -> Vec<Vec<usize>> {
    let all: Vec<usize> = (0..wanted.rolls.len()).collect();
    if winding != Winding::Tails && table::standings(&courses(wanted, &all, winding)).is_some() {
        return vec![all];
    }
    let mut groups: Vec<Vec<usize>> = Vec::new();
    let mut standings = usize::MAX;
    for roll in all {
        let own = courses(wanted, &[roll], winding)[0].len();
        let more = standings.saturating_mul(own);
        match groups.last_mut() {
            Some(group) if more <= GROUP_STANDINGS && group.len() < 16 => {
                group.push(roll);
                standings = more;
            }
            _ => {
                groups.push(vec![roll]);
                standings = own;
            }
        }
    }
    groups
}
