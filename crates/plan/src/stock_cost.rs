//! What the film costs, in the user's own money, and what one more take would.

use std::fmt;

use onestrand_film::{Fps, Frames};

use crate::block::{Block, StockRules};
use crate::found::PlanError;
use crate::packing::{Packing, pack};

/// What one roll costs until it can be seen, in the smallest coin of the user's money.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct RollPrice {
    /// The film itself.
    pub stock: u64,
    /// The laboratory.
    pub process: u64,
    /// The scan.
    pub scan: u64,
}

impl RollPrice {
    /// All three together.
    #[must_use]
    pub const fn whole(self) -> u64 {
        self.stock
            .saturating_add(self.process)
            .saturating_add(self.scan)
    }
}

/// Frames shot for each frame shown, exact.
///
/// Shown as a decimal with one place, rounded half up: `3.9 : 1`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ShootingRatio {
    /// Frames shot.
    pub shot: Frames,
    /// Frames shown.
    pub shown: Frames,
}

impl fmt::Display for ShootingRatio {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let shown = u64::from(self.shown.count());
        if shown == 0 {
            return f.write_str("nothing is shown");
        }
        let tenths = (u64::from(self.shot.count()) * 20 + shown) / (2 * shown);
        write!(f, "{}.{} : 1", tenths / 10, tenths % 10)
    }
}

/// The price of a film, and of a second of it on the screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StockCost {
    /// Rolls times their price, in the smallest coin.
    pub whole: u64,
    /// Price of a shown second, in the smallest coin, rounded up; none when nothing is
    /// shown.
    pub shown_second: Option<u64>,
}

/// What so many rolls cost, over the frames that will be shown.
///
/// Source: (stock + process + scan) / t, t the running time; the fraction is worked out
/// whole and rounded once.
#[must_use]
pub fn stock_cost(rolls: usize, price: RollPrice, shown: Frames, speed: Fps) -> StockCost {
    let whole = price.whole().saturating_mul(rolls as u64);
    let top = u128::from(whole) * u128::from(speed.num());
    let below = u128::from(shown.count()) * u128::from(speed.den());
    let second = (below > 0).then(|| top.div_ceil(below));
    StockCost {
        whole,
        shown_second: second.map(|s| u64::try_from(s).unwrap_or(u64::MAX)),
    }
}

/// What one more take of a setup does to the whole.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OneMoreTake {
    /// The setup.
    pub setup: String,
    /// Frames of that take: as long as the longest one planned.
    pub frames: Frames,
    /// Rolls more than without it.
    pub rolls_more: usize,
    /// Blocks moved with it.
    pub moved: usize,
    /// Frames that may still be used afterwards, over all rolls.
    pub spare: Frames,
}

/// What one more take of the setup at this place does at the far end.
///
/// It is a plan of its own: a caller that asks for each setup in turn can show how far it
/// has come, and stop.
///
/// # Errors
/// As [`pack`].
///
/// # Panics
/// When `at` is no place of `blocks`.
pub fn one_more_take(
    blocks: &[Block],
    rules: &StockRules,
    now: &Packing,
    at: usize,
) -> Result<OneMoreTake, PlanError> {
    let mut more = blocks.to_vec();
    let block = &mut more[at];
    let frames = block.takes.iter().copied().max().unwrap_or(Frames::ZERO);
    block.takes.push(frames);
    let setup = block.setup.clone();
    let then = pack(&more, rules)?;
    Ok(OneMoreTake {
        setup,
        frames,
        rolls_more: then.rolls.len().saturating_sub(now.rolls.len()),
        moved: then.moved,
        spare: then.spare(),
    })
}

/// A take that a clockwork motor does not run through on one wind.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OverWound {
    /// The setup.
    pub setup: String,
    /// Which of its takes, from 1.
    pub take: usize,
    /// Frames beyond one wind.
    pub over: Frames,
    /// Line of the script, where there is one.
    pub line: Option<u64>,
}

/// Every take longer than one wind of the motor; none where the motor has no limit.
///
/// A question, not a refusal: the action may be divided, or the take shortened.
#[must_use]
pub fn over_one_wind(blocks: &[Block], rules: &StockRules) -> Vec<OverWound> {
    let Some(wind) = rules.one_wind else {
        return Vec::new();
    };
    let long = |block: &Block| {
        let over = |take: &Frames| take.saturating_sub(wind);
        let takes = block.takes.iter().map(over).enumerate();
        let found = takes
            .filter(|(_, over)| *over > Frames::ZERO)
            .map(|(at, over)| OverWound {
                setup: block.setup.clone(),
                take: at + 1,
                over,
                line: block.line,
            });
        found.collect::<Vec<_>>()
    };
    blocks.iter().flat_map(long).collect()
}
