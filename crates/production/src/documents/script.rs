//! The shooting script as a document, part by part.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::{CoverageDocument, FloorPlanDocument, FootageDocument, StockWords};

/// What happens: the unit in which coverage is counted.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
pub struct ActionWords {
    /// Its name: the number of its scene and a small letter, `2a`. In a change: the name
    /// it had, empty for a new one; letters are given anew.
    #[serde(default)]
    #[schema(required = true)]
    pub name: String,
    /// What happens, or what is said.
    pub text: String,
    /// Who speaks, where it is a speech.
    #[serde(default)]
    #[schema(required = true)]
    pub speaker: Option<String>,
}

/// A scene: one place at one time.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
pub struct SceneWords {
    /// Its number as the slate says it: `2`. Empty gives the next one that is free.
    #[serde(default)]
    #[schema(required = true)]
    pub number: String,
    /// Where and when.
    #[serde(default)]
    #[schema(required = true)]
    pub heading: String,
    /// What happens, in order.
    #[serde(default)]
    #[schema(required = true)]
    pub actions: Vec<ActionWords>,
    /// The user's note.
    #[serde(default)]
    #[schema(required = true)]
    pub note: String,
}

/// An action as a setup has it.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
pub struct ShownWords {
    /// The action's name.
    pub action: String,
    /// Whether it goes on out of the picture there.
    #[serde(default)]
    #[schema(required = true)]
    pub off_camera: bool,
}

/// One place of the camera, and what it is to show.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
pub struct SetupWords {
    /// As the slate says it: `2` the master, `2A` a closer angle, `M` a title. Empty gives
    /// the next letter of the scene.
    #[serde(default)]
    #[schema(required = true)]
    pub name: String,
    /// The number of its scene; empty for a title.
    #[serde(default)]
    #[schema(required = true)]
    pub scene: String,
    /// What it shows, in order.
    #[serde(default)]
    #[schema(required = true)]
    pub shown: Vec<ShownWords>,
    /// How large.
    #[serde(default)]
    #[schema(required = true)]
    pub size: String,
    /// How the camera moves.
    #[serde(default, rename = "move")]
    #[schema(required = true)]
    pub movement: String,
    /// What happens, in a few words.
    #[serde(default)]
    #[schema(required = true)]
    pub action: String,
    /// What is heard.
    #[serde(default)]
    #[schema(required = true)]
    pub sound: String,
    /// Who or what moves through the picture.
    #[serde(default)]
    #[schema(required = true)]
    pub mover: String,
    /// Which way, on the screen.
    #[serde(default)]
    #[schema(required = true)]
    pub direction: String,
    /// Who is needed.
    #[serde(default)]
    #[schema(required = true)]
    pub cast: Vec<String>,
    /// What is needed.
    #[serde(default)]
    #[schema(required = true)]
    pub props: Vec<String>,
    /// How long a take is thought to run: seconds with at most three decimals.
    #[serde(default)]
    #[schema(required = true)]
    pub seconds: String,
    /// How many takes are planned.
    #[serde(default = "one")]
    #[schema(required = true)]
    pub takes: u16,
    /// Frames over which it turns into the next one where the film is cut in the camera.
    #[serde(default)]
    #[schema(required = true)]
    pub dissolve: u32,
    /// The user's note.
    #[serde(default)]
    #[schema(required = true)]
    pub note: String,
}

const fn one() -> u16 {
    1
}

/// A sound to be got on the spot, without the camera.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
pub struct WildSoundWords {
    /// What is heard.
    pub sound: String,
    /// Where it is to be had.
    #[serde(default)]
    #[schema(required = true)]
    pub place: String,
    /// How long: seconds with at most three decimals; empty where it is not said.
    #[serde(default)]
    #[schema(required = true)]
    pub seconds: String,
    /// How far the microphone stands.
    #[serde(default)]
    #[schema(required = true)]
    pub distance: String,
    /// Whether it is in the box.
    #[serde(default)]
    #[schema(required = true)]
    pub got: bool,
    /// The user's note.
    #[serde(default)]
    #[schema(required = true)]
    pub note: String,
}

