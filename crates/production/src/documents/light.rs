//! The light of the shots: the grading card, patches, what was solved.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

/// The light that a stretch of a roll is given.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct GradedShot {
    /// The roll.
    pub roll: String,
    /// The first frame.
    #[serde(rename = "in")]
    pub first: u32,
    /// The first frame after it.
    #[serde(rename = "out")]
    pub thrown: u32,
    /// Red light. Unit: points, 12 a stop; more is lighter. Range: −60 to 60.
    pub red: i16,
    /// Green light, the same.
    pub green: i16,
    /// Blue light, the same.
    pub blue: i16,
    /// Why, in the user's words.
    #[serde(default)]
    pub reason: String,
}

/// A rectangle on a frame that shows one thing.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct PatchWords {
    /// The thing, by a name of the user's: the same in every shot that shows it.
    pub thing: String,
    /// The roll.
    pub roll: String,
    /// The frame.
    pub frame: u32,
    /// Left edge. Unit: ten-thousandths of the picture's width.
    pub left: u32,
    /// Upper edge. Unit: ten-thousandths of the picture's height.
    pub top: u32,
    /// Width. Unit: ten-thousandths of the picture's width.
    pub width: u32,
    /// Height. Unit: ten-thousandths of the picture's height.
    pub height: u32,
}

/// A patch as it was measured on the browsing picture.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, ToSchema)]
pub struct PatchMeasured {
    /// Where.
    #[serde(flatten)]
    pub patch: PatchWords,
    /// log10 of the mean light of red, green and blue; nothing where there is no light.
    pub log: Option<[f64; 3]>,
    /// Share of it at the top of what can be said. Range: 0 to 1.
    pub blown: f64,
    /// Share of it near black.
    pub black: f64,
    /// Whether shots can be matched by it.
    pub usable: bool,
}

/// The grading card: the light of every shot, and the patches it was found by.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, ToSchema)]
pub struct GradingCard {
    /// By roll and first frame. Where two hold a frame, the shorter one counts.
    #[serde(default)]
    pub shots: Vec<GradedShot>,
    /// What was measured when they were kept.
    #[serde(default)]
    pub patches: Vec<PatchMeasured>,
}

/// What is to be solved together.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct LightAsked {
    /// The patches.
    pub patches: Vec<PatchWords>,
    /// The shot that keeps its light, by any of its frames; the mean of all is held when
    /// none is said.
    #[serde(default)]
    pub held: Option<FrameAsked>,
    /// The version whose pieces are the shots; takes are, when none is said.
    #[serde(default)]
    pub cut: Option<String>,
}

/// A frame by its name.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct FrameAsked {
    /// The roll.
    pub roll: String,
    /// The frame.
    pub frame: u32,
}

/// Where a shot stands in a scene that was solved.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub enum ShotStands {
    /// The others come to it.
    Held,
    /// It was solved.
    Solved,
    /// No chain of things leads from it to the one that is held.
    Apart,
}

/// A shot as it was solved.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct ShotSolved {
    /// The roll.
    pub roll: String,
    /// The first frame.
    #[serde(rename = "in")]
    pub first: u32,
    /// The first frame after it.
    #[serde(rename = "out")]
    pub thrown: u32,
    /// What its slate says, such as `3A-T2`; empty where nothing was logged.
    pub slate: String,
    /// Where it stands.
    pub stands: ShotStands,
    /// Red, green and blue light it wants. Unit: points, measured.
    pub measured_points: [f64; 3],
    /// The same in whole points; nothing where it is more than a printer has.
    pub points: Option<[i16; 3]>,
    /// What linear light is multiplied by, for the whole points.
    pub slopes: Option<[f64; 3]>,
    /// Standard error. Unit: points. Nothing where nothing could disagree.
    pub error_points: Option<[f64; 3]>,
    /// Things in it that another shot shows too.
    pub things: usize,
}

/// A patch as it fits.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct PatchFits {
    /// The patch.
    #[serde(flatten)]
    pub measured: PatchMeasured,
    /// What is left over when everything is matched. Unit: points.
    pub left_points: [f64; 3],
    /// Whether it stands so far off that it hardly counted.
    pub off: bool,
}

/// A scene solved together.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct LightSolved {
    /// Every shot that a patch lies in, in the order of rolls and frames.
    pub shots: Vec<ShotSolved>,
    /// Every patch, as asked.
    pub patches: Vec<PatchFits>,
    /// What should be known of it, in words.
    pub words: Vec<String>,
}

/// One patch measured.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct LightMeasured {
    /// What was found.
    #[serde(flatten)]
    pub measured: PatchMeasured,
    /// Mean light of red, green and blue. Range: 0 to 1.
    pub light: [f64; 3],
    /// Pixels of the browsing picture that were looked at.
    pub pixels: usize,
    /// From numbers to light: `BT.709`, `sRGB`, …
    pub transfer: String,
    /// Whether the scan says so itself; else it is taken for BT.709.
    pub transfer_is_said: bool,
}

/// What was done to a stretch of a finish.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct StretchTreated {
    /// The roll.
    pub roll: String,
    /// The first frame.
    #[serde(rename = "in")]
    pub first: u32,
    /// The first frame after it.
    #[serde(rename = "out")]
    pub thrown: u32,
    /// Weave found, right and down, root mean square. Unit: micrometres on the film, taking
    /// the scan's width for that of the camera's gate.
    pub weave_um: Option<[f64; 2]>,
    /// Frames whose step could not be told.
    pub steps_not_told: usize,
    /// Frames that wanted to be moved farther than 2 % of the width.
    pub bounded: usize,
    /// Flicker found, root mean square. Unit: stops.
    pub flicker_stops: Option<f64>,
}

/// What was done to the pictures of a finish, for its label.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct TreatmentDocument {
    /// Shots were given the light of the grading card.
    pub light: bool,
    /// Weave was taken out.
    pub steadied: bool,
    /// Flicker was evened.
    pub flicker: bool,
    /// From numbers to light.
    pub transfer: String,
    /// Whether the scan says so itself.
    pub transfer_is_said: bool,
    /// Frames that were given points.
    pub frames_with_points: u64,
    /// Share of the numbers that were pushed to the top. Range: 0 to 1.
    pub blown: f64,
    /// Stretch by stretch, where weave or flicker was measured.
    pub stretches: Vec<StretchTreated>,
}
