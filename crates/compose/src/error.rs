//! What can go wrong.

use onestrand_cadence::CadenceError;
use onestrand_intake::IntakeError;
use thiserror::Error;

/// Why a picture could not be put together.
#[derive(Debug, Error)]
pub enum ComposeError {
    /// A browsing picture that cannot be read or written.
    #[error("a browsing picture cannot be put together: {what}")]
    Picture {
        /// The complaint of the library.
        what: String,
    },
    /// Pictures that do not fit each other.
    #[error(transparent)]
    Cadence(#[from] CadenceError),
    /// The scan does not give its frames.
    #[error(transparent)]
    Intake(#[from] IntakeError),
}

impl ComposeError {
    /// A stable name of the kind of error.
    #[must_use]
    pub fn code(&self) -> &'static str {
        match self {
            Self::Picture { .. } => "compose.picture",
            Self::Cadence(problem) => problem.code(),
            Self::Intake(problem) => problem.code(),
        }
    }

    /// What the user can do.
    #[must_use]
    pub fn hint(&self) -> String {
        match self {
            Self::Picture { .. } => "read the roll again; if it comes back, tell its makers".into(),
            Self::Cadence(problem) => problem.hint().into(),
            Self::Intake(problem) => problem.hint().into(),
        }
    }

    pub(crate) fn picture(problem: impl std::fmt::Display) -> Self {
        Self::Picture {
            what: problem.to_string(),
        }
    }
}
