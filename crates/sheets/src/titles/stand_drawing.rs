//! The copy stand drawn to scale.

use crate::plan::PlanHead;

/// A copy stand to draw, seen from the front and from the side. Lengths in millimetres.
#[derive(Clone, Debug)]
pub struct StandDrawing {
    /// What every sheet has in common; its place may say which title.
    pub head: PlanHead,
    /// The lens and what stands before it: `25 mm lens, +3`.
    pub lens: String,
    /// From the lens to the artwork.
    pub subject_mm: f64,
    /// From the film to the artwork.
    pub film_to_subject_mm: f64,
    /// What the camera takes in, wide and high.
    pub field_mm: [f64; 2],
    /// What of it is shown.
    pub shown_mm: [f64; 2],
    /// Sharp from and to, over the artwork and under it; none where no stop is said.
    pub sharp_mm: Option<(f64, Option<f64>)>,
    /// The lamps; empty draws none.
    pub lamps: Vec<StandLamp>,
    /// Between the axis of the lens and the light. Unit: degrees.
    pub angle_degrees: f64,
    /// From a lamp to the middle of the field.
    pub lamp_distance_mm: f64,
    /// Glass lies on the artwork.
    pub glass: bool,
    /// Framed figures: value and what it is.
    pub figures: Vec<(String, String)>,
    /// What was reckoned and taken for granted, a sentence each.
    pub remarks: Vec<String>,
}

/// A lamp: from the middle of the field. Unit: millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StandLamp {
    /// East.
    pub east: f64,
    /// North.
    pub north: f64,
    /// Over the artwork.
    pub over: f64,
}
