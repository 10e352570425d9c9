//! The hall: throw, picture, letters.

use serde::Serialize;
use utoipa::ToSchema;

/// The answer of `throw`.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct ThrowDocument {
    /// The gauge.
    pub gauge: String,
    /// The lens. Unit: millimetres.
    pub lens_mm: f64,
    /// The part of the frame that is shown, wide and high. Unit: millimetres.
    pub shown_mm: [f64; 2],
    /// From the lens to the screen. Unit: millimetres.
    pub throw_mm: f64,
    /// The same in metres, to the centimetre.
    pub throw_m: String,
    /// The picture, wide and high. Unit: millimetres.
    pub picture_mm: [f64; 2],
    /// The same diagonally. Unit: millimetres.
    pub diagonal_mm: f64,
    /// The last row, where it was said.
    pub last_row: Option<LastRowDocument>,
    /// How it was reckoned.
    pub sums: Vec<String>,
    /// What was taken for granted.
    pub assumptions: Vec<String>,
}

/// What the last row can read.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct LastRowDocument {
    /// From the screen to the seat. Unit: millimetres.
    pub distance_mm: f64,
    /// How high letters are on the screen at least. Unit: millimetres.
    pub letter_mm: f64,
    /// How many such letters would stand on each other in the picture.
    pub letters_in_picture: f64,
    /// How many heights of the picture the seat is away.
    pub heights_away: f64,
    /// The smallest letter that any pamphlet allows, 8.6 minutes of arc. Unit:
    /// millimetres.
    pub smallest_mm: f64,
}
