//! What can be wrong with a bag.

use std::fmt;

use crate::BagPath;

/// Something in a bag that is not as it was written.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub enum BagProblem {
    /// A file is not what it was: not one bit may differ.
    Changed {
        /// The file.
        path: BagPath,
        /// `sha256` or `sha512`.
        algorithm: &'static str,
        /// What the manifest says.
        listed: String,
        /// What it is.
        found: String,
    },
    /// A file that is listed is not there.
    Missing {
        /// The file.
        path: BagPath,
        /// Where it can be fetched, when the bag says so.
        fetch: Option<String>,
    },
    /// A file of the payload is in no manifest, or not in all of them.
    NotListed {
        /// The file.
        path: BagPath,
        /// The manifest that does not list it.
        manifest: String,
    },
    /// The payload has another size than the bag says.
    Sum {
        /// What the bag says: bytes and files.
        listed: String,
        /// What was found.
        found: String,
    },
    /// A file cannot be read, or is none: a link, a pipe.
    Unreadable {
        /// The file.
        path: BagPath,
        /// Why.
        why: String,
    },
    /// A manifest of a kind that is not known here; it was not compared.
    NotCompared {
        /// Its name.
        manifest: String,
    },
}

impl BagProblem {
    /// A stable word for programs.
    #[must_use]
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::Changed { .. } => "changed",
            Self::Missing { .. } => "missing",
            Self::NotListed { .. } => "not_listed",
            Self::Sum { .. } => "sum",
            Self::Unreadable { .. } => "unreadable",
            Self::NotCompared { .. } => "not_compared",
        }
    }

    /// The file it is about, if it is about one.
    #[must_use]
    pub const fn path(&self) -> Option<&BagPath> {
        match self {
            Self::Changed { path, .. }
            | Self::Missing { path, .. }
            | Self::NotListed { path, .. }
            | Self::Unreadable { path, .. } => Some(path),
            Self::Sum { .. } | Self::NotCompared { .. } => None,
        }
    }
}

impl fmt::Display for BagProblem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Changed {
                path, algorithm, ..
            } => {
                write!(f, "{path} is not what was put in: its {algorithm} differs")
            }
            Self::Missing { path, fetch: None } => write!(f, "{path} is missing"),
            Self::Missing {
                path,
                fetch: Some(from),
            } => {
                write!(f, "{path} is missing; the box says that it lies at {from}")
            }
            Self::NotListed { path, manifest } => {
                write!(f, "{path} was put in later: {manifest} does not list it")
            }
            Self::Sum { listed, found } => write!(
                f,
                "the payload is {found} (bytes.files), the box says {listed}"
            ),
            Self::Unreadable { path, why } => write!(f, "{path} cannot be read: {why}"),
            Self::NotCompared { manifest } => write!(
                f,
                "{manifest} is of a kind that is not known here, and was not compared"
            ),
        }
    }
}
