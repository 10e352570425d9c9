//! What can be wrong with a measure.

/// A value that is no measure of film, or lies outside its range.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum UnitError {
    /// The value is a number, but not one this unit can hold.
    #[error("{what} is {found}, outside {min} to {max}")]
    OutOfRange {
        /// The unit, in words.
        what: &'static str,
        /// What was found.
        found: String,
        /// The smallest value allowed.
        min: String,
        /// The largest value allowed.
        max: String,
    },
    /// The text could not be read as this unit.
    #[error("cannot read {found:?} as {what}")]
    Unreadable {
        /// The unit, in words.
        what: &'static str,
        /// The text as given.
        found: String,
        /// A text that would be read.
        example: &'static str,
    },
    /// A range whose end lies before its begin.
    #[error("a span must end after it begins: {begin} to {end}")]
    Reversed {
        /// The first frame asked for.
        begin: u32,
        /// The first frame after it.
        end: u32,
    },
}

impl UnitError {
    /// A stable name for programs.
    #[must_use]
    pub fn code(&self) -> &'static str {
        match self {
            Self::OutOfRange { .. } => "film.out_of_range",
            Self::Unreadable { .. } => "film.unreadable",
            Self::Reversed { .. } => "film.reversed_span",
        }
    }

    /// The next step, in the user's words.
    #[must_use]
    pub fn hint(&self) -> String {
        match self {
            Self::OutOfRange { min, max, .. } => format!("give a value from {min} to {max}"),
            Self::Unreadable { example, .. } => format!("write it like {example}"),
            Self::Reversed { .. } => {
                "give the first frame kept, then the first frame thrown away".to_owned()
            }
        }
    }

    pub(crate) fn out_of_range(
        what: &'static str,
        found: impl ToString,
        min: impl ToString,
        max: impl ToString,
    ) -> Self {
        Self::OutOfRange {
            what,
            found: found.to_string(),
            min: min.to_string(),
            max: max.to_string(),
        }
    }

    pub(crate) fn unreadable(what: &'static str, found: &str, example: &'static str) -> Self {
        Self::Unreadable {
            what,
            found: found.to_owned(),
            example,
        }
    }
}
