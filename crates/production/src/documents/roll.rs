//! Rolls and their logs.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::{
    FileDocument, FootageDocument, HalfDocument, HandlingDocument, HandlingSumsDocument,
    InspectionDocument, RollReport, RunDocument,
};

/// One roll in a list.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct RollDocument {
    /// Its name.
    pub roll: String,
    /// Its gauge.
    pub gauge: String,
    /// Film frames.
    pub frames: u32,
    /// The same in feet and frames.
    pub footage: FootageDocument,
    /// Film frames without a picture.
    pub missing: u32,
    /// Frames that the measured length holds.
    pub expected: Option<u32>,
    /// Found less expected.
    pub difference: Option<i64>,
    /// Whether its scan is proved complete.
    pub proved: bool,
    /// Base.
    pub base: String,
    /// What it is fit for.
    pub fit: String,
    /// The half of a strip of double-run film that it is.
    pub half: Option<HalfDocument>,
    /// When it was run as film, the first run first.
    #[schema(required = false)]
    pub runs: Vec<RunDocument>,
    /// All that was done to it, the first day first.
    #[schema(required = false)]
    pub ledger: Vec<HandlingDocument>,
    /// What that comes to.
    #[schema(required = false)]
    pub handled: HandlingSumsDocument,
    /// Takes on it.
    pub takes: usize,
    /// Whether it is known on paper only.
    pub paper: bool,
    /// Whether its workprint is there.
    pub workprint: bool,
    /// Names the pictures of its workprint; another name, other pictures.
    pub pictures: Option<String>,
    /// The scans.
    pub scans: Vec<FileDocument>,
}

/// A take as it is logged.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct LoggedTakeDocument {
    /// First frame.
    #[serde(rename = "in")]
    pub first: u32,
    /// First frame after.
    #[serde(rename = "out")]
    pub thrown: u32,
    /// What the user says of it.
    #[serde(flatten)]
    pub words: TakeWords,
    /// The pin of the trim bin it hangs on, counted from 1.
    pub pin: u32,
    /// How it begins: `roll_start`, `fog`, `camera_stop`, `join`, `cut`, `fade`.
    pub begins: String,
    /// Over-exposed frames at its start.
    pub flash_frames: u32,
    /// By how much the first is over. Unit: stops.
    pub flash_stops: Option<f64>,
    /// How fast the camera ran in its first frame, where that is over. Unit:
    /// frames a second.
    pub start_speed: Option<f64>,
    /// Whether a person has looked at where it begins, and let it stand.
    pub looked: bool,
}

/// What the user says of a take.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct TakeWords {
    /// Scene and setup letter as the slate says them, `3A`; with `take` or not
    /// at all.
    #[serde(default)]
    pub setup: Option<String>,
    /// Number of the take.
    #[serde(default)]
    pub take: Option<u16>,
    /// `none`, `circled`, `hold` or `ng`.
    #[serde(default = "no_rating")]
    pub rating: String,
    /// Size of the view.
    #[serde(default)]
    pub size: String,
    /// What the camera does.
    #[serde(default)]
    pub camera_move: String,
    /// Who moves which way.
    #[serde(default)]
    pub direction: String,
    /// What happens.
    #[serde(default)]
    pub action: String,
    /// The user's note.
    #[serde(default)]
    pub note: String,
}

fn no_rating() -> String {
    "none".to_owned()
}

/// A roll with its log.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct RollLogDocument {
    /// The revision of the production it was read at.
    pub revision: u64,
    /// The roll.
    pub roll: RollDocument,
    /// The speed in the camera as a fraction.
    pub film_speed: String,
    /// The length measured on the bench, as it was given.
    pub measured: Option<String>,
    /// The shrinkage in per cent, as it was given.
    pub shrinkage: Option<String>,
    /// The wind.
    pub wind: Option<String>,
    /// What was found with the film in the hand.
    pub inspection: InspectionDocument,
    /// Its takes in order; they tile what is logged.
    pub takes: Vec<LoggedTakeDocument>,
    /// What the reading found.
    pub report: Option<RollReport>,
    /// What an older program did not keep when it read the roll: `transfer`, `breaks`,
    /// `signs`. A new reading has it.
    #[schema(required = false)]
    pub not_kept: Vec<String>,
}
