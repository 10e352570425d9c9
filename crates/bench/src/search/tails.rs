//! Which rolls to work from their tails: exact, by leaving out what cannot be
//! best.

use std::collections::BTreeMap;

use super::course::{Course, renumbered};
use super::one_way::{Directions, Found, turns, wound};
use super::table::{self, Table};
use crate::wanted::Wanted;

/// Rolls of which every set of tails is looked at.
const MOST_ROLLS: usize = 10;

/// Standings that all tables of one question may hold together: about half a
/// second.
const MOST_WORK: usize = 40_000_000;

/// Rolls that are looked at alone to rule out a set of tails.
const GROUP: usize = 4;

/// The answer, and whether every set of tails was looked at or ruled out.
#[derive(Debug, Clone)]
pub(crate) struct Answer<T> {
    pub(crate) found: T,
    pub(crate) proved: bool,
}

/// All sets of tails of a cut.
pub(crate) struct Tails<'a> {
    wanted: &'a Wanted,
    /// Every set that winds more than none, the least wound first.
    sets: Vec<Vec<bool>>,
    standings: usize,
    groups: Vec<Vec<usize>>,
    known: BTreeMap<Key, u32>,
}

/// Rolls of a group, their directions, and the pins.
type Key = (Vec<usize>, Vec<bool>, usize);

impl<'a> Tails<'a> {
    /// The sets, if every one can be looked at.
    pub(crate) fn new(wanted: &'a Wanted) -> Option<Self> {
        let rolls = wanted.rolls.len();
        if rolls > MOST_ROLLS {
            return None;
        }
        let lengths = wanted.rolls.iter().map(|r| r.strips.len() + 1);
        let standings = lengths.fold(1_usize, |all, n| all.saturating_mul(n));
        Directions::heads(wanted)?;
        let mut sets: Vec<Vec<bool>> = (1..1_u32 << rolls)
            .map(|bits| (0..rolls).map(|r| bits >> r & 1 == 1).collect())
            .collect();
        sets.sort_by_key(|set| wound(wanted, set));
        Some(Self {
            wanted,
            sets,
            standings,
            groups: groups(rolls),
            known: BTreeMap::new(),
        })
    }

    /// Whether all corners of all sets can be reckoned in time.
    pub(crate) fn few(&self) -> bool {
        let tables = self.sets.len().saturating_mul(self.wanted.turns());
        tables.saturating_mul(self.standings) <= MOST_WORK / 2
    }

    /// Every corner of every set.
    pub(crate) fn corners(&self) -> Vec<Found> {
        let sets = self.sets.iter().cloned();
        sets.filter_map(|set| Directions::new(self.wanted, set))
            .flat_map(|directions| directions.corners())
            .collect()
    }

    /// The best plan within the pins: fewest changes, then least wound, then
    /// fewest pins. `heads` is the best without any tail.
    pub(crate) fn best(&mut self, pins: usize, heads: Option<Found>) -> Answer<Option<Found>> {
        let mut best = heads;
        let mut work = 0_usize;
        let sets = std::mem::take(&mut self.sets);
        let least = self.wanted.rolls.len() - 1;
        let mut proved = true;
        for set in &sets {
            let known = best.as_ref().map(|b| (b.figures.changes, b.figures.wound));
            let wound = wound(self.wanted, set);
            // From here on every set winds more.
            if known.is_some_and(|(changes, best)| changes == least && wound > best) {
                break;
            }
            let Some(bound) = self.changes_at_least(set, pins) else {
                continue;
            };
            if known.is_some_and(|known| (bound, wound) > known) {
                continue;
            }
            work += self.standings;
            if work > MOST_WORK {
                proved = false;
                break;
            }
            let directions = Directions::new(self.wanted, set.clone());
            let Some(found) = directions.as_ref().and_then(|d| d.within(pins)) else {
                continue;
            };
            if known.is_none_or(|known| (found.figures.changes, wound) <= known) {
                let found = directions.and_then(|d| d.best_within(pins));
                best = better(best, found);
            }
        }
        self.sets = sets;
        Answer {
            found: best,
            proved,
        }
    }

