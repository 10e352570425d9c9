//! Whether all can be done within so many sessions: every way is tried, in the order in
//! which sittings begin.
//!
//! A plan in which nothing could begin earlier is reached by laying the sittings in the
//! order of their beginning, each at its first free place not before the last one. And in
//! such a plan none begins only when another, not yet laid, could be over by then. States
//! from which nothing was found are remembered: a state is what is left of each team, from
//! when it is free, and what the current session has left.

use std::collections::HashSet;

use super::lay::{Laid, Taken};
use super::parts::Work;

/// What came of the search.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Tried {
    /// A plan was found.
    Found(Laid),
    /// Every way was tried, and none does.
    None,
    /// The steps were used up first.
    NotKnown,
}

struct Search<'w> {
    work: &'w Work,
    end: u32,
    taken: Taken,
    starts: Vec<Vec<u32>>,
    ready: Vec<u32>,
    /// Load left of each team from each place on, by thing.
    left: Vec<Vec<Vec<u32>>>,
    hopeless: HashSet<Vec<u32>>,
    steps: usize,
    most_steps: usize,
}

/// Looks for a plan of so many sessions.
pub(crate) fn within(work: &Work, sessions: usize, most_steps: usize) -> Tried {
    let mut search = Search {
        work,
        end: work.within(sessions),
        taken: Taken::new(work.counts.len()),
        starts: vec![Vec::new(); work.teams.len()],
        ready: vec![0; work.teams.len()],
        left: work.teams.iter().map(|t| left_of(work, t)).collect(),
        hopeless: HashSet::new(),
        steps: 0,
        most_steps,
    };
    match search.go_on(0) {
        Some(true) => Tried::Found(Laid::new(work, search.starts)),
        Some(false) => Tried::None,
        None => Tried::NotKnown,
    }
}

fn left_of(work: &Work, parts: &[super::parts::Part]) -> Vec<Vec<u32>> {
    let mut left = vec![vec![0; work.counts.len()]];
    for part in parts.iter().rev() {
        let mut load = left.last().cloned().unwrap_or_default();
        for (thing, count) in &part.needs {
            load[*thing] += part.length * count;
        }
        left.push(load);
    }
    left.reverse();
    left
}

impl Search<'_> {
    /// Whether what is left can be laid from a slot on; none when the steps are used up.
    fn go_on(&mut self, from: u32) -> Option<bool> {
        if (0..self.starts.len()).all(|team| self.is_done(team)) {
            return Some(true);
        }
        self.steps += 1;
        if self.steps > self.most_steps {
            return None;
        }
        if !self.has_room(from) {
            return Some(false);
        }
        let Some(choices) = self.choices(from) else {
            return Some(false);
        };
        let state = self.state(from);
        if self.hopeless.contains(&state) {
            return Some(false);
        }
        for (start, team) in choices {
            let work = self.work;
            let part = &work.teams[team][self.starts[team].len()];
            let before = self.ready[team];
            self.taken.take(part, start);
            self.starts[team].push(start);
            self.ready[team] = start + part.length;
            match self.go_on(start) {
                Some(false) => {}
                ended => return ended,
            }
            self.ready[team] = before;
            self.starts[team].pop();
            self.taken.give_back(part, start);
        }
        self.hopeless.insert(state);
        Some(false)
    }

    fn is_done(&self, team: usize) -> bool {
        self.starts[team].len() == self.work.teams[team].len()
    }

    /// Which team may begin its next sitting when; none when one of them has no time left.
    fn choices(&self, from: u32) -> Option<Vec<(u32, usize)>> {
        let mut all = Vec::new();
        let mut first_end = u32::MAX;
        for team in (0..self.starts.len()).filter(|team| !self.is_done(*team)) {
            let done = self.starts[team].len();
            let parts = &self.work.teams[team][done..];
            let ready = self.ready[team].max(from);
            let start = self.taken.earliest(self.work, &parts[0], ready)?;
            let mut end = start + parts[0].length;
            first_end = first_end.min(end);
            for part in &parts[1..] {
                let begin = end.max(part.release);
                end = self.work.course.first_fit(begin, part.length)? + part.length;
            }
            if end > self.end {
                return None;
            }
            // Of teams with the same left to do and the same time for it, one is enough.
            let alike = |other: &(u32, usize)| {
                self.work.alike[other.1] == self.work.alike[team]
                    && self.starts[other.1].len() == done
                    && self.ready[other.1].max(from) == ready
            };
            if !all.iter().any(alike) {
                all.push((start, team));
            }
        }
        all.retain(|(start, _)| *start < first_end);
        // Who has the most left goes first where two could begin at once.
        let most_left = |team: usize| {
            let parts = &self.work.teams[team][self.starts[team].len()..];
            parts.iter().map(|part| part.length).sum::<u32>()
        };
        all.sort_by_key(|(start, team)| (*start, u32::MAX - most_left(*team), *team));
        Some(all)
    }

    /// Whether each thing has as many slots left as are wanted of it. All that is laid
    /// begins before `from` or at it, so sessions after this one are empty.
    fn has_room(&self, from: u32) -> bool {
        (0..self.work.counts.len()).all(|thing| {
            let wanted: u32 = (0..self.starts.len())
                .map(|team| self.left[team][self.starts[team].len()][thing])
                .sum();
            let room = (self.end.saturating_sub(from)) * self.work.counts[thing];
            let session = self.work.course.session_of(from);
            let this = from..self.work.course.begin(session + 1).min(self.end);
            let gone: u32 = this.map(|slot| self.taken.at(slot, thing)).sum();
            wanted + gone <= room
        })
    }

    /// All that decides what can still be done, teams with the same work in any order.
    fn state(&self, from: u32) -> Vec<u32> {
        let mut teams: Vec<[u32; 3]> = (0..self.starts.len())
            .map(|team| {
                let done = u32::try_from(self.starts[team].len()).unwrap_or(u32::MAX);
                let alike = u32::try_from(self.work.alike[team]).unwrap_or(u32::MAX);
                let ready = match self.is_done(team) {
                    true => 0,
                    false => self.ready[team].max(from),
                };
                [alike, done, ready]
            })
            .collect();
        teams.sort_unstable();
        let mut state = vec![from];
        state.extend(teams.into_iter().flatten());
        let session = self.work.course.session_of(from);
        for slot in from..self.work.course.begin(session + 1) {
            state.extend((0..self.work.counts.len()).map(|thing| self.taken.at(slot, thing)));
        }
        state
    }
}
