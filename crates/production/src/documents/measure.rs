//! Lengths and places as documents say them.

use serde::Serialize;
use utoipa::ToSchema;

/// Feet, and frames beyond them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
pub struct FootageDocument {
    /// Whole feet.
    pub feet: u32,
    /// Frames beyond them.
    pub frames: u32,
}

impl From<onestrand_film::FeetFrames> for FootageDocument {
    fn from(footage: onestrand_film::FeetFrames) -> Self {
        Self {
            feet: footage.feet(),
            frames: footage.frames(),
        }
    }
}

/// A fraction.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
pub struct FractionDocument {
    /// Upper term.
    pub num: i64,
    /// Lower term.
    pub den: i64,
}

/// Half-open frames of a roll.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct SpanDocument {
    /// The roll.
    pub roll: String,
    /// First frame; before 0 where a bite reaches there.
    #[serde(rename = "in")]
    pub first: i64,
    /// First frame after.
    #[serde(rename = "out")]
    pub thrown: i64,
}