    /// The fewest pins of any set, `heads` being those of none.
    pub(crate) fn fewest_pins(&mut self, heads: usize) -> Answer<usize> {
        let mut best = heads;
        let mut work = 0_usize;
        let sets = std::mem::take(&mut self.sets);
        let mut bounds: Vec<(usize, usize)> = sets
            .iter()
            .enumerate()
            .map(|(i, set)| (self.pins_at_least(set), i))
            .collect();
        bounds.sort_unstable();
        let mut proved = true;
        for (bound, i) in bounds {
            if bound >= best {
                break;
            }
            work += self.standings;
            if work > MOST_WORK {
                proved = false;
                break;
            }
            let directions = Directions::new(self.wanted, sets[i].clone());
            best = best.min(directions.map_or(best, |d| d.fewest_pins()));
        }
        self.sets = sets;
        Answer {
            found: best,
            proved,
        }
    }

    /// What a set cannot go below in roll changes; nothing when a group of its
    /// rolls alone wants more pins than there are.
    fn changes_at_least(&mut self, set: &[bool], pins: usize) -> Option<usize> {
        let rolls = set.len();
        let mut bound = rolls - 1;
        for group in self.groups.clone() {
            let others: Vec<usize> = (0..rolls).filter(|r| !group.contains(r)).collect();
            let this = self.group(&group, set, pins)?;
            let rest = match others.len() {
                0 => 0,
                n if n <= GROUP => self.group(&others, set, pins)?,
                n => n,
            };
            bound = bound.max(this + rest - 1);
        }
        Some(bound)
    }

    /// Mountings that a group wants with all other rolls thought away.
    fn group(&mut self, group: &[usize], set: &[bool], pins: usize) -> Option<usize> {
        let key = self.key(group, set, pins);
        if let Some(known) = self.known.get(&key) {
            return (*known != u32::MAX).then_some(*known as usize);
        }
        let courses = self.courses(group, set);
        let mountings = Table::new(&courses, pins).mountings(0);
        self.known.insert(key, mountings.unwrap_or(u32::MAX));
        mountings.map(|n| n as usize)
    }

    fn pins_at_least(&mut self, set: &[bool]) -> usize {
        let mut bound = 0;
        for group in self.groups.clone() {
            let key = self.key(&group, set, usize::MAX);
            let pins = match self.known.get(&key) {
                Some(known) => *known,
                None => {
                    let pins = table::fewest_pins(&self.courses(&group, set));
                    let pins = u32::try_from(pins).unwrap_or(u32::MAX);
                    self.known.insert(key, pins);
                    pins
                }
            };
            bound = bound.max(pins as usize);
        }
        bound
    }

    fn key(&self, group: &[usize], set: &[bool], pins: usize) -> Key {
        let directions = group.iter().map(|r| set[*r]).collect();
        (group.to_vec(), directions, pins)
    }

    fn courses(&self, group: &[usize], set: &[bool]) -> Vec<Course> {
        let lists: Vec<Vec<usize>> = group
            .iter()
            .map(|r| turns(&self.wanted.rolls[*r], set[*r]))
            .collect();
        let lists: Vec<&[usize]> = lists.iter().map(Vec::as_slice).collect();
        let all = lists.iter().map(|l| l.len()).sum();
        let lists = renumbered(&lists);
        lists.iter().map(|l| Course::in_order(l, all)).collect()
    }
}

fn better(one: Option<Found>, other: Option<Found>) -> Option<Found> {
    match (one, other) {
        (Some(a), Some(b)) => Some(if b.figures < a.figures { b } else { a }),
        (a, b) => a.or(b),
    }
}

/// Every group of four of the rolls; all of them when there are no more.
fn groups(rolls: usize) -> Vec<Vec<usize>> {
    let size = u32::try_from(rolls.min(GROUP)).unwrap_or(0);
    (0..1_u32 << rolls)
        .filter(|bits| bits.count_ones() == size)
        .map(|bits| (0..rolls).filter(|r| bits >> r & 1 == 1).collect())
        .collect()
}
