//! The class roster in words.

use onestrand_production::documents::{RosterDocument, TurnDocument};
use onestrand_production::roster_words;

/// Minutes as `h:mm`.
fn hours(minutes: u32) -> String {
    format!("{}:{:02}", minutes / 60, minutes % 60)
}

pub(crate) fn roster(plan: &RosterDocument) -> String {
    let mut lines = vec![roster_words(plan)];
    lines.extend(reasons(plan));
    for session in 1..=plan.sessions {
        let turns = plan.turns.iter().filter(|turn| turn.session == session);
        let minutes = plan.session_minutes.get(session - 1).copied();
        lines.push(format!(
            "Session {session}, {} h",
            hours(minutes.unwrap_or(0))
        ));
        lines.extend(turns.map(turn));
    }
    for one in &plan.waiting {
        lines.push(format!(
            "Not planned yet: {}, {}: waits for {}; say from which session with the column `from`.",
            one.team, one.step, one.waits_for
        ));
    }
    for one in &plan.remarks {
        let line = one
            .line
            .map_or(String::new(), |line| format!("line {line}, "));
        lines.push(format!("  look at {line}{}: {}", one.place, one.message));
    }
    if !plan.strange_columns.is_empty() {
        lines.push(format!(
            "  not read: the columns {}",
            plan.strange_columns.join(", ")
        ));
    }
    lines.join("\n")
}

fn reasons(plan: &RosterDocument) -> Vec<String> {
    let bound = &plan.lower_bound;
    let things = bound.by_thing.iter().map(|one| {
        format!(
            "  the {}: {} h of work, at least {} of the sessions",
            one.thing,
            hours(one.minutes),
            one.sessions
        )
    });
    let longest = bound
        .by_team
        .iter()
        .max_by_key(|one| (one.sessions, one.minutes));
    let longest = longest.map(|one| {
        format!(
            "  the longest team, {}: {} h of work, at least {}",
            one.team,
            hours(one.minutes),
            one.sessions
        )
    });
    let together = format!("  all of it together: at least {}", bound.together);
    things.chain(longest).chain([together]).collect()
}

fn turn(turn: &TurnDocument) -> String {
    let mut words = format!(
        "  {}–{}  {}: {}",
        hours(turn.from),
        hours(turn.to),
        turn.team,
        turn.step
    );
    if turn.sittings > 1 {
        words.push_str(&format!(", sitting {} of {}", turn.sitting, turn.sittings));
    }
    let things: Vec<String> = turn
        .things
        .iter()
        .map(|used| format!("{} {}", used.thing, used.number))
        .collect();
    if !things.is_empty() {
        words.push_str(&format!("; has {}", things.join(", ")));
    }
    if !turn.waits_for.is_empty() {
        words.push_str(&format!("; only when: {}", turn.waits_for));
    }
    words
}
