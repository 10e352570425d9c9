//! What may not be changed while a version is on the bench.

use onestrand_store::{Production, StoreError};

use super::line::BenchLine;
use super::room::Room;
use crate::ProductionError;
use crate::error::unfit;

/// Whether a version may be changed.
///
/// # Errors
/// [`ProductionError::Unfit`] when it is, or was, on the bench.
pub(crate) fn cut_is_free(production: &Production, cut: &str) -> Result<(), ProductionError> {
    match has_been_on(production, cut)? {
        false => Ok(()),
        true => Err(unfit(
            format!("{cut} is on the bench: it stays as it is"),
            "begin another version from it, and change that one",
        )),
    }
}

/// Whether a roll may be taken out of the production.
///
/// # Errors
/// [`ProductionError::Unfit`] when film of it is on the bench.
pub(crate) fn roll_is_free(production: &Production, roll: &str) -> Result<(), ProductionError> {
    let room = Room::of(production)?;
    let on_the_bench = room.log.state().rolls().any(|(r, _)| r.to_string() == roll);
    match on_the_bench && room.work.is_some() {
        false => Ok(()),
        true => Err(unfit(
            format!("{roll} is on the bench"),
            "the log of the bench counts its frames; it stays in the production",
        )),
    }
}

/// Whether a version went on the bench and did not come off untouched. Asked at every
/// change of a cut: only the lines that can tell are read.
fn has_been_on(production: &Production, cut: &str) -> Result<bool, ProductionError> {
    let mut on = false;
    let mut last = String::new();
    for record in production.bench_lines_of(&["begin", "take_off"])? {
        match serde_json::from_str(&record.line).map_err(StoreError::from)? {
            BenchLine::Begin(begin) => {
                on |= begin.cut == cut;
                last = begin.cut;
            }
            BenchLine::TakeOff {} if last == cut => on = false,
            _ => {}
        }
    }
    Ok(on)
}
