//! The grading card: the light of every shot, in points.

use onestrand_film::FrameName;

use crate::head::Head;

/// A grading card to print.
#[derive(Clone, Debug)]
pub struct GradingSheet {
    /// What every sheet has in common.
    pub head: Head,
    /// In the order of the cut.
    pub rows: Vec<GradingRow>,
}

/// A shot of the version, or the stretch of it that has one light.
#[derive(Clone, Debug)]
pub struct GradingRow {
    /// Position in the cut. Counted from 1.
    pub position: u32,
    /// What its slate says; may be empty.
    pub slate: String,
    /// The frame from which on the light is given.
    pub from: FrameName,
    /// Running frame of the cut at which it comes. Counted from 0.
    pub running: u32,
    /// The picture of that frame as a JPEG or PNG file.
    pub picture: Option<Vec<u8>>,
    /// Red, green and blue light; none where the shot has no light of its own.
    pub points: Option<[i16; 3]>,
    /// What linear light is multiplied by for them.
    pub slopes: [f64; 3],
    /// Why.
    pub reason: String,
}
