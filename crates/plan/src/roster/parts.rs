//! Steps as sittings: what is laid on the course, one behind the other in each team.

use super::course::Course;
use super::{Roster, key};

/// One sitting of a step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Part {
    /// Which step of the team.
    pub(crate) step: usize,
    /// Which sitting of how many, from 1.
    pub(crate) sitting: (u16, u16),
    /// Unit: slots.
    pub(crate) length: u32,
    /// The slot it may begin at the earliest.
    pub(crate) release: u32,
    /// Which thing, and how many of it. Groups that work apart are things too.
    pub(crate) needs: Vec<(usize, u32)>,
}

/// Everything that is to be laid.
#[derive(Debug, Clone)]
pub(crate) struct Work {
    /// The sittings of each team in order.
    pub(crate) teams: Vec<Vec<Part>>,
    /// How many there are of each thing; behind the things of the roster, one place for
    /// each group of teams that work apart.
    pub(crate) counts: Vec<u32>,
    /// For each team the first team with the very same work.
    pub(crate) alike: Vec<usize>,
    /// The session given, and as many more as could be needed.
    pub(crate) course: Course,
}

impl Work {
    pub(crate) fn of(roster: &Roster) -> Self {
        let sittings: usize = roster
            .teams
            .iter()
            .flat_map(|team| &team.steps)
            .map(|step| usize::from(sittings(step.slots, step.sitting).count_of()))
            .sum();
        let latest = roster.teams.iter().flat_map(|team| &team.steps);
        let latest = latest.filter_map(|step| step.from).max().unwrap_or(0);
        let needed = roster.sessions.len().max(usize::from(latest)) + sittings;
        let course = Course::new(&roster.sessions, needed);
        let mut counts: Vec<u32> = roster.things.iter().map(|t| u32::from(t.count)).collect();
        counts.extend(roster.apart.iter().map(|_| 1));
        let teams: Vec<Vec<Part>> = (0..roster.teams.len())
            .map(|team| parts_of(roster, team, &course))
            .collect();
        let first_alike = |team: &Vec<Part>| teams.iter().position(|other| other == team);
        let alike = teams.iter().map(|t| first_alike(t).unwrap_or(0)).collect();
        Self {
            alike,
            teams,
            counts,
            course,
        }
    }

    pub(crate) fn parts(&self) -> usize {
        self.teams.iter().map(Vec::len).sum()
    }

    /// The same with a course that ends after so many sessions.
    pub(crate) fn within(&self, sessions: usize) -> u32 {
        self.course.begin(sessions)
    }
}

/// The sittings of a step: as long as they may be, the last one what is left.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Sittings {
    slots: u16,
    longest: u16,
}

pub(crate) const fn sittings(slots: u16, sitting: Option<u16>) -> Sittings {
    let longest = match sitting {
        Some(longest) if longest > 0 => longest,
        _ => slots,
    };
    Sittings { slots, longest }
}

impl Sittings {
    pub(crate) fn count_of(self) -> u16 {
        self.slots.div_ceil(self.longest.max(1))
    }

    /// The longest of them. Unit: slots.
    pub(crate) fn longest(self) -> u16 {
        self.longest.min(self.slots)
    }

    fn lengths(self) -> impl Iterator<Item = u16> {
        let Self { slots, longest } = self;
        (0..self.count_of()).map(move |at| longest.min(slots - at * longest))
    }
}

fn parts_of(roster: &Roster, team: usize, course: &Course) -> Vec<Part> {
    let team = &roster.teams[team];
    let mut parts = Vec::new();
    for (at, step) in team.steps.iter().enumerate() {
        if !step.is_free() {
            break;
        }
        let mut needs = things_of(roster, step);
        let name = key(&team.name);
        for (group, names) in roster.apart.iter().enumerate() {
            if names.iter().any(|other| key(other) == name) {
                needs.push((roster.things.len() + group, 1));
            }
        }
        let from = usize::from(step.from.unwrap_or(1)).saturating_sub(1);
        let sittings = sittings(step.slots, step.sitting);
        for (number, length) in (1..).zip(sittings.lengths()) {
            parts.push(Part {
                step: at,
                sitting: (number, sittings.count_of()),
                length: u32::from(length),
                release: course.begin(from),
                needs: needs.clone(),
            });
        }
    }
    parts
}

fn things_of(roster: &Roster, step: &super::RosterStep) -> Vec<(usize, u32)> {
    let mut needs: Vec<(usize, u32)> = Vec::new();
    for need in &step.needs {
        let name = key(&need.thing);
        let Some(thing) = roster.things.iter().position(|t| key(&t.name) == name) else {
            continue;
        };
        match needs.iter_mut().find(|(at, _)| *at == thing) {
            Some((_, count)) => *count += u32::from(need.count),
            None => needs.push((thing, u32::from(need.count))),
        }
    }
    needs.sort_unstable();
    needs
}
