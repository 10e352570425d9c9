//! The plan as turns: who, when, and which bench of several.

use super::Roster;
use super::lay::Laid;
use super::parts::Work;

/// One sitting of a team in the plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Turn {
    /// The session, from 1.
    pub session: usize,
    /// First slot of it in the session, from 0.
    pub from: u32,
    /// The slot behind it.
    pub to: u32,
    /// The team.
    pub team: String,
    /// The step.
    pub step: String,
    /// Which sitting of how many, from 1.
    pub sitting: (u16, u16),
    /// What the team has for itself then.
    pub things: Vec<ThingUsed>,
    /// What must be true before it may begin; empty where nothing must.
    pub waits_for: String,
}

/// One of the things of a kind, by number.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct ThingUsed {
    /// The thing.
    pub thing: String,
    /// Which of them, from 1.
    pub number: u32,
}

/// The turns of a plan, by time, then in the order of the teams.
pub(crate) fn turns(roster: &Roster, work: &Work, laid: &Laid) -> Vec<Turn> {
    let mut sittings: Vec<(u32, usize, usize)> = Vec::new();
    for (team, starts) in laid.starts.iter().enumerate() {
        let each = starts.iter().enumerate();
        sittings.extend(each.map(|(at, start)| (*start, team, at)));
    }
    sittings.sort_unstable();
    // Until when each single thing is taken. Whoever begins first chooses first, so there
    // is always one free as long as no more are wanted at once than there are.
    let mut until: Vec<Vec<u32>> = work.counts.iter().map(|c| vec![0; *c as usize]).collect();
    sittings
        .into_iter()
        .map(|(start, team, at)| {
            let part = &work.teams[team][at];
            let mut things = Vec::new();
            for (thing, count) in &part.needs {
                let Some(named) = roster.things.get(*thing) else {
                    continue;
                };
                let free = until[*thing].iter_mut().enumerate();
                let free = free.filter(|(_, until)| **until <= start);
                for (number, until) in free.take(*count as usize) {
                    *until = start + part.length;
                    things.push(ThingUsed {
                        thing: named.name.clone(),
                        number: u32::try_from(number + 1).unwrap_or(u32::MAX),
                    });
                }
            }
            let session = work.course.session_of(start);
            let step = &roster.teams[team].steps[part.step];
            Turn {
                session: session + 1,
                from: start - work.course.begin(session),
                to: start + part.length - work.course.begin(session),
                team: roster.teams[team].name.clone(),
                step: step.name.clone(),
                sitting: part.sitting,
                things,
                waits_for: step.waits_for.clone(),
            }
        })
        .collect()
}
