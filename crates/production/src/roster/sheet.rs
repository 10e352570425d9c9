//! The roster on paper.

use onestrand_sheets::{
    Paper, RosterReason, RosterSession, RosterSheet, RosterTurn, RosterWaiting, print_roster_sheet,
};

use super::table::thing_words;
use crate::documents::{RosterDocument, TurnDocument};
use crate::{PrintedSheet, ProductionError};

/// Prints a roster: `title` is what it is of, in the user's words.
///
/// # Errors
/// [`ProductionError::Sheets`] when the form cannot be set.
pub fn print_roster(
    plan: &RosterDocument,
    title: &str,
    letter: bool,
) -> Result<PrintedSheet, ProductionError> {
    let sheet = RosterSheet {
        title: title.to_owned(),
        sessions: (1..=plan.sessions).map(|at| session(plan, at)).collect(),
        teams: plan.teams.iter().map(|team| team.team.clone()).collect(),
        given: count(plan.given),
        at_least: count(plan.lower_bound.at_least),
        proved: roster_words(plan),
        reasons: reasons(plan),
        waiting: waiting(plan),
        remarks: remarks(plan),
        paper: match letter {
            true => Paper::Letter,
            false => Paper::A4,
        },
    };
    let printed = print_roster_sheet(&sheet)?;
    Ok(PrintedSheet {
        sheet: "class-roster",
        file_name: "class-roster.pdf".to_owned(),
        pdf: printed.pdf,
        pages: printed.pages,
    })
}

fn count(number: usize) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}

fn session(plan: &RosterDocument, number: usize) -> RosterSession {
    let turns = plan.turns.iter().filter(|turn| turn.session == number);
    RosterSession {
        number: count(number),
        minutes: plan.session_minutes.get(number - 1).copied().unwrap_or(0),
        turns: turns.map(turn).collect(),
    }
}

fn turn(turn: &TurnDocument) -> RosterTurn {
    RosterTurn {
        from: turn.from,
        to: turn.to,
        team: turn.team.clone(),
        step: turn.step.clone(),
        sitting: (turn.sitting, turn.sittings),
        things: turn.things.iter().map(thing_words).collect(),
        waits_for: turn.waits_for.clone(),
    }
}

fn reasons(plan: &RosterDocument) -> Vec<RosterReason> {
    let bound = &plan.lower_bound;
    let together = RosterReason {
        of: "all of it together".to_owned(),
        minutes: None,
        sessions: count(bound.together),
    };
    let things = bound.by_thing.iter().map(|one| RosterReason {
        of: format!("the {}", one.thing),
        minutes: Some(one.minutes),
        sessions: count(one.sessions),
    });
    let teams = bound.by_team.iter().map(|one| RosterReason {
        of: one.team.clone(),
        minutes: Some(one.minutes),
        sessions: count(one.sessions),
    });
    std::iter::once(together)
        .chain(things)
        .chain(teams)
        .collect()
}

fn waiting(plan: &RosterDocument) -> Vec<RosterWaiting> {
    let one = |waiting: &crate::documents::WaitingDocument| RosterWaiting {
        team: waiting.team.clone(),
        step: waiting.step.clone(),
        waits_for: waiting.waits_for.clone(),
    };
    plan.waiting.iter().map(one).collect()
}

fn remarks(plan: &RosterDocument) -> Vec<String> {
    let one =
        |remark: &crate::documents::RosterRemark| format!("{}: {}.", remark.place, remark.message);
    plan.remarks.iter().map(one).collect()
}

/// What is known of the number of sessions, in words.
#[must_use]
pub fn roster_words(plan: &RosterDocument) -> String {
    let sessions = |count: usize| match count {
        1 => "1 session".to_owned(),
        n => format!("{n} sessions"),
    };
    let (needed, least) = (plan.sessions, plan.lower_bound.at_least);
    let mut words = match plan.proof.as_str() {
        "bound_met" => format!(
            "{}, and no plan needs fewer: the lower bound is {least}.",
            sessions(needed)
        ),
        "every_way_tried" => format!(
            "{}, and no plan needs fewer: every way of doing with fewer was tried.",
            sessions(needed)
        ),
        _ => format!(
            "{}. The lower bound is {least}: whether {} would do is not known.",
            sessions(needed),
            match needed - least {
                1 => least.to_string(),
                _ => format!("{least} to {}", needed - 1),
            }
        ),
    };
    if !plan.fits {
        words.push_str(&format!(
            " Only {} {} given: {} too few.",
            sessions(plan.given),
            if plan.given == 1 { "is" } else { "are" },
            needed - plan.given
        ));
    }
    words
}
