//! What cannot be taken.

/// Why an event is not taken. Nothing was changed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FollowError {
    /// A tap at a cut that lies before the one tapped last.
    #[error("the cut at {frame} comes before the cut at {before}, which was tapped already")]
    WrongOrder {
        /// The running frame of this tap.
        frame: u32,
        /// The running frame of the tap before.
        before: u32,
    },
    /// A tap with a time before the one tapped last.
    #[error("this tap is {seconds:.2} s earlier than the one before it")]
    Earlier {
        /// How much. Unit: seconds.
        seconds: f64,
    },
    /// Two taps at once.
    #[error("two taps within {seconds:.2} s: the first is kept")]
    TappedTwice {
        /// Between them. Unit: seconds.
        seconds: f64,
    },
    /// A tap at a frame that is no cut of this version.
    #[error("no cut stands at {frame}")]
    NoSuchCut {
        /// The running frame.
        frame: u32,
    },
    /// A number that cannot be.
    #[error("{what} cannot be {found}")]
    CannotBe {
        /// Which number, with its unit.
        what: &'static str,
        /// What was said.
        found: f64,
    },
}

impl FollowError {
    /// What to do.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::WrongOrder { .. } => {
                "choose the cut that comes next; if the film was wound back, begin a new pass"
            }
            Self::Earlier { .. } => "tap in the order in which the cuts come",
            Self::TappedTwice { .. } => "nothing need be done: tap once at the next cut",
            Self::NoSuchCut { .. } => "choose a cut of the version that runs",
            Self::CannotBe { .. } => "write a number that can be",
        }
    }

    /// A steady name for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::WrongOrder { .. } => "follow.wrong_order",
            Self::Earlier { .. } => "follow.earlier",
            Self::TappedTwice { .. } => "follow.tapped_twice",
            Self::NoSuchCut { .. } => "follow.no_such_cut",
            Self::CannotBe { .. } => "follow.cannot_be",
        }
    }
}

/// A number that must be finite and above 0.
pub(crate) fn positive(what: &'static str, found: f64) -> Result<f64, FollowError> {
    if found.is_finite() && found > 0.0 {
        return Ok(found);
    }
    Err(FollowError::CannotBe { what, found })
}
