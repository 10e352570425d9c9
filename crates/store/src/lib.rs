#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod act;
mod backup;
mod cut_records;
mod cuts;
mod error;
mod jobs;
mod journal;
mod migrate;
mod place;
mod production;
mod records;
mod rolls;
mod schema;
mod takes;
mod workprint;
mod workprint_index;
mod workprint_write;

pub use act::Act;
pub use cut_records::{ChangeRecord, CutRecord, PieceRecord};
pub use error::StoreError;
pub use jobs::{Job, JobId, JobKind, JobState};
pub use journal::JournalEntry;
pub use production::{Meta, Production, Revision};
pub use records::{RollRecord, ScanFacts, ScanRecord, TakeRecord};
pub use workprint::{FrameRow, PartIndex, WorkprintInfo, Workprints};
pub use workprint_write::{FileFrameRow, NewFrame, WorkprintWriter};
