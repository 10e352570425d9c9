//! Why a finish could not be made.

use std::path::PathBuf;

use onestrand_compose::ComposeError;
use onestrand_intake::IntakeError;

/// Why a finish could not be made. Nothing half-made is left.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum FinishError {
    /// A scan could not be read, or FFmpeg failed.
    #[error(transparent)]
    Intake(#[from] IntakeError),
    /// A film frame could not be put together out of its file frames.
    #[error(transparent)]
    Compose(ComposeError),
    /// The user stopped it.
    #[error("stopped after {frames} frames")]
    Cancelled {
        /// Frames made by then.
        frames: u64,
    },
    /// Scans of different size or pixel layout in one finish.
    #[error("the scans are unlike: {first} and {second}")]
    UnlikeScans {
        /// The first scan's form.
        first: String,
        /// The form that differs.
        second: String,
    },
    /// A picture of another size than the film's.
    #[error("a picture has {found} bytes, the film's pictures have {wanted}")]
    WrongPicture {
        /// Bytes of the picture.
        found: usize,
        /// Bytes a picture must have.
        wanted: u64,
    },
    /// Nothing to finish.
    #[error("the cut has no frames")]
    Empty,
    /// The cut shows no scanned frame, so there is no picture size to take.
    #[error("no frame of the cut has a scan")]
    NoScan,
    /// The finish would have been written over a scan.
    #[error("the finish would replace a scan: {}", .path.display())]
    WouldReplaceScan {
        /// The name asked for.
        path: PathBuf,
    },
    /// The file could not be put in its place.
    #[error("cannot write the finish: {source}: {}", .path.display())]
    File {
        /// The system's reason.
        #[source]
        source: std::io::Error,
        /// The file.
        path: PathBuf,
    },
}

/// What a scan refuses stays what it is, whoever asked for the frame.
impl From<ComposeError> for FinishError {
    fn from(problem: ComposeError) -> Self {
        match problem {
            ComposeError::Intake(problem) => Self::Intake(problem),
            other => Self::Compose(other),
        }
    }
}

impl FinishError {
    /// A stable name for programs.
    #[must_use]
    pub fn code(&self) -> &'static str {
        match self {
            Self::Intake(problem) => problem.code(),
            Self::Compose(problem) => problem.code(),
            Self::Cancelled { .. } => "finish.cancelled",
            Self::UnlikeScans { .. } => "finish.unlike_scans",
            Self::WrongPicture { .. } => "finish.wrong_picture",
            Self::Empty => "finish.empty",
            Self::NoScan => "finish.no_scan",
            Self::WouldReplaceScan { .. } => "finish.would_replace_scan",
            Self::File { .. } => "finish.file",
        }
    }

    /// The next step, in the user's words.
    #[must_use]
    pub fn hint(&self) -> String {
        match self {
            Self::Intake(problem) => problem.hint().to_string(),
            Self::Compose(problem) => problem.hint(),
            Self::Cancelled { .. } => "start it again when you like; nothing is left over".into(),
            Self::UnlikeScans { .. } => {
                "have the rolls scanned alike, or finish the parts separately".into()
            }
            Self::WrongPicture { .. } => "read the roll again; its scan may have changed".into(),
            Self::Empty => "lay at least one piece into the cut".into(),
            Self::NoScan => "bring in a scan of at least one roll of this cut".into(),
            Self::WouldReplaceScan { .. } => "give another name for the finish".into(),
            Self::File { .. } => {
                "check the space left on the disk and the rights on the folder".into()
            }
        }
    }
}
