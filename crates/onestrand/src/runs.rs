//! The ledger of the originals on the command line.

use onestrand_production::documents::{HandlingDocument, HandlingSumsDocument, RollDocument};
use onestrand_production::{
    self as acts, Cancel, FilmChange, HandleRoll, Production, ProductionError, RUN_WEARS, RunRoll,
    StrikeRun,
};
use serde_json::json;

use crate::answer::Answer;
use crate::arguments::{RollHandled, RollRun, RollRuns, word};
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

pub(crate) fn handled(given: &RollHandled, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let mut production = open(&given.dir, cancel, bar)?;
    let handled = HandleRoll {
        roll: given.roll.clone(),
        kind: word(given.kind),
        on: given.on.clone(),
        through: String::new(),
        times: given.times,
        by: given.by.clone(),
        note: given.note.clone(),
    };
    keep(&mut production, &FilmChange::HandleRoll(handled))?;
    let rolls = ledger(&production, Some(&given.roll))?;
    let words: String = rolls.iter().map(in_words).collect();
    let document = rolls.first().map(document_of);
    Ok(Answer::yes(&json!(document), words))
}

/// `times` counts runs; the ledger has all.
fn document_of(roll: &RollDocument) -> serde_json::Value {
    json!({
        "roll": roll.roll,
        "times": roll.handled.runs,
        "runs": roll.runs,
        "ledger": roll.ledger,
        "handled": roll.handled,
    })
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
    let document: Vec<_> = rolls.iter().map(document_of).collect();
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

/// `R1 was run twice, cut 12 times` and a line for each entry.
fn in_words(roll: &RollDocument) -> String {
    let ran = match roll.handled.runs {
        0 => format!("{} was never run", roll.roll),
        times => format!("{} was run {}", roll.roll, times_words(times)),
    };
    let more = sums(&roll.handled);
    let lines: Vec<String> = roll.ledger.iter().map(line).collect();
    let head = [vec![ran], more].concat().join(", ");
    [vec![head], lines].concat().join("\n")
}

fn times_words(times: u32) -> String {
    match times {
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        times => format!("{times} times"),
    }
}

/// What was done beside running it, as far as anything was.
fn sums(handled: &HandlingSumsDocument) -> Vec<String> {
    let all = [
        (handled.wound, "wound over the rewinds"),
        (handled.cleanings, "cleaned"),
        (handled.cuts, "cut"),
        (handled.joins_opened, "a join opened"),
        (handled.repairs, "mended"),
        (handled.inspections, "inspected"),
    ];
    let done = all.into_iter().filter(|(times, _)| *times > 0);
    done.map(|(times, what)| format!("{what} {}", times_words(times)))
        .collect()
}

fn line(entry: &HandlingDocument) -> String {
    let what = match entry.kind.as_str() {
        "run" => format!("through the {}", entry.through),
        "opened" => "join opened".to_owned(),
        "wound" => "over the rewinds".to_owned(),
        other => other.to_owned(),
    };
    let times = match entry.times {
        1 => String::new(),
        n => format!(", {n} times"),
    };
    let by = match entry.by.as_str() {
        "" => String::new(),
        by => format!(", by {by}"),
    };
    let note = match entry.note.as_str() {
        "" => String::new(),
        note => format!(": {note}"),
    };
    // What the bench has written is corrected there: no number to strike it off by.
    let number = match entry.from_bench {
        true => "-".to_owned(),
        false => entry.number.to_string(),
    };
    format!("  {number}  {}  {what}{times}{by}{note}", entry.on)
}
