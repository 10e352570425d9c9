//! What can go wrong, and the engine's own words about it.

use std::fmt;

/// Why no PDF was made.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum TypesetError {
    /// The engine refused a template or its data.
    #[error("the form could not be set: {}", list(.remarks))]
    Template {
        /// All it said, at least one remark.
        remarks: Vec<Remark>,
    },
    /// Bytes given as a picture are neither JPEG nor PNG.
    #[error(
        "picture {number} of the form is neither JPEG nor PNG, found {bytes} bytes of something else"
    )]
    NotAPicture {
        /// Its place in the job, from 0.
        number: usize,
        /// How many bytes were given.
        bytes: usize,
    },
    /// More pictures than one job may carry.
    #[error("more than {most} pictures asked for on one form")]
    TooManyPictures {
        /// The limit, [`MOST_PICTURES`](crate::MOST_PICTURES).
        most: usize,
    },
}

impl TypesetError {
    /// The next step, in the user's words.
    pub fn hint(&self) -> &'static str {
        match self {
            Self::Template { .. } => {
                "nothing of yours is at fault and nothing was changed; please report this message \
                 with the sheet you asked for"
            }
            Self::NotAPicture { .. } => {
                "read the roll again to make its small pictures anew, or print without pictures"
            }
            Self::TooManyPictures { .. } => "print the sheet without pictures, or in parts",
        }
    }

    /// A stable name of the error, such as `typeset.template`.
    pub fn code(&self) -> &'static str {
        match self {
            Self::Template { .. } => "typeset.template",
            Self::NotAPicture { .. } => "typeset.not_a_picture",
            Self::TooManyPictures { .. } => "typeset.too_many_pictures",
        }
    }
}

/// One thing the engine said about a template: an error, or a warning beside a
/// finished PDF.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Remark {
    /// Where it is, when the engine could say so.
    pub place: Option<Place>,
    /// What it said, in its own words, hints included.
    pub text: String,
}

impl fmt::Display for Remark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.place {
            Some(place) => write!(f, "{place}: {}", self.text),
            None => f.write_str(&self.text),
        }
    }
}

/// A place in a template.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    /// The template's file name.
    pub file: String,
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}:{}", self.file, self.line, self.column)
    }
}

/// The remarks in one line.
fn list(remarks: &[Remark]) -> String {
    let all: Vec<String> = remarks.iter().map(Remark::to_string).collect();
    all.join("; ")
}
