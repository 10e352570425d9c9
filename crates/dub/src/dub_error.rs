//! What cannot be reckoned.

/// Why something of the sound cannot be reckoned.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum DubError {
    /// Fewer timings than the model has unknowns.
    #[error("{found} timings are too few: {least} are needed")]
    TooFew {
        /// How many there are.
        found: usize,
        /// How many it takes.
        least: usize,
    },
    /// Two timings that cannot both be.
    #[error("timing {nth} is no later than the one before it")]
    WrongOrder {
        /// Which, counted from 1.
        nth: usize,
    },
    /// A figure that cannot be.
    #[error("{what} is {found}, and must be more than 0")]
    NotPositive {
        /// Which figure, with its unit.
        what: &'static str,
        /// What was said.
        found: f64,
    },
    /// The timings fit no machine.
    #[error("the timings fit no machine that runs forward")]
    NoMachine,
}

impl DubError {
    /// What to do.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::TooFew { .. } => "take more timings, far apart",
            Self::WrongOrder { .. } => "write the timings in the order in which they were taken",
            Self::NotPositive { .. } => "write a number above 0",
            Self::NoMachine => "look for a slip in the timings, or time again",
        }
    }
}

/// A figure that must be above 0.
pub(crate) fn positive(what: &'static str, found: f64) -> Result<f64, DubError> {
    if found.is_finite() && found > 0.0 {
        return Ok(found);
    }
    Err(DubError::NotPositive { what, found })
}
