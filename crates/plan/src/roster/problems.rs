//! What keeps a roster from being planned, and what should be looked at.

use std::collections::BTreeMap;

use super::parts::sittings;
use super::{Roster, RosterStep, RosterTeam, key};
use crate::found::Found;

/// Sittings that are planned at most; beyond that a plan is no longer read by anybody.
const MOST_SITTINGS: usize = 600;
/// Sessions at most.
const MOST_SESSIONS: usize = 400;
/// Slots of a session at most.
const MOST_SLOTS: u16 = 96;

pub(crate) fn problems(roster: &Roster) -> Vec<Found> {
    let mut found = of_sessions(&roster.sessions);
    found.extend(of_things(roster));
    if roster.teams.is_empty() {
        found.push(Found::new(None, "", "there is no team; give one its steps"));
    }
    found.extend(of_teams(roster));
    found.extend(of_groups(roster));
    let steps = roster.teams.iter().flat_map(|team| &team.steps);
    let all = steps.map(|step| usize::from(sittings(step.slots, step.sitting).count_of()));
    let all: usize = all.sum();
    if all > MOST_SITTINGS {
        let said = format!(
            "{all} sittings are more than {MOST_SITTINGS}; make the sittings longer, or plan the \
             teams in two rosters"
        );
        found.push(Found::new(None, "", said));
    }
    found
}

fn of_sessions(sessions: &[u16]) -> Vec<Found> {
    let mut found = Vec::new();
    if sessions.is_empty() {
        let said = "there is none; say how many there are and how long each is";
        found.push(Found::new(None, "sessions", said));
    }
    if sessions.len() > MOST_SESSIONS {
        let said = format!("{} are more than {MOST_SESSIONS}", sessions.len());
        found.push(Found::new(None, "sessions", said));
    }
    for (number, slots) in (1..).zip(sessions) {
        let said = match slots {
            0 => "has no time; leave it out, or give it its hours".to_owned(),
            slots if *slots > MOST_SLOTS => format!(
                "has {slots} slots, more than {MOST_SLOTS}; count in longer slots, or part it"
            ),
            _ => continue,
        };
        let number: u32 = number;
        found.push(Found::new(None, format!("session {number}"), said));
    }
    found
}

fn of_things(roster: &Roster) -> Vec<Found> {
    let mut found = Vec::new();
    let mut seen = BTreeMap::new();
    for thing in &roster.things {
        let name = key(&thing.name);
        let place = format!("the {}", thing.name.trim());
        if name.is_empty() {
            found.push(Found::new(None, "things", "one has no name"));
        } else if seen.insert(name, ()).is_some() {
            found.push(Found::new(None, &*place, "stands twice; say once how many"));
        }
        if thing.count == 0 {
            let said = "there is none of it; leave it out, or say how many there are";
            found.push(Found::new(None, place, said));
        }
    }
    found
}

fn of_teams(roster: &Roster) -> Vec<Found> {
    let mut found = Vec::new();
    let mut seen = BTreeMap::new();
    for team in &roster.teams {
        let name = key(&team.name);
        if name.is_empty() {
            let line = team.steps.first().and_then(|step| step.line);
            found.push(Found::new(line, "", "a team has no name"));
        } else if seen.insert(name, ()).is_some() {
            let said = "stands twice; give the second another name";
            found.push(Found::new(None, team.name.trim(), said));
        }
        if team.steps.is_empty() {
            let said = "has nothing to do; give it a step, or leave it out";
            found.push(Found::new(None, team.name.trim(), said));
        }
        for step in &team.steps {
            found.extend(of_step(roster, team, step));
        }
    }
    found
}

fn of_step(roster: &Roster, team: &RosterTeam, step: &RosterStep) -> Vec<Found> {
    let mut wrong = Vec::new();
    if step.name.trim().is_empty() {
        wrong.push("has no name; say what is done".to_owned());
    }
    if step.slots == 0 {
        wrong.push("takes no time; give it its hours".to_owned());
    }
    if step.sitting == Some(0) {
        wrong.push("a sitting has no length; leave it empty, or give it its hours".to_owned());
    }
    let longest = roster.sessions.iter().copied().max().unwrap_or(0);
    let sitting = sittings(step.slots, step.sitting).longest();
    if longest > 0 && sitting > longest {
        wrong.push(format!(
            "a sitting of {sitting} slots is longer than any session, by {}; give it shorter \
             sittings",
            sitting - longest
        ));
    }
    match step.from {
        Some(0) => wrong.push("sessions are counted from 1".to_owned()),
        Some(from) if usize::from(from) > MOST_SESSIONS => {
            wrong.push(format!("session {from} is beyond {MOST_SESSIONS}"));
        }
        _ => {}
    }
    wrong.extend(needs_not_there(roster, step));
    wrong
        .into_iter()
        .map(|said| Found::new(step.line, step.place(team.name.trim()), said))
        .collect()
}

fn needs_not_there(roster: &Roster, step: &RosterStep) -> Vec<String> {
    let mut wanted: BTreeMap<String, (&str, u32)> = BTreeMap::new();
    for need in &step.needs {
        let one = wanted.entry(key(&need.thing)).or_insert((&need.thing, 0));
        one.1 += u32::from(need.count);
    }
    let mut wrong = Vec::new();
    for (name, (thing, count)) in wanted {
        match roster.things.iter().find(|thing| key(&thing.name) == name) {
            None => wrong.push(format!(
                "needs a {thing}, and nothing says how many there are; say it, such as {thing}=1"
            )),
            Some(there) if count > u32::from(there.count) => wrong.push(format!(
                "needs {count} of {thing}, and there {} {}",
                if there.count == 1 { "is" } else { "are" },
                there.count
            )),
            Some(_) if count == 0 => wrong.push(format!("needs none of {thing}; leave it out")),
            Some(_) => {}
        }
    }
    wrong
}

fn of_groups(roster: &Roster) -> Vec<Found> {
    let mut found = Vec::new();
    for group in &roster.apart {
        let place = format!("apart, {}", group.join(" + "));
        for name in group {
            if !roster.teams.iter().any(|team| key(&team.name) == key(name)) {
                let said = format!("there is no team {name:?}");
                found.push(Found::new(None, &*place, said));
            }
        }
        if group.len() < 2 {
            found.push(Found::new(None, place, "name two teams or more"));
        }
    }
    found
}

/// Teams that take a blade to film though nothing says that its scan is proved before.
pub(crate) fn remarks(roster: &Roster) -> Vec<Found> {
    let mut found = Vec::new();
    for team in &roster.teams {
        let Some(at) = team.steps.iter().position(|step| takes_a_blade(&step.name)) else {
            continue;
        };
        if team.steps[..=at]
            .iter()
            .all(|step| step.waits_for.is_empty())
        {
            let step = &team.steps[at];
            let said = "nothing says that the scan is proved before; film that was never scanned \
                        cannot be seen again once it is cut";
            found.push(Found::new(step.line, step.place(team.name.trim()), said));
        }
    }
    found
}

/// Whether a step of this name takes a blade to film.
fn takes_a_blade(step: &str) -> bool {
    let name = key(step);
    let words: Vec<&str> = name.split(|c: char| !c.is_alphanumeric()).collect();
    let blade = ["cut", "cutting", "splice", "splicing", "join", "joining"];
    words.iter().any(|word| blade.contains(word)) || name.contains("break down")
}
