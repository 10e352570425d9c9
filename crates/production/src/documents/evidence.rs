//! What a reading found on a roll, kept so that a person can look and decide.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::SignDocument;

/// How the files of a roll show its film.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct TransferDocument {
    /// Frames of all files together.
    pub file_frames: u64,
    /// Film frames seen clean.
    pub clean: u32,
    /// Film frames that every file frame shows together with a neighbour.
    pub blended: u32,
    /// Film frames of which nothing can be seen, counted by the cadence.
    pub counted: u32,
    /// File frames that show no film frame anew.
    pub repeats: u32,
    /// File frames of each film frame over one cycle; `[1]` for one to one.
    pub cadence: Vec<u32>,
    /// The speed of the film that the cadence says, as a fraction.
    pub speed: Option<String>,
    /// Where film frames are blended or counted, run by run.
    pub stretches: Vec<StretchDocument>,
}

/// Film frames that are all known in the same way.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct StretchDocument {
    /// `blended` or `counted`.
    pub kind: String,
    /// First frame.
    #[serde(rename = "in")]
    pub first: u32,
    /// First frame after.
    #[serde(rename = "out")]
    pub thrown: u32,
}

/// A break as the reading found it, with what speaks for it.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, ToSchema)]
pub struct BreakDocument {
    /// First frame of the take that begins there.
    pub at: u32,
    /// `camera_stop`, `join`, `cut` or `fade`.
    pub begins: String,
    /// How strongly it stands out: told from 0.4, or from 0.15 where one part of
    /// the picture alone speaks for it. Nothing for a fade or a dissolve.
    pub strength: Option<f64>,
    /// Share of the picture that changes. Range: 0 to 1.
    pub changed: f64,
    /// How many times that is what changes at the frames about it.
    pub stands_out: f64,
    /// Whether one part of the picture alone speaks for it.
    pub in_one_place: bool,
    /// Share of what there was to see before that stands in its place after.
    pub stays: f64,
    /// Over-exposed frames at the start.
    pub flash_frames: u32,
    /// By how much the first is over. Unit: stops.
    pub flash_stops: f64,
    /// Light of the settled take after against the frame before. Unit: stops.
    pub exposure_step: f64,
    /// How far a frame sits out of its place. Unit: thousandths of its height.
    pub rack: f64,
    /// How much a line across the frame stands out. Unit: levels.
    pub edge: f64,
}

/// What a reading found and a roll keeps beside its workprint.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, ToSchema)]
pub struct RollReport {
    /// Hints.
    pub signs: Vec<SignDocument>,
    /// Places where the scan is not even.
    pub anomalies: Vec<super::AnomalyDocument>,
    /// Trouble that did not stop the reading.
    pub warnings: Vec<super::WarningDocument>,
    /// How the files show the film; nothing from a program that did not keep it.
    #[serde(default)]
    pub transfer: Option<TransferDocument>,
    /// Where takes begin, with what speaks for it, whatever was decided since.
    #[serde(default)]
    #[schema(required = true)]
    pub breaks: Vec<BreakDocument>,
    /// Fades and dissolves.
    #[serde(default)]
    #[schema(required = true)]
    pub gradual: Vec<SignDocument>,
}
