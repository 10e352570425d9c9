//! Which rolls to work from their tails: exact, by leaving out what cannot be
//! best.

use std::collections::BTreeMap;

use super::course::{Course, renumbered};
use super::one_way::{Directions, Found, turns, wound};
use super::pins::Pins;
use super::table::Table;
use crate::wanted::Wanted;

/// Rolls of which every set of tails is looked at.
const MOST_ROLLS: usize = 10;

/// Standings that all tables of one question may hold together: about half a
/// second.
pub(crate) const LONG: usize = 60_000_000;
/// The same where the answer is one of several.
pub(crate) const SHORT: usize = 4_000_000;

/// Words gone through to find the fewest pins.
const MOST_WORDS: usize = 14_000_000;

/// Rolls that are looked at alone to rule out a set of tails.
const GROUP: usize = 4;

/// The answer, and whether every set of tails was looked at or ruled out.
#[derive(Debug, Clone)]
pub(crate) struct Answer {
    pub(crate) found: Option<Found>,
    pub(crate) proved: bool,
}

/// The fewest pins when rolls may be worked from their tails.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct FewestOfTails {
    pub(crate) pins: usize,
    /// No set does with fewer.
    pub(crate) at_least: usize,
    /// The rolls worked from their tails.
    pub(crate) set: Vec<bool>,
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
        tables.saturating_mul(self.standings) <= LONG / 2
    }

    /// Every corner of every set.
    pub(crate) fn corners(&self) -> Vec<Found> {
        let sets = self.sets.iter().cloned();
        sets.filter_map(|set| Directions::new(self.wanted, set))
            .flat_map(|directions| directions.corners())
            .collect()
    }

    /// The best plan within the pins: fewest changes, then least wound, then
    /// fewest pins. `known` is a plan to beat, the best without any tail at least.
    pub(crate) fn best(&mut self, pins: usize, known: Option<Found>, most_work: usize) -> Answer {
        let mut best = known;
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
            let directions = Directions::new(self.wanted, set.clone());
            let suffice = directions.as_ref().is_some_and(|d| d.pins().suffice(pins));
            work += self.standings / if suffice { 1 } else { 4 };
            if work > most_work {
                proved = false;
                break;
            }
            if !suffice {
                continue;
            }
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

    /// The fewest pins of any set, and the set; `heads` are those of none.
    pub(crate) fn fewest_pins(&mut self, heads: usize) -> FewestOfTails {
        let sets = std::mem::take(&mut self.sets);
        let mut bounds: Vec<(usize, usize)> = sets
            .iter()
            .enumerate()
            .map(|(i, set)| (self.pins_at_least(set), i))
            .collect();
        bounds.sort_unstable();
        let mut best = FewestOfTails {
            pins: heads,
            at_least: heads,
            set: vec![false; self.wanted.rolls.len()],
        };
        let mut work = 0_usize;
        for (bound, i) in bounds {
            if bound >= best.pins {
                break;
            }
            let Some(pins) = Directions::new(self.wanted, sets[i].clone()).map(|d| d.pins()) else {
                continue;
            };
            work += pins.words();
            if work > MOST_WORDS {
                best.at_least = bound.min(best.pins);
                self.sets = sets;
                return best;
            }
            let fewest = pins.fewest(best.pins);
            if fewest < best.pins {
                best.pins = fewest;
                best.set.clone_from(&sets[i]);
            }
        }
        best.at_least = best.pins;
        self.sets = sets;
        best
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
                    let pins = Pins::new(&self.courses(&group, set)).fewest(self.wanted.turns());
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
