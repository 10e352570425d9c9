//! What is wrong with a plan, each thing with its place, all at once.

use std::fmt;

/// One thing found in a script, a camera report or a stock plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Found {
    /// Line of the text it came from, from 1; none where nothing was read.
    pub line: Option<u64>,
    /// Which block, setup or take: `setup 2A`. Empty where the line says all.
    pub place: String,
    /// What was found, and what to do about it.
    pub message: String,
}

impl Found {
    pub(crate) fn new(
        line: Option<u64>,
        place: impl Into<String>,
        message: impl Into<String>,
    ) -> Self {
        Self {
            line,
            place: place.into(),
            message: message.into(),
        }
    }
}

impl fmt::Display for Found {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let line = self.line.map(|line| format!("line {line}"));
        let place = (!self.place.is_empty()).then(|| self.place.clone());
        let at: Vec<String> = line.into_iter().chain(place).collect();
        if !at.is_empty() {
            write!(f, "{}: ", at.join(", "))?;
        }
        f.write_str(&self.message)
    }
}

/// Why a plan could not be made.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum PlanError {
    /// Something has to be put right first.
    #[error("{} to put right first", things(.problems.len()))]
    Problems {
        /// Everything that is wrong, in the order of the text.
        problems: Vec<Found>,
    },
}

fn things(count: usize) -> String {
    match count {
        1 => "there is 1 thing".to_owned(),
        n => format!("there are {n} things"),
    }
}

impl PlanError {
    /// Everything that is wrong.
    #[must_use]
    pub fn problems(&self) -> &[Found] {
        match self {
            Self::Problems { problems } => problems,
        }
    }

    /// The next step, in the user's words.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::Problems { .. } => "put these right, and bring it in again; nothing was changed",
        }
    }

    /// A stable name for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Problems { .. } => "plan.problems",
        }
    }
}

/// The value, or everything that is wrong with it.
pub(crate) fn unless<T>(mut problems: Vec<Found>, value: T) -> Result<T, PlanError> {
    if problems.is_empty() {
        return Ok(value);
    }
    // By line; what has none keeps its order behind.
    problems.sort_by_key(|found| found.line.unwrap_or(u64::MAX));
    Err(PlanError::Problems { problems })
}
