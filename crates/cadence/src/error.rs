//! What can go wrong when a cadence is looked for.

use crate::steps::{PLANE_BYTES, PLANE_HEIGHT, PLANE_WIDTH};

/// Why a file frame could not be taken.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum CadenceError {
    /// A measuring plane had the wrong number of bytes.
    #[error(
        "a measuring plane of {PLANE_WIDTH}×{PLANE_HEIGHT} grey pixels was asked for ({PLANE_BYTES} bytes), {found} bytes were found"
    )]
    PlaneSize {
        /// Bytes handed over.
        found: usize,
    },
    /// Pictures that were to be unmixed are not of one size.
    #[error("pictures of one size were asked for, {first} and {other} samples were found")]
    PictureSize {
        /// Samples of the first picture.
        first: usize,
        /// Samples of one that differs.
        other: usize,
    },
    /// There are not as many pictures as a film frame is put together of.
    #[error("{wanted} pictures were asked for, {found} were found")]
    PictureCount {
        /// Pictures that are needed.
        wanted: usize,
        /// Pictures handed over.
        found: usize,
    },
}

impl CadenceError {
    /// The next step, in the user's words.
    #[must_use]
    pub fn hint(&self) -> &'static str {
        match self {
            Self::PlaneSize { .. } => {
                "read the scan again: its measuring planes were cut short or made by another version"
            }
            Self::PictureSize { .. } => {
                "read the scan again: its pictures change size from frame to frame"
            }
            Self::PictureCount { .. } => "read the scan again: some of its pictures are missing",
        }
    }

    /// A stable name for programs that react to this error.
    #[must_use]
    pub fn code(&self) -> &'static str {
        match self {
            Self::PlaneSize { .. } => "cadence.plane_size",
            Self::PictureSize { .. } => "cadence.picture_size",
            Self::PictureCount { .. } => "cadence.picture_count",
        }
    }
}
