//! What was done to a film and its rolls, with days: out of the ledgers, the log of the
//! bench, the inspections and the long work that was done.

use onestrand_store::{JobState, Production};

use crate::ProductionError;
use crate::bench_room::DoneAtTheBench;
use crate::documents::ActionDocument;
use crate::ledger::ledger_of;

/// All of it, the first day first.
pub(super) fn actions(production: &Production) -> Result<Vec<ActionDocument>, ProductionError> {
    let bench = DoneAtTheBench::of(production);
    let mut all = Vec::new();
    for roll in production.rolls()? {
        for entry in ledger_of(&roll, &bench) {
            let what = match entry.kind.as_str() {
                "run" => format!("run through the {}", entry.through),
                "cleaning" => "cleaned".to_owned(),
                "opened" => "a join opened".to_owned(),
                "repair" => "mended".to_owned(),
                "inspection" => "inspected".to_owned(),
                "wound" => "wound over the rewinds".to_owned(),
                other => other.to_owned(),
            };
            let times = match entry.times {
                1 => String::new(),
                n => format!(", {n} times"),
            };
            let note = match entry.note.is_empty() {
                true => String::new(),
                false => format!(": {}", entry.note),
            };
            all.push(ActionDocument {
                on: entry.on,
                to: roll.name.clone(),
                what: format!("{what}{times}{note}"),
                by: entry.by,
            });
        }
    }
    for job in production.jobs()? {
        if job.state == JobState::Done {
            all.push(ActionDocument {
                on: job.ended.unwrap_or_default().chars().take(10).collect(),
                to: "the film".to_owned(),
                what: job.words,
                by: "this program".to_owned(),
            });
        }
    }
    all.sort_by(|a, b| a.on.cmp(&b.on));
    Ok(all)
}
