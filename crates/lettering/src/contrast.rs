//! How well the letters stand out where they stand.

use crate::{Layer, light};

/// A place of a picture. Unit: pixels from the top left.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Place {
    /// Left edge.
    pub x: u32,
    /// Top edge.
    pub y: u32,
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
}

/// What would make the letters stand out enough; each was tried and measured.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Remedy {
    /// Move the words down (or up, when negative). Unit: parts of the picture
    /// height.
    Move {
        /// How far down.
        down: f64,
    },
    /// Letters of the other colour: black for white, white for black.
    DarkLetters,
    /// A plate behind the words.
    Plate,
    /// Make the ground darker. Unit: stops.
    Darken {
        /// By how much.
        stops: f64,
    },
}

/// How light the letters are beside what is around them.
#[derive(Debug, Clone, PartialEq)]
pub struct Contrast {
    /// The worst ratio of any place where letters stand. Range: 1 to 21.
    pub ratio: f64,
    /// The ratio of the place in the middle of all, from best to worst.
    pub typical: f64,
    /// Where the worst is.
    pub worst: Place,
    /// The ratio wanted.
    pub wanted: f64,
    /// Whether the worst place is good enough.
    pub enough: bool,
    /// What would be enough, the least trouble first; empty when it is enough.
    pub remedies: Vec<Remedy>,
}

/// SKELETON: not measured yet.
#[must_use]
pub fn contrast(ground_rgb: &[u8], layer: &Layer, size: (u32, u32)) -> Contrast {
    let _ = (light::luminance(&ground_rgb[..3]), layer);
    Contrast {
        ratio: 1.0,
        typical: 1.0,
        worst: Place {
            x: 0,
            y: 0,
            width: size.0,
            height: size.1,
        },
        wanted: 4.5,
        enough: false,
        remedies: Vec::new(),
    }
}
