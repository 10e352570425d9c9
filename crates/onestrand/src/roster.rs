//! The class roster on the command line.

use onestrand_production::{self as acts, ProductionError, RosterAsked};

use crate::answer::Answer;
use crate::arguments::{Paper, Roster};
use crate::commands::Outcome;
use crate::words;

pub(crate) fn roster(given: Roster) -> Outcome {
    let asked = RosterAsked {
        sessions: given.sessions,
        things: given.thing,
        apart: given.apart,
        slot_minutes: given.slot,
    };
    let plan = acts::plan_roster_table(&given.file, &asked)?;
    let mut words = match given.csv {
        true => acts::roster_table(&plan).trim_end().to_owned(),
        false => words::roster(&plan),
    };
    if let Some(file) = given.sheet {
        let letter = given.paper == Paper::Letter;
        let printed = acts::print_roster(&plan, &given.title, letter)?;
        std::fs::write(&file, printed.pdf).map_err(|source| ProductionError::File {
            what: "write the sheet",
            source,
            path: file.clone(),
        })?;
        if !given.csv {
            words.push_str(&format!("\nsheet: {}", file.display()));
        }
    }
    let is_yes = plan.fits;
    Ok(Answer {
        is_yes,
        ..Answer::yes(&plan, words)
    })
}
