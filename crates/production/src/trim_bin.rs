//! The trim bin: each take hangs on a numbered pin.

use onestrand_store::{Act, HungTake, Production};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::ProductionError;
use crate::error::unfit;

/// The highest pin: more than any bin has.
const HIGHEST_PIN: u32 = 9_999;

/// Hang a take on another pin. Where that one is taken, the two change places.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct MoveToPin {
    /// The roll.
    pub roll: String,
    /// The first frame of the take.
    #[serde(rename = "in")]
    pub first: u32,
    /// The pin, counted from 1; the lowest that is free when not said.
    #[serde(default)]
    pub pin: Option<u32>,
}

impl MoveToPin {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        let pins = production.pins()?;
        let here = |hung: &&HungTake| hung.roll == self.roll && hung.first == self.first;
        let Some(stood) = pins.iter().find(here) else {
            return Err(unfit(
                format!("no take begins at {}\u{b7}{}", self.roll, self.first),
                "name a take by its roll and its first frame",
            ));
        };
        let pin = match self.pin {
            Some(pin) if (1..=HIGHEST_PIN).contains(&pin) => pin,
            Some(other) => {
                return Err(unfit(
                    format!("there is no pin {other}"),
                    "pins are numbered from 1 to 9999",
                ));
            }
            None => next_free(&pins),
        };
        if pin == stood.pin {
            return Err(unfit(
                format!("it hangs on pin {pin} already"),
                "choose another pin",
            ));
        }
        let mut hung = vec![HungTake {
            pin,
            ..stood.clone()
        }];
        let mut words = format!("hang {}\u{b7}{} on pin {pin}", self.roll, self.first);
        if let Some(other) = pins.iter().find(|hung| hung.pin == pin) {
            words.push_str(&format!(
                "; {}\u{b7}{} goes to pin {}",
                other.roll, other.first, stood.pin
            ));
            hung.push(HungTake {
                pin: stood.pin,
                ..other.clone()
            });
        }
        Ok((words, Act::Hang { pins: hung }))
    }
}

/// The lowest pin that nothing hangs on.
fn next_free(pins: &[HungTake]) -> u32 {
    let is_free = |pin: &u32| pins.iter().all(|hung| hung.pin != *pin);
    (1..).find(is_free).unwrap_or(HIGHEST_PIN)
}
