//! How few sessions could do, whatever plan is made.
//!
//! Three reasons, each true by itself: a thing is needed for so long; a team has so much to
//! do one behind the other; and both together, asked of every stretch of the course: what
//! can only lie within it must find room in it.

use std::collections::BTreeSet;

use super::Roster;
use super::course::Course;
use super::parts::{Part, Work};

/// How few sessions could do.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct RosterBounds {
    /// What each thing asks for, in the order of the roster.
    pub by_thing: Vec<ThingBound>,
    /// What each team asks for, in the order of the roster.
    pub by_team: Vec<TeamBound>,
    /// What things and teams ask for together.
    pub together: usize,
    /// No plan needs fewer sessions: the greatest of all, or more where every way of doing
    /// with so few was tried.
    pub at_least: usize,
}

/// What a thing asks for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ThingBound {
    /// The thing.
    pub thing: String,
    /// How long it is used, summed over all of its kind. Unit: slots.
    pub slots: u32,
    /// No plan needs fewer sessions.
    pub sessions: usize,
}

/// What a team asks for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TeamBound {
    /// The team.
    pub team: String,
    /// Its work in all. Unit: slots.
    pub slots: u32,
    /// No plan needs fewer sessions.
    pub sessions: usize,
}

/// When a sitting can lie at the earliest and at the latest, its team alone.
#[derive(Debug, Clone, Copy)]
struct Window {
    begin: u32,
    end: u32,
    length: u32,
    count: u32,
}

/// A way of weighing sittings: what each weighs by its length, and what a stretch of a
/// session can hold of it at most.
struct Scale {
    weight: Vec<u64>,
    holds: Vec<u64>,
}

pub(crate) fn bounds(roster: &Roster, work: &Work) -> RosterBounds {
    let by_team: Vec<TeamBound> = roster
        .teams
        .iter()
        .zip(&work.teams)
        .map(|(team, parts)| TeamBound {
            team: team.name.clone(),
            slots: parts.iter().map(|part| part.length).sum(),
            sessions: chain_sessions(&work.course, parts),
        })
        .collect();
    let by_thing: Vec<ThingBound> = roster
        .things
        .iter()
        .enumerate()
        .map(|(at, thing)| ThingBound {
            thing: thing.name.clone(),
            slots: slots_of(work, at),
            sessions: load_sessions(work, at),
        })
        .collect();
    let alone = by_team.iter().map(|b| b.sessions);
    let alone = alone.chain(by_thing.iter().map(|b| b.sessions));
    let alone = alone.max().unwrap_or(0);
    let together = together(work, alone);
    RosterBounds {
        at_least: alone.max(together),
        by_thing,
        by_team,
        together,
    }
}

/// The end of the last sitting, with nobody else in the way.
fn chain_sessions(course: &Course, parts: &[Part]) -> usize {
    let end = earliest(course, parts).last().map_or(0, |(_, end)| *end);
    match end {
        0 => 0,
        end => course.session_of(end - 1) + 1,
    }
}

/// First slot and end of each sitting, with nobody else in the way.
fn earliest(course: &Course, parts: &[Part]) -> Vec<(u32, u32)> {
    let mut ready = 0;
    let mut all = Vec::new();
    for part in parts {
        let begin = course.first_fit(ready.max(part.release), part.length);
        let begin = begin.unwrap_or_else(|| course.begin(course.sessions()));
        ready = begin + part.length;
        all.push((begin, ready));
    }
    all
}

/// Where each sitting can lie when all is done by `end`; none when a team has no time.
fn windows(course: &Course, parts: &[Part], end: u32) -> Option<Vec<(u32, u32)>> {
    let mut all = earliest(course, parts);
    let mut by = end;
    for (at, part) in parts.iter().enumerate().rev() {
        let begin = course.last_fit(by, part.length)?;
        if begin < all[at].0 {
            return None;
        }
        all[at].1 = begin + part.length;
        by = begin;
    }
    Some(all)
}

fn users(work: &Work, thing: usize) -> impl Iterator<Item = (&Part, u32)> {
    work.teams.iter().flatten().filter_map(move |part| {
        let need = part.needs.iter().find(|(at, _)| *at == thing);
        need.map(|(_, count)| (part, *count))
    })
}

