//! How often an original has been run: entries of the ledger, made and struck off.

use onestrand_store::{Act, InspectionRecord, Production, RollRecord, RunDay, RunRecord};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::ProductionError;
use crate::change_acts::text_fits;
use crate::documents::RunDocument;
use crate::error::unfit;
use crate::reels::one_of;

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

/// An entry of the ledger is struck off: the roll was not run then after all.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct StrikeRun {
    /// The roll.
    pub roll: String,
    /// The number of the entry.
    pub number: u32,
}

impl RunRoll {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        let roll = production.roll(&self.roll)?;
        one_of(
            "machine",
            &self.through,
            &["projector", "viewer", "scanner"],
        )?;
        text_fits("name", &self.by)?;
        text_fits("note", &self.note)?;
        match RunRecord::day(&self.on) {
            RunDay::Past => {}
            RunDay::ToCome => {
                return Err(unfit(
                    format!("{} has not come yet", self.on),
                    "only what was run is written down",
                ));
            }
            RunDay::None => {
                return Err(unfit(
                    format!("{:?} is no day", self.on),
                    "write year, month and day, such as 2026-03-03",
                ));
            }
        }
        let mut runs = roll.inspection.runs.clone();
        // Above every number that stands there; one that was struck off is only
        // used again where whoever has seen the old entry is refused.
        let number = runs.iter().map(|run| run.number).max().unwrap_or(0) + 1;
        runs.push(RunRecord {
            number,
            on: self.on.clone(),
            through: self.through.clone(),
            by: self.by.trim().to_owned(),
            note: self.note.trim().to_owned(),
        });
        runs.sort_by(|a, b| (&a.on, a.number).cmp(&(&b.on, b.number)));
        let words = format!(
            "a run of {} through the {} on {}",
            self.roll, self.through, self.on
        );
        Ok((words, with(roll, runs)))
    }
}

impl StrikeRun {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        let roll = production.roll(&self.roll)?;
        let mut runs = roll.inspection.runs.clone();
        let Some(at) = runs.iter().position(|run| run.number == self.number) else {
            return Err(unfit(
                format!("no run {} of {} is written down", self.number, self.roll),
                "another window may have struck it off",
            ));
        };
        let gone = runs.remove(at);
        let words = format!("strike the run of {} on {} off", self.roll, gone.on);
        Ok((words, with(roll, runs)))
    }
}

fn with(roll: RollRecord, runs: Vec<RunRecord>) -> Act {
    let inspection = InspectionRecord {
        runs,
        ..roll.inspection.clone()
    };
    Act::PutRoll {
        name: roll.name.clone(),
        roll: Some(Box::new(RollRecord { inspection, ..roll })),
    }
}

/// The ledger of a roll as a document, the first run first.
pub(crate) fn runs_of(roll: &RollRecord) -> Vec<RunDocument> {
    roll.inspection.runs.iter().map(Into::into).collect()
}
