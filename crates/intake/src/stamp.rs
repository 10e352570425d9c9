//! Whether a file is still what it was a moment ago.

use std::path::Path;
use std::time::SystemTime;

use crate::{IntakeError, Source};

/// Size and time of the last change of a file, where the file system tells it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Stamp {
    bytes: u64,
    changed: Option<SystemTime>,
}

impl Stamp {
    pub(crate) fn of(path: &Path) -> Result<Self, IntakeError> {
        let failed = |e| IntakeError::from_io("measuring the file", path.to_owned(), e);
        let meta = std::fs::metadata(path).map_err(failed)?;
        Ok(Self {
            bytes: meta.len(),
            changed: meta.modified().ok(),
        })
    }
}

impl Source {
    /// Sees that no file of the source has changed since it was opened: one that is
    /// still being copied would be read in part and taken for the whole.
    ///
    /// # Errors
    /// [`IntakeError::Changed`], and those of looking at a file.
    pub fn see_unchanged(&self) -> Result<(), IntakeError> {
        for (path, before) in self.files().zip(self.stamps()) {
            if Stamp::of(path)? != *before {
                return Err(IntakeError::Changed {
                    path: path.to_owned(),
                });
            }
        }
        Ok(())
    }
}
