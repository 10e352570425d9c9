//! What can go wrong when a picture is asked for.

/// A picture of the example film, or a test picture, that cannot be drawn.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum ExampleError {
    /// The example film has rolls 1 to 3 only.
    #[error("the example film has rolls R1 to R3; roll R{asked} was asked for")]
    NoSuchRoll {
        /// The roll that was asked for.
        asked: u8,
    },
    /// The frame lies beyond the end of the roll.
    #[error("roll R{roll} has frames 0 to {last}; frame {asked} was asked for")]
    NoSuchFrame {
        /// The roll.
        roll: u8,
        /// The frame that was asked for.
        asked: u32,
        /// The last frame there is.
        last: u32,
    },
    /// The room given for the picture has the wrong size.
    #[error("a picture of {width}×{height} needs {needed} bytes; {given} were given")]
    WrongRoom {
        /// Width of the picture, pixels.
        width: u32,
        /// Height of the picture, pixels.
        height: u32,
        /// Bytes the picture needs.
        needed: usize,
        /// Bytes given.
        given: usize,
    },
    /// A test picture too small to carry its number, or of odd size.
    #[error("a test picture must be even and at least 320×240; {width}×{height} was asked for")]
    WrongSize {
        /// Width asked for, pixels.
        width: u32,
        /// Height asked for, pixels.
        height: u32,
    },
}

impl ExampleError {
    /// The next step, in plain words.
    #[must_use]
    pub fn hint(&self) -> &'static str {
        match self {
            Self::NoSuchRoll { .. } => "ask for roll 1, 2 or 3",
            Self::NoSuchFrame { .. } => "count from 0; each roll has 3,600 frames",
            Self::WrongRoom { .. } => "give width × height × 3 bytes, red green blue",
            Self::WrongSize { .. } => "choose an even width and height, 320×240 or larger",
        }
    }

    /// A stable name for the error, for other programs.
    #[must_use]
    pub fn code(&self) -> &'static str {
        match self {
            Self::NoSuchRoll { .. } => "example.no_such_roll",
            Self::NoSuchFrame { .. } => "example.no_such_frame",
            Self::WrongRoom { .. } => "example.wrong_room",
            Self::WrongSize { .. } => "example.wrong_size",
        }
    }
}
