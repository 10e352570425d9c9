//! A roster out of a table, and its plan as one.

use std::path::Path;

use onestrand_plan::{PlanError, Roster, read_roster, read_sessions, read_things};

use super::planned::{RosterAsked, planned};
use super::refused;
use crate::ProductionError;
use crate::documents::{RosterDocument, ThingUsedDocument, TurnDocument};
use crate::error::file;

/// The longest table that is read. Unit: bytes.
const MOST_BYTES: u64 = 4_000_000;

/// Plans the teams of a CSV file.
///
/// # Errors
/// [`ProductionError::File`] when it cannot be read, [`ProductionError::Roster`] with
/// everything that is wrong, in the table and beside it.
pub fn plan_roster_table(
    path: &Path,
    asked: &RosterAsked,
) -> Result<RosterDocument, ProductionError> {
    let bytes = std::fs::metadata(path)
        .map_err(file("read the roster", path))?
        .len();
    if bytes > MOST_BYTES {
        return Err(ProductionError::Unfit {
            message: format!("a roster of {bytes} bytes is no roster of a class"),
            hint: "give the CSV table of teams and steps".to_owned(),
        });
    }
    let text = std::fs::read(path).map_err(file("read the roster", path))?;
    plan_text(&String::from_utf8_lossy(&text), asked)
}

fn plan_text(text: &str, asked: &RosterAsked) -> Result<RosterDocument, ProductionError> {
    if !(1..=240).contains(&asked.slot_minutes) {
        return Err(ProductionError::Unfit {
            message: format!(
                "a slot of {} minutes cannot be counted in",
                asked.slot_minutes
            ),
            hint: "give 1 to 240 minutes, such as 30".to_owned(),
        });
    }
    let mut problems = Vec::new();
    let table = read_roster(text, asked.slot_minutes);
    let sessions = read_sessions(&asked.sessions, asked.slot_minutes);
    let things = read_things(&asked.things);
    let mut keep = |error: &PlanError| problems.extend_from_slice(error.problems());
    let table = table.inspect_err(&mut keep).ok();
    let sessions = sessions.inspect_err(&mut keep).ok();
    let things = things.inspect_err(&mut keep).ok();
    let (Some(table), Some(sessions), Some(things)) = (table, sessions, things) else {
        return Err(refused(PlanError::Problems { problems }));
    };
    let apart = asked.apart.iter().map(|group| {
        let names = group.split('+').map(|name| name.trim().to_owned());
        names.collect()
    });
    let roster = Roster {
        sessions,
        things,
        apart: apart.collect(),
        ..table.roster
    };
    let mut document = planned(&roster, asked.slot_minutes)?;
    document.strange_columns = table.strange;
    Ok(document)
}

/// The plan as CSV, a turn a row:
/// `session,from,to,team,step,sitting,sittings,things,waits_for`. Times are minutes from
/// the beginning of the session, as `h:mm`.
#[must_use]
pub fn roster_table(plan: &RosterDocument) -> String {
    let mut table = csv::Writer::from_writer(Vec::new());
    let header = [
        "session",
        "from",
        "to",
        "team",
        "step",
        "sitting",
        "sittings",
        "things",
        "waits_for",
    ];
    let rows = plan.turns.iter().map(row);
    // Written into memory, which does not fail.
    for row in std::iter::once(header.map(str::to_owned)).chain(rows) {
        let _whole = table.write_record(row);
    }
    let bytes = table.into_inner().unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}

fn row(turn: &TurnDocument) -> [String; 9] {
    let things: Vec<String> = turn.things.iter().map(thing_words).collect();
    [
        turn.session.to_string(),
        hours(turn.from),
        hours(turn.to),
        turn.team.clone(),
        turn.step.clone(),
        turn.sitting.to_string(),
        turn.sittings.to_string(),
        things.join("; "),
        turn.waits_for.clone(),
    ]
}

/// `bench 1`.
pub(super) fn thing_words(used: &ThingUsedDocument) -> String {
    format!("{} {}", used.thing, used.number)
}

/// Minutes as `h:mm`.
pub(super) fn hours(minutes: u32) -> String {
    format!("{}:{:02}", minutes / 60, minutes % 60)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_wrong_beside_the_table_is_told_with_it() {
        let asked = RosterAsked {
            sessions: "often".to_owned(),
            things: vec!["bench".to_owned()],
            ..RosterAsked::default()
        };
        let error = plan_text("team,step,hours\nAda,cut,soon\n", &asked).expect_err("three");
        let ProductionError::Roster { source } = error else {
            panic!("{error}")
        };
        assert_eq!(source.problems().len(), 3);
    }

    #[test]
    fn the_plan_as_a_table_has_a_row_a_turn() {
        let asked = RosterAsked {
            sessions: "2x1".to_owned(),
            things: vec!["bench=1".to_owned()],
            ..RosterAsked::default()
        };
        let table = "team,step,hours,needs\nAda,cut,1,bench\n\"Ben, Cy\",cut,0:30,bench\n";
        let plan = plan_text(table, &asked).expect("a plan");
        assert_eq!(
            roster_table(&plan),
            "session,from,to,team,step,sitting,sittings,things,waits_for\n\
             1,0:00,1:00,Ada,cut,1,1,bench 1,\n\
             2,0:00,0:30,\"Ben, Cy\",cut,1,1,bench 1,\n"
        );
    }
}