/// What was seen on a visit to a place.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
pub struct RecceWords {
    /// The place.
    pub place: String,
    /// The scenes it is for, by number.
    #[serde(default)]
    #[schema(required = true)]
    pub scenes: Vec<String>,
    /// What was seen.
    #[serde(default)]
    #[schema(required = true)]
    pub words: String,
    /// The name of a photograph in the film's own folder; empty when there is none.
    #[serde(default)]
    #[schema(required = true)]
    pub photograph: String,
}

/// A scene under its number in the store.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct SceneDocument {
    /// By what a change names it.
    pub id: i64,
    /// What it is.
    pub scene: SceneWords,
}

/// A setup under its number in the store.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct SetupDocument {
    /// By what a change names it.
    pub id: i64,
    /// What it is.
    pub setup: SetupWords,
    /// Whether it is a title: its name has no scene number.
    pub is_title: bool,
    /// A take of it, run-up and run-out included; 0 while no seconds are said. Unit: frames.
    pub take_frames: u32,
    /// Takes that were shot, by the log.
    pub shot: u32,
}

/// A wild sound under its number in the store.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct WildSoundDocument {
    /// By what a change names it.
    pub id: i64,
    /// What it is.
    pub wild_sound: WildSoundWords,
}

/// A visit under its number in the store.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct RecceDocument {
    /// By what a change names it.
    pub id: i64,
    /// What it is.
    pub recce: RecceWords,
}

/// A take that was shot, as the lined script draws it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct LinedTakeDocument {
    /// The setup as the slate says it.
    pub setup: String,
    /// Which take of it.
    pub take: u32,
    /// The roll it lies on.
    pub roll: String,
    /// Its first frame.
    #[serde(rename = "in")]
    pub first: u32,
    /// The first frame after it.
    pub out: u32,
    /// The frame that tells it best: its middle.
    pub picture: u32,
    /// What was said of it: `circled`, `hold` or `ng`.
    pub rating: String,
}

/// Something that has to be put right before film can be planned.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct PlanProblemDocument {
    /// Which setup, scene or roll.
    pub place: String,
    /// What was found, and what to do.
    pub message: String,
}

/// The shooting script of a film.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct ScriptDocument {
    /// How many changes the film has seen.
    pub revision: u64,
    /// In the order of the film.
    pub scenes: Vec<SceneDocument>,
    /// In the order of the script.
    pub setups: Vec<SetupDocument>,
    /// What is to be recorded besides.
    pub wild_sounds: Vec<WildSoundDocument>,
    /// Places drawn from above.
    pub floor_plans: Vec<FloorPlanDocument>,
    /// Visits.
    pub recces: Vec<RecceDocument>,
    /// Takes that were shot and have a slate, in the order of the rolls.
    pub takes: Vec<LinedTakeDocument>,
    /// Setups whose one take is meant so.
    pub set_may_go: Vec<String>,
    /// The film that is planned with.
    pub stock: StockWords,
    /// The usable load in feet and frames.
    pub load_footage: FootageDocument,
    /// Coverage by what is planned.
    pub planned: CoverageDocument,
    /// Coverage by what was shot; nothing while no take has a slate.
    pub shot: Option<CoverageDocument>,
    /// What keeps it from being planned.
    pub problems: Vec<PlanProblemDocument>,
}

/// What a file that was brought in held.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct ScriptImported {
    /// `screenplay`, `table`, `wild_sounds` or `camera_report`.
    pub kind: String,
    /// Scenes in the script now.
    pub scenes: usize,
    /// Actions in the script now.
    pub actions: usize,
    /// Setups in the script now.
    pub setups: usize,
    /// Wild sounds in the list now.
    pub wild_sounds: usize,
    /// Takes that a camera report brought.
    pub takes: usize,
    /// Columns that the form does not have; what stood there is kept in the notes.
    pub unknown_columns: Vec<String>,
    /// What was read in another way than it may have been meant, or was carried over.
    pub remarks: Vec<String>,
}
