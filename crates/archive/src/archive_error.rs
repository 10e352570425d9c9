//! What can go wrong with a box.

use std::io;
use std::path::{Path, PathBuf};

/// Why a box could not be written or read.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ArchiveError {
    /// Something stands under the name of the box already.
    #[error("something stands under that name already: {}", .path.display())]
    Taken {
        /// The name.
        path: PathBuf,
    },
    /// A folder of the name of a half box, that is none of ours or is being filled now.
    #[error("{why}: {}", .path.display())]
    HalfTaken {
        /// What it is.
        why: &'static str,
        /// The folder.
        path: PathBuf,
    },
    /// Not a bag at all.
    #[error("this is no archive box: {why}: {}", .path.display())]
    NoBag {
        /// What is missing or strange.
        why: String,
        /// The folder.
        path: PathBuf,
    },
    /// A path that leads out of a box, or that no box can hold.
    #[error("{path:?} is no path in a box: {why}")]
    Path {
        /// The path.
        path: String,
        /// Why not.
        why: &'static str,
    },
    /// The same path was to be written twice.
    #[error("{path} lies in the box already")]
    Twice {
        /// The path.
        path: String,
    },
    /// There is not room enough.
    #[error("the disk is too small for the box by {} ({needed} bytes are still to be written, {free} are free): {}", in_gigabytes(.needed.saturating_sub(*.free)), .path.display())]
    NoRoom {
        /// Still to be written. Unit: bytes.
        needed: u64,
        /// Free on the disk. Unit: bytes.
        free: u64,
        /// Where.
        path: PathBuf,
    },
    /// The disk refuses.
    #[error("cannot {what}: {source}: {}", .path.display())]
    File {
        /// What was tried.
        what: &'static str,
        /// The system's reason.
        #[source]
        source: io::Error,
        /// Where.
        path: PathBuf,
    },
    /// What was just written reads back as something else.
    #[error("the box was written and does not read back as it was written: {first}")]
    NotAsWritten {
        /// The first thing that differs, in words.
        first: String,
    },
    /// It was stopped.
    #[error("stopped; nothing half-made is left")]
    Stopped,
}

/// Bytes in words that a person can hold against the label of a disk.
fn in_gigabytes(bytes: u64) -> String {
    let tenths = |unit: u64| bytes.div_ceil(unit / 10);
    let words = |tenths: u64, name: &str| format!("{}.{} {name}", tenths / 10, tenths % 10);
    match bytes {
        0..1_000_000 => words(tenths(1_000), "kB"),
        1_000_000..1_000_000_000 => words(tenths(1_000_000), "MB"),
        _ => words(tenths(1_000_000_000), "GB"),
    }
}

impl ArchiveError {
    /// A stable name for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Taken { .. } => "archive.taken",
            Self::HalfTaken { .. } => "archive.half_taken",
            Self::NoBag { .. } => "archive.no_bag",
            Self::Path { .. } => "archive.path",
            Self::Twice { .. } => "archive.twice",
            Self::NoRoom { .. } => "archive.no_room",
            Self::File { .. } => "archive.file",
            Self::NotAsWritten { .. } => "archive.not_as_written",
            Self::Stopped => "archive.stopped",
        }
    }

    /// The next step.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::Taken { .. } => "give the box another name; a box is never written over",
            Self::HalfTaken { .. } => {
                "wait for the other, or take that folder away yourself, and begin again"
            }
            Self::NoBag { .. } => {
                "name the folder that holds bagit.txt; a packed box is unpacked first"
            }
            Self::Path { .. } | Self::Twice { .. } => "give the file another name",
            Self::NoRoom { .. } => {
                "choose a larger disk, make room, or leave the scans out: their fixity and place stand in the box"
            }
            Self::File { .. } => "check the name, the rights and the disk",
            Self::NotAsWritten { .. } => {
                "the disk or its cable may be failing: try another, and check the boxes that are on it"
            }
            Self::Stopped => "begin again when you like; nothing is left of it",
        }
    }

    /// The system's refusal with what was tried; a full disk is an error of its own,
    /// which the writer fills with what was still to be written.
    pub(crate) fn file<'a>(
        what: &'static str,
        path: &'a Path,
    ) -> impl FnOnce(io::Error) -> Self + 'a {
        move |source| Self::File {
            what,
            source,
            path: path.to_owned(),
        }
    }

    /// Whether the system said that the disk is full.
    pub(crate) fn is_full(&self) -> bool {
        match self {
            Self::File { source, .. } => matches!(
                source.kind(),
                io::ErrorKind::StorageFull
                    | io::ErrorKind::QuotaExceeded
                    | io::ErrorKind::FileTooLarge
            ),
            _ => false,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::in_gigabytes;

    #[test]
    fn what_is_missing_is_never_told_too_small() {
        assert_eq!(in_gigabytes(1), "0.1 kB");
        assert_eq!(in_gigabytes(100_001), "100.1 kB");
        assert_eq!(in_gigabytes(203_843_174_400), "203.9 GB");
    }
}
