//! When two takes do not show how they lie to each other.

/// Why the pictures of two takes do not tell which frames are the same moment.
///
/// Not a fault: two marks set by hand tell it all the same.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum CannotTell {
    /// Hardly anything moves in at least one of them.
    #[error("too little movement to tell")]
    TooLittleMovement {
        /// Whether it is so in the take that was asked about.
        here: bool,
        /// Whether it is so in the other.
        there: bool,
    },
    /// Both move, but not alike for long enough.
    #[error("what moves in one is not seen to move in the other")]
    NotAlike,
    /// The movement is the same again and again, or the same backwards.
    #[error("the movement repeats itself, so it could be at several places")]
    ManyPlaces,
}

impl CannotTell {
    /// The next step, in the user's words.
    #[must_use]
    pub fn hint(&self) -> &'static str {
        "set two marks at moments that both takes show"
    }

    /// A stable name for programs that react to this answer.
    #[must_use]
    pub fn code(&self) -> &'static str {
        match self {
            Self::TooLittleMovement { .. } => "twins.too_little_movement",
            Self::NotAlike => "twins.not_alike",
            Self::ManyPlaces => "twins.many_places",
        }
    }
}
