//! How the user's bench is: kept with the film, so that sheets need not ask.

use onestrand_bench::USUAL_LIMIT;
use onestrand_store::{Act, Production};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::error::unfit;
use crate::{ProductionError, USUAL_PINS};

/// The name under which it is kept.
pub(crate) const SETTING: &str = "bench_habits";
/// More pins than any trim bin has. Unit: pins.
const MOST_PINS: u32 = 1_000;
/// The shortest and the longest single count that make sense. Unit: frames.
const COUNTS: std::ops::RangeInclusive<u32> = 6..=2_000;

/// The bench as the user has it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct BenchSetUp {
    /// Pins of the trim bin.
    pub pins: u32,
    /// Which side of the film is up: `base` or `emulsion`.
    pub up: String,
    /// On which side its head lies: `left` or `right`.
    pub head: String,
    /// No single count is longer. Unit: frames.
    pub longest_count: u32,
}

impl Default for BenchSetUp {
    /// Base up, head to the left: original reads right, as it is drawn on the
    /// screen, and film is wound from left to right. Common practice, from memory.
    fn default() -> Self {
        Self {
            pins: USUAL_PINS,
            up: "base".to_owned(),
            head: "left".to_owned(),
            longest_count: USUAL_LIMIT,
        }
    }
}

/// The bench is set up otherwise.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct SetUpBench {
    /// How it is from now on.
    pub bench: BenchSetUp,
}

/// The bench as it is kept, or as it usually is.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn bench_set_up(production: &Production) -> Result<BenchSetUp, ProductionError> {
    let kept = production.setting(SETTING)?;
    let read = kept.and_then(|text| serde_json::from_str::<BenchSetUp>(&text).ok());
    Ok(read.filter(|b| b.unfit().is_none()).unwrap_or_default())
}

impl BenchSetUp {
    /// What is wrong with it, and what to do.
    fn unfit(&self) -> Option<(String, &'static str)> {
        let Self {
            pins,
            up,
            head,
            longest_count,
        } = self;
        if *pins == 0 || *pins > MOST_PINS {
            return Some((
                format!("{pins} pins are no trim bin"),
                "say how many pins it has, from 1 to 1,000",
            ));
        }
        if !["base", "emulsion"].contains(&up.as_str()) {
            return Some((
                format!("{up:?} is no side of film"),
                "the base or the emulsion lies up",
            ));
        }
        if !["left", "right"].contains(&head.as_str()) {
            return Some((
                format!("{head:?} is no side of the bench"),
                "the head lies to the left or to the right",
            ));
        }
        (!COUNTS.contains(longest_count)).then(|| {
            (
                format!("a longest count of {longest_count} frames makes no sense"),
                "say 6 to 2,000 frames",
            )
        })
    }

    /// Itself, where nothing is wrong with it.
    ///
    /// # Errors
    /// [`ProductionError::Unfit`].
    pub(crate) fn fit(self) -> Result<Self, ProductionError> {
        match self.unfit() {
            Some((message, hint)) => Err(unfit(message, hint)),
            None => Ok(self),
        }
    }
}

impl SetUpBench {
    pub(crate) fn act(&self) -> Result<(String, Act), ProductionError> {
        let bench = self.bench.clone().fit()?;
        let words = format!(
            "the bench: {} pins, {} up, head to the {}, counts of at most {} frames",
            bench.pins, bench.up, bench.head, bench.longest_count
        );
        let value = serde_json::to_string(&bench).ok();
        let act = Act::PutSetting {
            name: SETTING.to_owned(),
            value: value.filter(|_| bench != BenchSetUp::default()),
        };
        Ok((words, act))
    }
}
