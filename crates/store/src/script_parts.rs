//! What a script is made of, as plain text and numbers.

use serde::{Deserialize, Serialize};

/// A part of the script.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
#[non_exhaustive]
pub enum ScriptPart {
    /// A scene with its actions.
    Scene(SceneRecord),
    /// A place of the camera and what it is to show.
    Setup(SetupRecord),
    /// A sound to be got without the camera.
    WildSound(WildSoundRecord),
    /// A place drawn from above.
    FloorPlan(FloorPlanRecord),
    /// What was seen on a visit to a place.
    Recce(RecceRecord),
}

impl ScriptPart {
    /// What kind of part it is, in one word.
    #[must_use]
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::Scene(_) => "scene",
            Self::Setup(_) => "setup",
            Self::WildSound(_) => "wild_sound",
            Self::FloorPlan(_) => "floor_plan",
            Self::Recce(_) => "recce",
        }
    }
}

/// A scene as it is kept.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct SceneRecord {
    /// Its number as the slate says it: `2`.
    pub number: String,
    /// Where and when.
    pub heading: String,
    /// What happens, in order.
    pub actions: Vec<ActionRecord>,
    /// The user's note.
    pub note: String,
}

/// What happens, as it is kept.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct ActionRecord {
    /// Its name: `2a`.
    pub name: String,
    /// What happens, or what is said.
    pub text: String,
    /// Who speaks, where it is a speech.
    pub speaker: Option<String>,
}

/// An action as a setup has it.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct ShownRecord {
    /// The action's name.
    pub action: String,
    /// Whether the camera looks away, or it is only heard.
    pub off_camera: bool,
}

/// A setup as it is kept.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct SetupRecord {
    /// As the slate says it: `2`, `2A`, `M`.
    pub name: String,
    /// The number of its scene; empty for a title.
    pub scene: String,
    /// What it shows, in order.
    pub shown: Vec<ShownRecord>,
    /// How large.
    pub size: String,
    /// How the camera moves.
    #[serde(rename = "move")]
    pub movement: String,
    /// What happens, in a few words.
    pub action: String,
    /// What is heard.
    pub sound: String,
    /// Who or what moves.
    pub mover: String,
    /// Which way, on the screen.
    pub direction: String,
    /// Who is needed.
    pub cast: Vec<String>,
    /// What is needed.
    pub props: Vec<String>,
    /// How long a take is thought to run, as text with at most three decimals.
    pub seconds: String,
    /// How many takes are planned.
    pub takes: u16,
    /// Frames over which it turns into the next one in the camera.
    pub dissolve: u32,
    /// The user's note.
    pub note: String,
}

/// A wild sound as it is kept.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct WildSoundRecord {
    /// What is heard.
    pub sound: String,
    /// Where it is to be had.
    pub place: String,
    /// How long, as text with at most three decimals.
    pub seconds: String,
    /// How far the microphone stands.
    pub distance: String,
    /// Whether it is in the box.
    pub got: bool,
    /// The user's note.
    pub note: String,
}

/// A place drawn from above, to scale. Unit of all lengths and points: centimetres, x to
/// the right and y downward on the drawing.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct FloorPlanRecord {
    /// What the place is called.
    pub name: String,
    /// The scenes played there, by number.
    pub scenes: Vec<String>,
    /// How wide the drawing is.
    pub width: i32,
    /// How high the drawing is.
    pub height: i32,
    /// Where north lies, clockwise from the top of the drawing. Unit: degrees.
    pub north: i32,
    /// Latitude, north positive. Unit: thousandths of a degree.
    pub latitude: Option<i32>,
    /// Longitude, east positive. Unit: thousandths of a degree.
    pub longitude: Option<i32>,
    /// The day it is to be shot: `2026-06-21`.
    pub day: String,
    /// By how much the clock that is used is ahead of UTC. Unit: minutes.
    pub utc_offset: i32,
    /// Walls, banks, tables.
    pub lines: Vec<PlanLineRecord>,
    /// The line of action, from and to.
    pub line_of_action: Option<[[i32; 2]; 2]>,
    /// Where the camera stands.
    pub cameras: Vec<PlanCameraRecord>,
    /// Who and what stands where.
    pub marks: Vec<PlanMarkRecord>,
}

/// A line on a floor plan.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct PlanLineRecord {
    /// Its points.
    pub points: Vec<[i32; 2]>,
    /// A word that stands beside it; empty for none.
    pub words: String,
}

/// A camera on a floor plan.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct PlanCameraRecord {
    /// The setup it stands for.
    pub setup: String,
    /// Where.
    pub at: [i32; 2],
    /// Which way it looks, clockwise from the top of the drawing. Unit: degrees.
    pub looks: i32,
    /// The lens. Unit: tenths of a millimetre.
    pub lens: u32,
}

/// A person or a thing on a floor plan.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct PlanMarkRecord {
    /// Who or what.
    pub words: String,
    /// Where.
    pub at: [i32; 2],
    /// Where to, if it goes.
    pub goes_to: Option<[i32; 2]>,
}

/// What was seen on a visit.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct RecceRecord {
    /// The place.
    pub place: String,
    /// The scenes it is for, by number.
    pub scenes: Vec<String>,
    /// What was seen.
    pub words: String,
    /// The name of a photograph in the film's own folder; empty when there is none.
    pub photograph: String,
}
