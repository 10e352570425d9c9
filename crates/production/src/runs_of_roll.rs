//! How often an original has been run, and entries of its ledger struck off.

use onestrand_store::{Act, Production};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::ProductionError;
use crate::error::unfit;
use crate::ledger::{HandleRoll, Handling, with};

/// What every run of an original costs it.
pub const RUN_WEARS: &str = "Each run of an original wears it; look at the scan first.";

/// An original was run.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct RunRoll {
    /// The roll.
    pub roll: String,
    /// The day, as `2026-03-03`.
    pub on: String,
    /// `projector`, `viewer` or `scanner`.
    pub through: String,
    /// Who ran it.
    #[serde(default)]
    pub by: String,
    /// What is to be said of it.
    #[serde(default)]
    pub note: String,
}

/// An entry of the ledger is struck off: it was not done then after all.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct StrikeRun {
    /// The roll.
    pub roll: String,
    /// The number of the entry.
    pub number: u32,
}

impl RunRoll {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        HandleRoll {
            roll: self.roll.clone(),
            kind: Handling::Run.code().to_owned(),
            on: self.on.clone(),
            through: self.through.clone(),
            times: 1,
            by: self.by.clone(),
            note: self.note.clone(),
        }
        .act(production)
    }
}

impl StrikeRun {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        let roll = production.roll(&self.roll)?;
        let mut ledger = roll.inspection.ledger.clone();
        let Some(at) = ledger.iter().position(|e| e.number == self.number) else {
            return Err(unfit(
                format!("no run {} of {} is written down", self.number, self.roll),
                "another window may have struck it off",
            ));
        };
        let gone = ledger.remove(at);
        let words = format!(
            "strike the {} of {} on {} off",
            gone.kind, self.roll, gone.on
        );
        Ok((words, with(roll, ledger)))
    }
}
