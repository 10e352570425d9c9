//! What can go wrong when frames are inspected.

use crate::plane::{PLANE_BYTES, PLANE_HEIGHT, PLANE_WIDTH};

/// Why a measurement could not be made.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum InspectError {
    /// A measuring plane had the wrong number of bytes.
    #[error(
        "a measuring plane of {PLANE_WIDTH}×{PLANE_HEIGHT} grey pixels was asked for ({PLANE_BYTES} bytes), {found} bytes were found"
    )]
    PlaneSize {
        /// Bytes handed over.
        found: usize,
    },
    /// A row of a list of known changes could not be understood.
    #[error("line {line} of the list of known changes: {problem}")]
    TruthRow {
        /// Line in the list, from 1.
        line: usize,
        /// What is wrong with it.
        problem: &'static str,
    },
}

impl InspectError {
    /// The next step, in the user's words.
    pub fn hint(&self) -> &'static str {
        match self {
            Self::PlaneSize { .. } => {
                "read the scan again: its measuring planes were cut short or made by another version"
            }
            Self::TruthRow { .. } => {
                "write the row as file,type,start,end,scored,group,note with whole frame numbers, end not before start"
            }
        }
    }

    /// A stable name for programs that react to this error.
    pub fn code(&self) -> &'static str {
        match self {
            Self::PlaneSize { .. } => "inspect.plane_size",
            Self::TruthRow { .. } => "inspect.truth_row",
        }
    }
}
