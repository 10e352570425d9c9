#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod act;
mod backup;
mod bench_lines;
mod cut_records;
mod cuts;
mod dub;
mod error;
mod inspection;
mod jobs;
mod journal;
mod kept;
mod migrate;
mod notes;
mod peek;
mod pins;
mod place;
mod production;
mod records;
mod reels;
mod rolls;
mod runs;
mod schema;
mod script;
mod script_parts;
mod settings;
mod takes;
mod titles;
mod workprint;
mod workprint_index;
mod workprint_pictures;
mod workprint_sweep;
mod workprint_write;

pub use act::{Act, Touched};
pub use bench_lines::BenchLineRecord;
pub use cut_records::{ChangeRecord, CutRecord, PieceRecord};
pub use dub::{DubKind, DubRecord};
pub use error::StoreError;
pub use inspection::{
    ConditionRecord, EdgeNumberRecord, EdgeRecord, HalfRecord, InspectionRecord, RollJoinRecord,
    WoundRecord,
};
pub use jobs::{Job, JobId, JobKind, JobState};
pub use journal::JournalEntry;
pub use kept::{Kept, Lately, Stepped};
pub use notes::NoteRecord;
pub use peek::Peek;
pub use pins::HungTake;
pub use production::{Meta, Production, Revision};
pub use records::{RollRecord, ScanFacts, ScanRecord, TakeRecord};
pub use reels::{ReelRecord, WoundPartRecord};
pub use runs::{HandlingRecord, LedgerDay};
pub use script::ScriptRecord;
pub use script_parts::{
    ActionRecord, FloorPlanRecord, PlanCameraRecord, PlanLineRecord, PlanMarkRecord, RecceRecord,
    SceneRecord, ScriptPart, SetupRecord, ShownRecord, WildSoundRecord,
};
pub use titles::TitleRecord;
pub use workprint::{FrameRow, PartIndex, WorkprintInfo, Workprints};
pub use workprint_pictures::PictureRun;
pub use workprint_write::{FileFrameRow, NewFrame, WorkprintWriter};
