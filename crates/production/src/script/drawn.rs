//! What was shot, as the lined script draws it.

use std::collections::BTreeMap;

use onestrand_film::Frames;
use onestrand_plan::RollLeft;
use onestrand_store::Production;

use crate::ProductionError;
use crate::documents::{LinedTakeDocument, StockWords};

/// No good: such a take covers nothing.
pub(crate) const NG: &str = "ng";

/// All takes with a slate, in the order of the rolls.
pub(super) fn takes_drawn(
    production: &Production,
) -> Result<Vec<LinedTakeDocument>, ProductionError> {
    let takes = production.takes()?.into_iter().filter_map(|take| {
        let (setup, number) = (take.setup?, take.take?);
        let picture = take.first + take.thrown.saturating_sub(take.first) / 2;
        Some(LinedTakeDocument {
            setup,
            take: u32::from(number),
            roll: take.roll,
            first: take.first,
            out: take.thrown,
            picture,
            rating: take.rating,
        })
    });
    Ok(takes.collect())
}

/// Takes of each setup that are good for something.
pub(super) fn takes_by_setup(takes: &[LinedTakeDocument]) -> BTreeMap<String, u32> {
    let mut all = BTreeMap::new();
    for take in takes.iter().filter(|take| take.rating != NG) {
        *all.entry(take.setup.clone()).or_default() += 1;
    }
    all
}

/// What is left of each roll. Half of what a load loses is lost at its tail; the counter
/// stands where the last take with a slate ends.
pub(super) fn rolls_left(
    production: &Production,
    takes: &[LinedTakeDocument],
    stock: &StockWords,
) -> Result<Vec<RollLeft>, ProductionError> {
    let mut all = Vec::new();
    for roll in production.rolls()? {
        let used_to = takes.iter().filter(|take| take.roll == roll.name);
        let Some(used_to) = used_to.map(|take| take.out).max() else {
            continue;
        };
        let at_the_tail = roll.frames.saturating_sub(stock.load) / 2;
        all.push(RollLeft {
            roll: roll.name,
            used_to: Frames::new(used_to)?,
            usable_to: Frames::new(roll.frames.saturating_sub(at_the_tail))?,
        });
    }
    Ok(all)
}