fn slots_of(work: &Work, thing: usize) -> u32 {
    users(work, thing)
        .map(|(part, count)| part.length * count)
        .sum()
}

/// How many sessions the load of one thing fills.
fn load_sessions(work: &Work, thing: usize) -> usize {
    let all: Vec<Window> = users(work, thing)
        .map(|(part, count)| Window {
            begin: 0,
            end: 0,
            length: part.length,
            count,
        })
        .collect();
    if all.is_empty() {
        return 0;
    }
    let scales = scales(&all, work.course.longest());
    (1..=work.course.sessions())
        .find(|sessions| {
            let end = work.course.begin(*sessions);
            scales.iter().all(|scale| {
                let load: u64 = all.iter().map(|window| scale.of(window)).sum();
                load <= u64::from(work.counts[thing]) * scale.room(&work.course, 0, end)
            })
        })
        .unwrap_or(work.course.sessions())
}

/// Going up from what each asks for alone: the first number of sessions that no stretch
/// forbids. All before it are forbidden.
fn together(work: &Work, alone: usize) -> usize {
    (alone..work.course.sessions())
        .find(|sessions| !is_forbidden(work, *sessions))
        .unwrap_or(work.course.sessions())
}

/// Whether it can be told at once that so few sessions do not do.
fn is_forbidden(work: &Work, sessions: usize) -> bool {
    let end = work.within(sessions);
    let mut by_thing: Vec<Vec<Window>> = vec![Vec::new(); work.counts.len()];
    for parts in &work.teams {
        let Some(windows) = windows(&work.course, parts, end) else {
            return true;
        };
        for (part, (begin, end)) in parts.iter().zip(windows) {
            for (thing, count) in &part.needs {
                by_thing[*thing].push(Window {
                    begin,
                    end,
                    length: part.length,
                    count: *count,
                });
            }
        }
    }
    by_thing
        .iter_mut()
        .zip(&work.counts)
        .any(|(windows, count)| is_overfull(&work.course, windows, *count))
}

/// Whether a stretch has less room than what can only lie within it.
fn is_overfull(course: &Course, windows: &mut [Window], count: u32) -> bool {
    windows.sort_unstable_by_key(|window| window.end);
    let begins: BTreeSet<u32> = windows.iter().map(|window| window.begin).collect();
    let scales = scales(windows, course.longest());
    begins.into_iter().any(|begin| {
        scales.iter().any(|scale| {
            let mut load = 0;
            windows
                .iter()
                .filter(|window| window.begin >= begin)
                .any(|window| {
                    load += scale.of(window);
                    load > u64::from(count) * scale.room(course, begin, window.end)
                })
        })
    })
}

/// By length, a session holding what its length can be put together from; and, for each
/// length, by number: how many at least this long it can hold.
fn scales(windows: &[Window], longest: u32) -> Vec<Scale> {
    let lengths: BTreeSet<u32> = windows.iter().map(|window| window.length).collect();
    let mut reached = vec![false; longest as usize + 1];
    reached[0] = true;
    for at in 1..=longest {
        let from = |length: &u32| at >= *length && reached[(at - length) as usize];
        reached[at as usize] = lengths.iter().any(from);
    }
    let holds = (0..=longest).scan(0, |most, at| {
        if reached[at as usize] {
            *most = u64::from(at);
        }
        Some(*most)
    });
    let mut all = vec![Scale {
        weight: (0..=longest).map(u64::from).collect(),
        holds: holds.collect(),
    }];
    all.extend(lengths.into_iter().map(|least| Scale {
        weight: (0..=longest).map(|at| u64::from(at >= least)).collect(),
        holds: (0..=longest).map(|at| u64::from(at / least)).collect(),
    }));
    all
}

impl Scale {
    fn of(&self, window: &Window) -> u64 {
        u64::from(window.count) * self.weight[window.length as usize]
    }

    /// What one thing can hold between two slots.
    fn room(&self, course: &Course, from: u32, to: u32) -> u64 {
        course
            .stretches(from, to)
            .map(|length| self.holds[length as usize])
            .sum()
    }
}
