//! The lined cutting sheet: the cut row by row, with room to write at a screening.

use onestrand_film::{FrameName, Frames};

use crate::cutting::Standing;
use crate::head::Head;

/// A lined cutting sheet to print.
#[derive(Clone, Debug)]
pub struct LinedSheet {
    /// What every sheet has in common.
    pub head: Head,
    /// Why the strand check refuses the version, a line a place; empty where it
    /// lets it pass. Anything else prints NOT CUTTABLE across the head of every
    /// page.
    pub not_cuttable: Vec<String>,
    /// The rows in the order of the cut. The row's place, from 1, is its
    /// position.
    pub rows: Vec<LinedRow>,
}

/// One row of the cut, with what was noted on its frames before.
#[derive(Clone, Debug)]
pub struct LinedRow {
    /// What stands there.
    pub what: Standing,
    /// A note on the piece in the maker's words, may be empty.
    pub note: String,
    /// Notes on its frames, in the order of the frames.
    pub notes: Vec<ScreeningNote>,
}

/// A note that fell on a frame.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ScreeningNote {
    /// Who wrote it, may be empty.
    pub writer: String,
    /// The frame.
    pub frame: FrameName,
    /// Where that frame stands in the running cut.
    pub at: Frames,
    /// What was noted.
    pub words: String,
}
