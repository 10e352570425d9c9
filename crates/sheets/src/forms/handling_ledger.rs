//! The handling ledger as a form.

use onestrand_typeset::Printed;
use serde::Serialize;

use super::record::{Figure, FormRecord, NAMES_MOST, missing_words, roll_form};
use super::{Press, Ready};
use crate::handling::{HandledRoll, HandlingLedger};
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Handling ledger";

/// Empty lines after the entries of a roll, for what is done to it next.
const TO_WRITE: usize = 5;

/// Prints a handling ledger, with its pages to look at.
///
/// # Errors
/// [`SheetError::Form`] when the form cannot be set.
pub fn print_handling_ledger(ledger: &HandlingLedger) -> Result<Printed, SheetError> {
    ready(ledger)?.print()
}

pub(super) fn ready(ledger: &HandlingLedger) -> Result<Ready, SheetError> {
    let template = include_str!("handling_ledger.typ");
    let press = Press::new(FORM, "handling_ledger.typ", template);
    press.ready(&LedgerRecord {
        form: furniture(ledger),
        rolls: ledger.rolls.iter().map(record).collect(),
        to_write: TO_WRITE,
    })
}

#[derive(Serialize)]
struct LedgerRecord {
    form: FormRecord,
    rolls: Vec<RollRecord>,
    to_write: usize,
}

#[derive(Serialize)]
struct RollRecord {
    roll: String,
    sums: String,
    entries: Vec<EntryRecord>,
}

#[derive(Serialize)]
struct EntryRecord {
    on: String,
    what: String,
    times: String,
    by: String,
    note: String,
}

fn record(roll: &HandledRoll) -> RollRecord {
    let entries = roll.entries.iter().map(|entry| EntryRecord {
        on: words::plain(&entry.on),
        what: words::plain(&entry.what),
        times: words::count(entry.times),
        by: words::plain(&entry.by),
        note: words::plain(&entry.note),
    });
    RollRecord {
        roll: roll.roll.to_string(),
        sums: words::plain(&roll.sums),
        entries: entries.collect(),
    }
}

fn furniture(ledger: &HandlingLedger) -> FormRecord {
    let mut form = roll_form(&ledger.head, FORM, "what was done to each original");
    let names: Vec<&str> = ledger.rolls.iter().map(|one| one.roll.as_str()).collect();
    let entries: usize = ledger.rolls.iter().map(|one| one.entries.len()).sum();
    let entries = u32::try_from(entries).unwrap_or(u32::MAX);
    form.figures = vec![
        Figure::new(words::row_of_names(&names, NAMES_MOST), "rolls"),
        Figure::counted(entries, "entry", "entries"),
    ];
    form.foot = vec![
        "Write down each run, cleaning, cut, opened join and repair on the day, and bring the \
         sheet back to the machine."
            .to_owned(),
    ];
    form.assumptions = vec![
        "What nobody wrote down is not here. A run through a projector is a run under a hot lamp."
            .to_owned(),
    ];
    let said = ledger.rolls.iter().flat_map(|roll| &roll.entries);
    let said = said.flat_map(|entry| [entry.by.as_str(), entry.note.as_str()]);
    let all: Vec<&str> = said.chain([ledger.head.title.as_str()]).collect();
    form.assumptions.extend(missing_words(&all.join("\n")));
    form
}
