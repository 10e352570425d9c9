//! What can go wrong when takes are laid beside each other.

/// Why a question about two takes could not be answered.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum TwinsError {
    /// A picture was too small, or its bytes do not make up its size.
    #[error(
        "a grey picture of {width}×{height} was asked for, of at least 48×36; {found} bytes were found"
    )]
    PictureSize {
        /// Pixels across, as given.
        width: usize,
        /// Pixels down, as given.
        height: usize,
        /// Bytes handed over.
        found: usize,
    },
    /// A picture of a take has not the size of those before it.
    #[error("frame {frame} is a picture of {}×{}, the frames before it are of {}×{}", found.0, found.1, before.0, before.1)]
    SizeChanged {
        /// The frame of the roll.
        frame: u32,
        /// Its size. Unit: pixels.
        found: (usize, usize),
        /// The size of those before. Unit: pixels.
        before: (usize, usize),
    },
    /// A take without a frame, or with none that was seen.
    #[error("no frame of the take was seen")]
    NoFrames,
    /// Two marks that do not give a straight line.
    #[error("marks at {} ↔ {} and {} ↔ {} give no line that runs forward in both takes", first.0, first.1, second.0, second.1)]
    Marks {
        /// The first mark: frame of one take, frame of the other.
        first: (u32, u32),
        /// The second mark.
        second: (u32, u32),
    },
    /// Numbers that were kept of a found map and are none.
    #[error("what was kept of two takes laid beside each other is no map")]
    KeptMap,
}

impl TwinsError {
    /// The next step, in the user's words.
    #[must_use]
    pub fn hint(&self) -> &'static str {
        match self {
            Self::PictureSize { .. } | Self::SizeChanged { .. } => {
                "read the roll again: its small pictures were cut short or made by another version"
            }
            Self::NoFrames => "choose a take that the scan shows",
            Self::KeptMap => "look for the same action once more",
            Self::Marks { .. } => {
                "set the two marks at two different moments, the later one later in both takes"
            }
        }
    }

    /// A stable name for programs that react to this error.
    #[must_use]
    pub fn code(&self) -> &'static str {
        match self {
            Self::PictureSize { .. } => "twins.picture_size",
            Self::SizeChanged { .. } => "twins.size_changed",
            Self::NoFrames => "twins.no_frames",
            Self::Marks { .. } => "twins.marks",
            Self::KeptMap => "twins.kept_map",
        }
    }
}
