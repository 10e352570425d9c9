//! What is wrong with a file, each thing with its place.

use std::fmt;

/// One thing found in a file, with the place where it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Found {
    /// Line of the file, from 1.
    pub line: u64,
    /// Where in the cut of that file: `no. 3 “3A-T2”, source_range`.
    pub place: String,
    /// What was found, and what to do about it.
    pub message: String,
}

impl fmt::Display for Found {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "line {}", self.line)?;
        if !self.place.is_empty() {
            write!(f, ", {}", self.place)?;
        }
        write!(f, ": {}", self.message)
    }
}

/// Why no version could be read out of a file.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum ExchangeError {
    /// Something has to be put right first.
    #[error("{} in the file cannot be read as a cut of this film", things(.problems.len()))]
    Problems {
        /// Everything that is wrong, in the order of the file.
        problems: Vec<Found>,
    },
}

fn things(count: usize) -> String {
    match count {
        1 => "1 thing".to_owned(),
        n => format!("{n} things"),
    }
}

impl ExchangeError {
    /// The next step, in the user's words.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::Problems { .. } => {
                "put these right in the program that wrote the file, and bring it in again"
            }
        }
    }

    /// A stable name for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Problems { .. } => "exchange.problems",
        }
    }
}
