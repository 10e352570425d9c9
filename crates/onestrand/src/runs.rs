//! The ledger of runs on the command line.

use onestrand_production::documents::{RollDocument, RunDocument};
use onestrand_production::{
    self as acts, Cancel, FilmChange, Production, ProductionError, RUN_WEARS, RunRoll, StrikeRun,
};
use serde_json::json;

use crate::answer::Answer;
use crate::arguments::{RollRun, RollRuns, word};
use crate::bar::Bar;
use crate::commands::{Outcome, open};
use crate::in_the_hand::keep;

pub(crate) fn run(given: &RollRun, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let mut production = open(&given.dir, cancel, bar)?;
    let run = RunRoll {
        roll: given.roll.clone(),
        on: given.on.clone(),
        through: word(given.through),
        by: given.by.clone(),
        note: given.note.clone(),
    };
    keep(&mut production, &FilmChange::RunRoll(run))?;
    let rolls = ledger(&production, Some(&given.roll))?;
    let words = format!(
        "{}\n{RUN_WEARS}",
        rolls.iter().map(in_words).collect::<String>()
    );
    let runs = rolls.first().map(|roll| &roll.runs);
    Ok(Answer::yes(
        &json!({ "roll": given.roll, "runs": runs, "caution": RUN_WEARS }),
        words,
    ))
}

pub(crate) fn runs(given: &RollRuns, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let mut production = open(&given.dir, cancel, bar)?;
    if let (Some(roll), Some(number)) = (&given.roll, given.strike) {
        let strike = StrikeRun {
            roll: roll.clone(),
            number,
        };
        keep(&mut production, &FilmChange::StrikeRun(strike))?;
    }
    let rolls = ledger(&production, given.roll.as_deref())?;
    let words: Vec<String> = rolls.iter().map(in_words).collect();
    let document: Vec<_> = rolls
        .iter()
        .map(|roll| json!({ "roll": roll.roll, "times": roll.runs.len(), "runs": roll.runs }))
        .collect();
    let words = match words.as_slice() {
        [] => "there is no roll yet".to_owned(),
        all => all.join("\n"),
    };
    Ok(Answer::yes(&json!({ "rolls": document }), words))
}

/// The rolls asked for: one by its name, or all.
fn ledger(
    production: &Production,
    name: Option<&str>,
) -> Result<Vec<RollDocument>, ProductionError> {
    if let Some(name) = name {
        // A roll that is not there is told, and no empty ledger shown for it.
        production.roll(name)?;
    }
    let mut rolls = acts::list_rolls(production)?;
    rolls.retain(|roll| name.is_none_or(|name| roll.roll == name));
    Ok(rolls)
}

/// `R1 was run twice` and a line for each.
fn in_words(roll: &RollDocument) -> String {
    let times = match roll.runs.len() {
        0 => return format!("{} was never run", roll.roll),
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        times => format!("{times} times"),
    };
    let lines: Vec<String> = roll.runs.iter().map(line).collect();
    format!("{} was run {times}\n{}", roll.roll, lines.join("\n"))
}

fn line(run: &RunDocument) -> String {
    let by = match run.by.as_str() {
        "" => String::new(),
        by => format!(", by {by}"),
    };
    let note = match run.note.as_str() {
        "" => String::new(),
        note => format!(": {note}"),
    };
    format!(
        "  {}  {}  through the {}{by}{note}",
        run.number, run.on, run.through
    )
}
