//! What can be wrong with what is handed in.

/// Why something cannot be looked at.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum ProvenanceError {
    /// A picture too small, too large, or with too few or too many bytes.
    #[error("a picture of {width} by {height} pixels with {found} bytes cannot be looked at")]
    PictureSize {
        /// Pixels across.
        width: usize,
        /// Pixels down.
        height: usize,
        /// Bytes that came.
        found: usize,
    },
    /// Pictures of one shot, or of one pair, that are not all of one size.
    #[error("the pictures of a shot are of different sizes")]
    Sizes,
    /// Fewer pictures than something can be seen in.
    #[error("{found} pictures are too few: at least {least} are needed")]
    TooFew {
        /// Pictures that came.
        found: usize,
        /// Pictures needed.
        least: usize,
    },
}

impl ProvenanceError {
    /// A stable word for machines.
    #[must_use]
    pub fn code(&self) -> &'static str {
        match self {
            Self::PictureSize { .. } => "provenance.picture_size",
            Self::Sizes => "provenance.sizes",
            Self::TooFew { .. } => "provenance.too_few",
        }
    }

    /// What to do next.
    #[must_use]
    pub fn hint(&self) -> &'static str {
        match self {
            Self::PictureSize { .. } => "scan with at least 160 by 120 pixels",
            Self::Sizes => "scan the whole roll in one size",
            Self::TooFew { .. } => "take a longer shot",
        }
    }
}
