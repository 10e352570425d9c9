//! Sittings laid on the course in a given order, each as early as it can be.

use super::parts::{Part, Work};

/// What is taken of each thing in each slot.
#[derive(Debug, Clone)]
pub(crate) struct Taken {
    /// By slot, then by thing.
    by_slot: Vec<u32>,
    things: usize,
}

impl Taken {
    pub(crate) fn new(things: usize) -> Self {
        Self {
            by_slot: Vec::new(),
            things,
        }
    }

    pub(crate) fn at(&self, slot: u32, thing: usize) -> u32 {
        let place = slot as usize * self.things + thing;
        self.by_slot.get(place).copied().unwrap_or(0)
    }

    pub(crate) fn take(&mut self, part: &Part, start: u32) {
        let end = (start + part.length) as usize * self.things;
        if self.by_slot.len() < end {
            self.by_slot.resize(end, 0);
        }
        for slot in start..start + part.length {
            for (thing, count) in &part.needs {
                self.by_slot[slot as usize * self.things + thing] += count;
            }
        }
    }

    pub(crate) fn give_back(&mut self, part: &Part, start: u32) {
        for slot in start..start + part.length {
            for (thing, count) in &part.needs {
                self.by_slot[slot as usize * self.things + thing] -= count;
            }
        }
    }

    /// The first slot from `ready` on where the sitting lies in one session and all it
    /// needs is free.
    pub(crate) fn earliest(&self, work: &Work, part: &Part, ready: u32) -> Option<u32> {
        let mut at = work
            .course
            .first_fit(ready.max(part.release), part.length)?;
        loop {
            let free = |slot: u32| {
                let taken = |(thing, count): &(usize, u32)| {
                    self.at(slot, *thing) + count > work.counts[*thing]
                };
                !part.needs.iter().any(taken)
            };
            match (at..at + part.length).rev().find(|slot| !free(*slot)) {
                None => return Some(at),
                Some(busy) => at = work.course.first_fit(busy + 1, part.length)?,
            }
        }
    }
}

/// Where every sitting begins, and how good that is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Laid {
    /// First slot of each sitting, by team.
    pub(crate) starts: Vec<Vec<u32>>,
    /// Less is better.
    pub(crate) worth: Worth,
}

/// How good a plan is: fewest sessions, then the last team done soonest, then all teams
/// together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Worth {
    pub(crate) sessions: usize,
    last: u32,
    together: u64,
}

impl Laid {
    pub(crate) fn new(work: &Work, starts: Vec<Vec<u32>>) -> Self {
        let end = |(team, starts): (&Vec<Part>, &Vec<u32>)| {
            let last = team.last().zip(starts.last());
            last.map_or(0, |(part, start)| start + part.length)
        };
        let ends: Vec<u32> = work.teams.iter().zip(&starts).map(end).collect();
        let last = ends.iter().copied().max().unwrap_or(0);
        let sessions = match last {
            0 => 0,
            end => work.course.session_of(end - 1) + 1,
        };
        let together = ends.iter().map(|end| u64::from(*end)).sum();
        Self {
            starts,
            worth: Worth {
                sessions,
                last,
                together,
            },
        }
    }
}

/// Lays the next sitting of each team in the order of the teams named. Complete lists
/// name each team as often as it has sittings.
pub(crate) fn lay(work: &Work, order: &[usize]) -> Option<Laid> {
    let mut taken = Taken::new(work.counts.len());
    let mut starts: Vec<Vec<u32>> = vec![Vec::new(); work.teams.len()];
    let mut ready = vec![0; work.teams.len()];
    for team in order {
        let part = &work.teams[*team][starts[*team].len()];
        let start = taken.earliest(work, part, ready[*team])?;
        taken.take(part, start);
        ready[*team] = start + part.length;
        starts[*team].push(start);
    }
    Some(Laid::new(work, starts))
}

/// The order in which the sittings of a plan begin.
pub(crate) fn order_of(laid: &Laid) -> Vec<usize> {
    let mut all: Vec<(u32, usize)> = Vec::new();
    for (team, starts) in laid.starts.iter().enumerate() {
        all.extend(starts.iter().map(|start| (*start, team)));
    }
    all.sort_unstable();
    all.into_iter().map(|(_, team)| team).collect()
}
