//! The camera's calculators: each with its value and its sum, opened.

use serde::Serialize;
use utoipa::ToSchema;

/// One step of a sum.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CameraSumDocument {
    /// What is reckoned.
    pub what: String,
    /// The formula in words and signs.
    pub formula: String,
    /// The same with the figures put in.
    pub figures: String,
    /// What comes out, with its unit.
    pub comes: String,
    /// Where the formula or its constant is from.
    pub source: String,
}

/// A figure one goes by, as it stands on a plate.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CameraPlateDocument {
    /// What it is.
    pub label: String,
    /// The figure.
    pub count: String,
    /// Its unit in words.
    pub words: String,
}

/// What every calculator tells beside its own figures.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CameraOpenedDocument {
    /// What one goes by, the most important first.
    pub plates: Vec<CameraPlateDocument>,
    /// How it was reckoned.
    pub sums: Vec<CameraSumDocument>,
    /// What was taken for granted.
    pub taken: Vec<String>,
    /// All of it in one line, to be written into the script.
    pub text: String,
}

/// What a lens takes in.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CameraFieldDocument {
    /// The gauge.
    pub gauge: String,
    /// The picture in the camera, wide and high. Unit: millimetres.
    pub image_mm: [f64; 2],
    /// The lens. Unit: millimetres.
    pub lens_mm: f64,
    /// Across the picture. Unit: degrees.
    pub across_degrees: f64,
    /// From foot to head. Unit: degrees.
    pub upright_degrees: f64,
    /// From corner to corner. Unit: degrees.
    pub diagonal_degrees: f64,
    /// What is taken in at the distance, wide and high. Unit: millimetres.
    pub field_mm: Option<[f64; 2]>,
    /// The same for a lens focused there. Unit: millimetres.
    pub focused_mm: Option<[f64; 2]>,
    /// Plates, sums, and the line for the script.
    #[serde(flatten)]
    pub opened: CameraOpenedDocument,
}

/// Another size with the same lens, or at the same place.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CameraSizeDocument {
    /// `long`, `full`, `medium`, `medium close`, `close` or `extreme close`.
    pub size: String,
    /// Its lens. Unit: millimetres.
    pub lens_mm: f64,
    /// Its distance. Unit: millimetres.
    pub distance_mm: f64,
}

/// A lens, a place and what they show of a person.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CameraFramingDocument {
    /// The gauge.
    pub gauge: String,
    /// The lens. Unit: millimetres.
    pub lens_mm: f64,
    /// From the lens to the person. Unit: millimetres.
    pub distance_mm: f64,
    /// What is shown there, wide and high. Unit: millimetres.
    pub field_mm: [f64; 2],
    /// The person. Unit: millimetres.
    pub person_mm: f64,
    /// The size that comes nearest.
    pub size: String,
    /// Lower and upper edge of the picture over the floor. Unit: millimetres.
    pub edges_mm: [f64; 2],
    /// All sizes, with the same lens or at the same place.
    pub sizes: Vec<CameraSizeDocument>,
    /// Plates, sums, and the line for the script.
    #[serde(flatten)]
    pub opened: CameraOpenedDocument,
}

/// From where to where it is sharp. Unit: millimetres from the lens.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CameraReachDocument {
    /// The hyperfocal distance.
    pub hyperfocal_mm: f64,
    /// The near limit.
    pub near_mm: f64,
    /// The far limit; null where it is sharp to infinity.
    pub far_mm: Option<f64>,
}

/// Depth of field.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CameraDepthDocument {
    /// The gauge.
    pub gauge: String,
    /// The lens. Unit: millimetres.
    pub lens_mm: f64,
    /// The stop.
    pub stop: f64,
    /// What it is focused on. Unit: millimetres from the lens.
    pub focus_mm: f64,
    /// The spot that passes for a point. Unit: millimetres.
    pub circle_mm: f64,
    /// By the exact thin lens.
    #[serde(flatten)]
    pub exact: CameraReachDocument,
    /// From the near to the far limit. Unit: millimetres.
    pub depth_mm: Option<f64>,
    /// By the form of printed tables.
    pub table: CameraReachDocument,
    /// Plates, sums, and the line for the script.
    #[serde(flatten)]
    pub opened: CameraOpenedDocument,
}

/// Close-up lenses.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CameraCloseUpDocument {
    /// The gauge.
    pub gauge: String,
    /// The lens. Unit: millimetres.
    pub lens_mm: f64,
    /// All close-up lenses together. Unit: dioptres.
    pub dioptres: f64,
    /// From the close-up lens to what is sharp. Unit: millimetres.
    pub subject_mm: f64,
    /// Size on the film against size in life.
    pub magnification: f64,
    /// What fills the projected picture, wide and high. Unit: millimetres.
    pub field_mm: [f64; 2],
    /// What fills the picture in the camera. Unit: millimetres.
    pub camera_field_mm: [f64; 2],
    /// Plates, sums, and the line for the script.
    #[serde(flatten)]
    pub opened: CameraOpenedDocument,
}
