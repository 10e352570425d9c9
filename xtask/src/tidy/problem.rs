//! What a rule says when it is broken.

use std::fmt;

/// One broken rule at one place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Problem {
    /// The rule's name, as the README of this crate lists it.
    rule: &'static str,
    /// The file, from the root of the repository.
    path: String,
    /// The line in it, counted from 1; 0 where the whole file is meant.
    line: usize,
    /// What was found and what to do.
    text: String,
}

impl Problem {
    /// A problem on one line, counted from 1.
    pub(crate) fn at_line(
        rule: &'static str,
        path: &str,
        line: usize,
        text: impl Into<String>,
    ) -> Self {
        let (path, text) = (path.to_owned(), text.into());
        Self {
            rule,
            path,
            line,
            text,
        }
    }

    /// A problem of a whole file or folder.
    pub(crate) fn of_file(rule: &'static str, path: &str, text: impl Into<String>) -> Self {
        Self::at_line(rule, path, 0, text)
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            rule,
            path,
            line,
            text,
        } = self;
        if *line == 0 {
            write!(f, "{path}: {text} ({rule})")
        } else {
            write!(f, "{path}:{line}: {text} ({rule})")
        }
    }
}
