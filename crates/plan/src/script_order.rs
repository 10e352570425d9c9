//! Takes laid one by one as the script has them: what happens without a plan.

use onestrand_film::Frames;

use crate::block::{self, Block, StockRules};
use crate::found::{PlanError, unless};

/// Frames on each roll when takes are shot in script order, none straddling a roll end.
///
/// A setup may be torn apart between two takes here. Film kept back is not looked at:
/// it is what is left at the end, if any.
///
/// # Errors
/// As [`crate::pack`].
pub fn in_script_order(blocks: &[Block], rules: &StockRules) -> Result<Vec<Frames>, PlanError> {
    unless(block::problems(blocks, rules), ())?;
    let mut rolls = vec![Frames::ZERO];
    for take in blocks.iter().flat_map(|block| &block.takes) {
        let last = rolls.last_mut().expect("there is always a roll");
        match last.checked_add(*take).filter(|sum| *sum <= rules.load) {
            Some(sum) => *last = sum,
            None => rolls.push(*take),
        }
    }
    Ok(rolls)
}
