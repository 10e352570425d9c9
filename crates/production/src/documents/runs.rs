//! The ledger of runs of an original.

use onestrand_store::RunRecord;
use serde::Serialize;
use utoipa::ToSchema;

/// One run of an original.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct RunDocument {
    /// Its number on the roll.
    pub number: u32,
    /// The day, as `2026-03-03`.
    pub on: String,
    /// `projector`, `viewer` or `scanner`.
    pub through: String,
    /// Who ran it.
    pub by: String,
    /// What is to be said of it.
    pub note: String,
}

impl From<&RunRecord> for RunDocument {
    fn from(run: &RunRecord) -> Self {
        Self {
            number: run.number,
            on: run.on.clone(),
            through: run.through.clone(),
            by: run.by.clone(),
            note: run.note.clone(),
        }
    }
}
