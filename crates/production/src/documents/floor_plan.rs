//! A place drawn from above.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

/// A line on a floor plan.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
pub struct PlanLineWords {
    /// Its points. Unit: centimetres.
    pub points: Vec<[i32; 2]>,
    /// A word that stands beside it.
    #[serde(default)]
    #[schema(required = true)]
    pub words: String,
}

/// A camera on a floor plan.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
pub struct PlanCameraWords {
    /// The setup it stands for.
    pub setup: String,
    /// Where. Unit: centimetres.
    pub at: [i32; 2],
    /// Which way it looks, clockwise from the top of the drawing. Unit: degrees.
    pub looks: i32,
    /// The lens. Unit: tenths of a millimetre.
    pub lens: u32,
}

/// A person or a thing on a floor plan.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
pub struct PlanMarkWords {
    /// Who or what.
    pub words: String,
    /// Where. Unit: centimetres.
    pub at: [i32; 2],
    /// Where to, if it goes.
    #[serde(default)]
    #[schema(required = true)]
    pub goes_to: Option<[i32; 2]>,
}

/// A place drawn from above, to scale. Points are in centimetres, x to the right and y
/// downward.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
#[serde(default)]
pub struct FloorPlanWords {
    /// What the place is called.
    #[schema(required = true)]
    pub name: String,
    /// The scenes played there, by number.
    #[schema(required = true)]
    pub scenes: Vec<String>,
    /// How wide the drawing is. Unit: centimetres.
    #[schema(required = true)]
    pub width: i32,
    /// How high the drawing is. Unit: centimetres.
    #[schema(required = true)]
    pub height: i32,
    /// Where north lies, clockwise from the top of the drawing. Unit: degrees.
    #[schema(required = true)]
    pub north: i32,
    /// Latitude, north positive. Unit: thousandths of a degree.
    #[schema(required = true)]
    pub latitude: Option<i32>,
    /// Longitude, east positive. Unit: thousandths of a degree.
    #[schema(required = true)]
    pub longitude: Option<i32>,
    /// The day: `2026-06-21`.
    #[schema(required = true)]
    pub day: String,
    /// By how much the clock is ahead of UTC. Unit: minutes.
    #[schema(required = true)]
    pub utc_offset: i32,
    /// Walls, banks, tables.
    #[schema(required = true)]
    pub lines: Vec<PlanLineWords>,
    /// The line of action, from and to.
    #[schema(required = true)]
    pub line_of_action: Option<[[i32; 2]; 2]>,
    /// Where the camera stands.
    #[schema(required = true)]
    pub cameras: Vec<PlanCameraWords>,
    /// Who and what stands where.
    #[schema(required = true)]
    pub marks: Vec<PlanMarkWords>,
}

/// What a camera on the plan sees.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct PlanFieldDocument {
    /// The setup.
    pub setup: String,
    /// How wide it sees. Unit: degrees.
    pub angle: f64,
    /// Whether it stands over the line of action from the first camera of its scene.
    pub over_the_line: bool,
}

/// A floor plan under its number in the store.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct FloorPlanDocument {
    /// By what a change names it.
    pub id: i64,
    /// What it is.
    pub plan: FloorPlanWords,
    /// What its cameras see, in their order.
    pub fields: Vec<PlanFieldDocument>,
}
