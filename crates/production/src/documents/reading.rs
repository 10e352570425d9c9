//! What the reading of a transfer found.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::FootageDocument;

/// What the outside of the program has to say of a scan file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct FileDocument {
    /// Where it is.
    pub path: String,
    /// File frames decoded.
    pub frames: u64,
    /// File frames a second.
    pub rate: String,
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
    /// The coding in words.
    pub coding: String,
}

/// The film frames found.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct FilmDocument {
    /// Film frames, missing ones counted.
    pub frames: u32,
    /// The speed of the film.
    pub speed: String,
    /// Seen clean.
    pub clean: u32,
    /// Blended with a neighbour.
    pub blended: u32,
    /// Counted, not seen.
    pub counted: u32,
    /// Without a picture.
    pub missing: u32,
    /// File frames per film frame.
    pub cadence: Vec<u32>,
    /// File frames that repeat another.
    pub repeats: u32,
    /// Length in feet and frames.
    pub footage: FootageDocument,
    /// Frames that the measured length holds.
    pub expected: Option<u32>,
    /// Found less expected.
    pub difference: Option<i64>,
    /// Places where the scan is not even.
    pub anomalies: Vec<AnomalyDocument>,
}

/// A place where the scan is not even.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct AnomalyDocument {
    /// Film frame.
    pub at: u32,
    /// `skip` or `doubled`.
    pub kind: String,
    /// How many frames.
    pub frames: u32,
    /// At least.
    pub frames_low: u32,
    /// At most.
    pub frames_high: u32,
}

/// A take as the picture shows it.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct TakeDocument {
    /// First frame.
    #[serde(rename = "in")]
    pub first: u32,
    /// First frame after.
    #[serde(rename = "out")]
    pub thrown: u32,
    /// How it begins: `roll_start`, `fog`, `camera_stop`, `join`, `cut` or
    /// `fade`.
    pub begins: &'static str,
    /// Over-exposed frames at its start.
    pub flash_frames: u32,
    /// By how much the first is over. Unit: stops.
    pub flash_stops: f64,
    /// How fast the camera ran in its first frame, where that is over. Unit:
    /// frames a second.
    pub start_speed: Option<f64>,
}

/// A part of the picture. Unit: thousandths of it, from the left and from the top;
/// right and bottom are past it. A line has its left for its right.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct AreaDocument {
    /// Left side.
    pub left: u16,
    /// Upper side.
    pub top: u16,
    /// Right side.
    pub right: u16,
    /// Lower side.
    pub bottom: u16,
}

/// A measured hint.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, ToSchema)]
pub struct SignDocument {
    /// The kind.
    pub kind: String,
    /// First frame.
    #[serde(rename = "in")]
    pub first: u32,
    /// First frame after.
    #[serde(rename = "out")]
    pub thrown: u32,
    /// The measure.
    pub measure: f64,
    /// Its unit, in words.
    pub unit: String,
    /// Where in the picture.
    #[serde(rename = "where")]
    pub place: Option<String>,
    /// The same, to be drawn on the picture.
    #[serde(default)]
    pub area: Option<AreaDocument>,
    /// The frame that has most of it, where one was measured.
    #[serde(default)]
    pub most: Option<u32>,
    /// The frame of the take to lay beside it, which has least of it.
    #[serde(default)]
    pub least: Option<u32>,
    /// Share of the frame `most` that is clipped to white, where there is too much
    /// light. Unit: per cent.
    #[serde(default)]
    pub clipped_percent: Option<f64>,
}

/// Trouble that did not stop the work.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct WarningDocument {
    /// A stable name.
    pub code: String,
    /// In words.
    pub message: String,
    /// The next step.
    pub hint: String,
}

/// The answer of `read`.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct ReadDocument {
    /// The file; the first one where a roll comes in several.
    pub file: FileDocument,
    /// All files in order.
    pub files: Vec<FileDocument>,
    /// The gauge it was counted in.
    pub gauge: String,
    /// The film frames.
    pub film: FilmDocument,
    /// Which file frame best shows each film frame, counted through all files.
    pub map: Vec<Option<u64>>,
    /// The takes; they tile the roll.
    pub takes: Vec<TakeDocument>,
    /// Fades and dissolves.
    pub gradual: Vec<SignDocument>,
    /// Hints.
    pub signs: Vec<SignDocument>,
    /// Trouble that did not stop the reading.
    pub warnings: Vec<WarningDocument>,
    /// What was taken for granted.
    pub assumptions: Vec<String>,
}
