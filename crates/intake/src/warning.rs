//! Trouble that does not stop the work.

use std::fmt;
use std::path::PathBuf;

/// Something the user should know although the work went on.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub enum Warning {
    /// One picture was named, and the whole run it belongs to was taken.
    WholeRunTaken {
        /// First number of the run.
        first: u64,
        /// Last number of the run.
        last: u64,
        /// Pictures present.
        pictures: u64,
    },
    /// Numbers are missing between two pictures of a run.
    Gap {
        /// The number of the picture before the gap.
        after: u64,
        /// How many numbers are missing.
        missing: u64,
    },
    /// A picture of a run could not be decoded; its place stays empty.
    Undecodable {
        /// Its number.
        number: u64,
        /// Its file.
        path: PathBuf,
    },
    /// The file breaks off.
    Truncated {
        /// File frames read, all those up to the damage.
        frames_read: u64,
        /// File frames that the file promised, where it says so.
        frames_promised: Option<u64>,
    },
    /// FFmpeg found damage on the way; the frames near it may look wrong.
    Damage {
        /// How many complaints.
        complaints: u64,
        /// How many frames had been reported when it first complained.
        first_near: u64,
        /// The first of them in FFmpeg's words, shortened.
        said: String,
    },
    /// The size of the pictures changes within a video file.
    SizeChanged {
        /// The first file frame of another size.
        at: u64,
        /// The size until then.
        from: (u32, u32),
        /// The size from there on.
        to: (u32, u32),
    },
    /// The file holds several picture tracks; the largest was taken.
    SeveralPictureTracks {
        /// How many there are.
        tracks: u32,
        /// The one taken, as FFmpeg numbers it.
        taken: u32,
    },
}

impl Warning {
    /// A stable name of the case, for programs.
    #[must_use]
    pub fn code(&self) -> &'static str {
        match self {
            Self::WholeRunTaken { .. } => "intake.whole_run_taken",
            Self::Gap { .. } => "intake.gap",
            Self::Undecodable { .. } => "intake.undecodable",
            Self::Truncated { .. } => "intake.truncated",
            Self::Damage { .. } => "intake.damage",
            Self::SizeChanged { .. } => "intake.size_changed",
            Self::SeveralPictureTracks { .. } => "intake.several_picture_tracks",
        }
    }

    /// The next step, in the user's words.
    #[must_use]
    pub fn hint(&self) -> &'static str {
        match self {
            Self::WholeRunTaken { .. } => {
                "to read one picture alone, put it into a folder of its own"
            }
            Self::Gap { .. } => {
                "look for the missing pictures where the scan came from; until then these frames stay blank and keep their numbers"
            }
            Self::Undecodable { .. } => {
                "copy this picture again from where it came from; until then the frame stays blank and keeps its number"
            }
            Self::Truncated { .. } => {
                "copy the file again from where it came from; what was read up to the damage can be used"
            }
            Self::Damage { .. } => {
                "look at the frames near there; copy the file again if they are wrong"
            }
            Self::SizeChanged { .. } => {
                "check that the file is one scan; its parts can be read as files of their own"
            }
            Self::SeveralPictureTracks { .. } => "check that the frames are those you expect",
        }
    }
}

impl fmt::Display for Warning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::WholeRunTaken {
                first,
                last,
                pictures,
            } => {
                write!(
                    f,
                    "one picture was named; the whole run was taken, numbers {first} to {last}, {pictures} pictures"
                )
            }
            Self::Gap { after, missing } => {
                write!(f, "{missing} numbers are missing after picture {after}")
            }
            Self::Undecodable { number, path } => {
                write!(f, "picture {number} cannot be decoded: {}", path.display())
            }
            Self::Truncated {
                frames_read,
                frames_promised: Some(promised),
            } => {
                write!(
                    f,
                    "the file breaks off after {frames_read} of {promised} promised frames"
                )
            }
            Self::Truncated {
                frames_read,
                frames_promised: None,
            } => {
                write!(f, "the file breaks off after {frames_read} frames")
            }
            Self::Damage {
                complaints,
                first_near,
                said,
            } => {
                write!(
                    f,
                    "{complaints} complaints of damage, the first near frame {first_near} ({said})"
                )
            }
            Self::SizeChanged { at, from, to } => {
                write!(
                    f,
                    "from frame {at} the pictures are {}×{} instead of {}×{}",
                    to.0, to.1, from.0, from.1
                )
            }
            Self::SeveralPictureTracks { tracks, taken } => {
                write!(
                    f,
                    "{tracks} picture tracks; track {taken}, the largest, was taken"
                )
            }
        }
    }
}
