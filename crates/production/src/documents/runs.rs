//! The ledger of an original.

use onestrand_store::HandlingRecord;
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
    /// How many times on that day.
    #[schema(required = false)]
    pub times: u32,
    /// Who ran it.
    pub by: String,
    /// What is to be said of it.
    pub note: String,
}

impl From<&HandlingRecord> for RunDocument {
    fn from(run: &HandlingRecord) -> Self {
        Self {
            number: run.number,
            on: run.on.clone(),
            through: run.through.clone(),
            times: run.times,
            by: run.by.clone(),
            note: run.note.clone(),
        }
    }
}

/// One entry of the ledger of an original.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct HandlingDocument {
    /// Its number on the roll; 0 for a line from the bench.
    pub number: u32,
    /// `run`, `cleaning`, `cut`, `opened`, `repair` or `inspection`; from the bench
    /// also `wound`: over the rewinds, once for each time that the roll came on them.
    pub kind: String,
    /// The day, as `2026-03-03`.
    pub on: String,
    /// Of a run: `projector`, `viewer` or `scanner`; else empty.
    pub through: String,
    /// How many times on that day.
    pub times: u32,
    /// Who did it.
    pub by: String,
    /// What is to be said of it.
    pub note: String,
    /// Whether the log of the bench says so: such a line has no number, and is
    /// corrected at the bench.
    pub from_bench: bool,
}

impl From<&HandlingRecord> for HandlingDocument {
    fn from(entry: &HandlingRecord) -> Self {
        Self {
            number: entry.number,
            kind: entry.kind.clone(),
            on: entry.on.clone(),
            through: entry.through.clone(),
            times: entry.times,
            by: entry.by.clone(),
            note: entry.note.clone(),
            from_bench: false,
        }
    }
}

/// What the ledger of an original comes to.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct HandlingSumsDocument {
    /// Runs through any machine.
    pub runs: u32,
    /// Of these through a projector: each time under a hot lamp.
    pub by_projector: u32,
    /// Of these through a viewer.
    pub by_viewer: u32,
    /// Of these through a scanner.
    pub scans: u32,
    /// Cleanings.
    pub cleanings: u32,
    /// Times wound over the rewinds of the bench, once for each time it came on them.
    pub wound: u32,
    /// Cuts with the blade.
    pub cuts: u32,
    /// Joins opened.
    pub joins_opened: u32,
    /// Repairs.
    pub repairs: u32,
    /// Inspections.
    pub inspections: u32,
}
