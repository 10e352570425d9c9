//! The ledger of the originals as a printed form.

use onestrand_film::RollId;
use onestrand_sheets::{HandledEntry, HandledRoll, HandlingLedger, Head};
use onestrand_store::{Production, RollRecord};

use crate::ProductionError;
use crate::bench_room::DoneAtTheBench;
use crate::documents::{HandlingDocument, HandlingSumsDocument};
use crate::ledger::{ledger_of, sums_of};

/// The columns of the same as rows.
pub(crate) const COLUMNS: [&str; 6] = ["roll", "on", "what", "times", "by", "note"];

/// The ledger of these rolls.
pub(crate) fn ledger_sheet(
    production: &Production,
    head: &Head,
    rolls: &[RollRecord],
) -> Result<HandlingLedger, ProductionError> {
    let bench = DoneAtTheBench::of(production);
    let one = |roll: &RollRecord| {
        let ledger = ledger_of(roll, &bench);
        Ok(HandledRoll {
            roll: RollId::new(&roll.name)?,
            sums: sums_words(&sums_of(&ledger)),
            entries: ledger.iter().map(entry).collect(),
        })
    };
    Ok(HandlingLedger {
        head: head.clone(),
        rolls: rolls
            .iter()
            .map(one)
            .collect::<Result<_, ProductionError>>()?,
    })
}

fn entry(entry: &HandlingDocument) -> HandledEntry {
    HandledEntry {
        on: entry.on.clone(),
        what: match entry.kind.as_str() {
            "run" => format!("through the {}", entry.through),
            "opened" => "join opened".to_owned(),
            "wound" => "over the rewinds".to_owned(),
            other => other.to_owned(),
        },
        times: entry.times,
        by: entry.by.clone(),
        note: entry.note.clone(),
    }
}

/// `run 3 times, of these 2 under a hot lamp; cut 12 times`.
fn sums_words(sums: &HandlingSumsDocument) -> String {
    let ran = match (sums.runs, sums.by_projector) {
        (0, _) => "never run".to_owned(),
        (runs, 0) => format!("run {}", times(runs)),
        (runs, hot) => format!("run {}, of these {hot} under a hot lamp", times(runs)),
    };
    let more = [
        (sums.wound, "wound over the rewinds"),
        (sums.cleanings, "cleaned"),
        (sums.cuts, "cut"),
        (sums.joins_opened, "a join opened"),
        (sums.repairs, "mended"),
        (sums.inspections, "inspected"),
    ];
    let more = more.into_iter().filter(|(count, _)| *count > 0);
    let more = more.map(|(count, what)| format!("{what} {}", times(count)));
    std::iter::once(ran)
        .chain(more)
        .collect::<Vec<_>>()
        .join("; ")
}

fn times(count: u32) -> String {
    match count {
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        n => format!("{n} times"),
    }
}

/// The same as rows: one an entry.
pub(crate) fn rows(ledger: &HandlingLedger) -> Vec<[String; 6]> {
    let of = |roll: &HandledRoll| {
        let name = roll.roll.to_string();
        let row = move |entry: &HandledEntry| {
            [
                name.clone(),
                entry.on.clone(),
                entry.what.clone(),
                entry.times.to_string(),
                entry.by.clone(),
                entry.note.clone(),
            ]
        };
        roll.entries.iter().map(row).collect::<Vec<_>>()
    };
    ledger.rolls.iter().flat_map(of).collect()
}
