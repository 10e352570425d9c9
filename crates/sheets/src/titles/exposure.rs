//! The exposure sheet on paper.

use crate::plan::PlanHead;

/// The exposure sheet of a title to print.
#[derive(Clone, Debug)]
pub struct TitleExposureSheet {
    /// What every sheet has in common; its place is the name of the title.
    pub head: PlanHead,
    /// What the title says, on one line.
    pub words: String,
    /// Frames of one take: the ground alone, the lettering, the ground alone.
    pub parts: [u32; 3],
    /// How often the film runs through for one take.
    pub passes: u32,
    /// The lines.
    pub rows: Vec<TitleExposureRow>,
    /// Takes, spares counted.
    pub takes: u32,
    /// What it needs of the roll, run-up counted. Unit: frames.
    pub of_roll: u32,
    /// Field, lens, distance and stop in a line; may be empty.
    pub set_up: String,
    /// What was taken for granted and what to look out for, a sentence each.
    pub remarks: Vec<String>,
    /// What to look out for, boxed at the head; a sentence each.
    pub warnings: Vec<String>,
}

/// A line of the exposure sheet; words ready for the eye.
#[derive(Clone, Debug)]
pub struct TitleExposureRow {
    /// From 1.
    pub pass: u32,
    /// The first frame, counted from 1.
    pub first: u32,
    /// The last frame.
    pub last: u32,
    /// What lies under the cels.
    pub background: String,
    /// The cel on it; empty for none.
    pub cel_1: String,
    /// The cel on that; empty for none.
    pub cel_2: String,
    /// E–W; empty where it stays in the middle. Unit: millimetres in words.
    pub east_west: String,
    /// N–S; empty where it stays in the middle.
    pub north_south: String,
    /// The field; empty where it is that of the head.
    pub field: String,
    /// Iris or shutter: `full`, `− 1.4 stop`, `shut`.
    pub light: String,
    /// What the hand does.
    pub note: String,
}
