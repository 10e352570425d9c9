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
    /// A file rate below the film's speed.
    #[error("a file of {file} frames a second cannot hold film of {film}")]
    RateTooLow {
        /// Frames a second of the file.
        file: String,
        /// Frames a second of the film.
        film: String,
    },
    /// A coding that does not lie in the container the name asks for.
    #[error("{coding} does not lie in a file of this name: {}", .path.display())]
    WrongContainer {
        /// The coding.
        coding: &'static str,
        /// The name asked for.
        path: PathBuf,
    },
    /// Pictures may not be changed in a coding that is kept for good.
    #[error("an archive master is never {what}")]
    MasterChanged {
        /// What was asked for.
        what: &'static str,
    },
    /// A drawn title could not be brought over.
    #[error("a title could not be drawn into the finish")]
    NoCard,
    /// The coder made another number of frames than it was fed.
    #[error("the finish has {found} frames, {wanted} were made")]
    FramesLost {
        /// Frames in the file.
        found: u64,
        /// Frames fed.
        wanted: u64,
    },
    /// The finish would have been written over a scan.
    #[error("the finish would replace a scan: {}", .path.display())]
    WouldReplaceScan {
        /// The name asked for.
        path: PathBuf,
    },
    /// The disk is full; what is made stays made.
    #[error("the disk is full: {}{}", .folder.display(), more(*.needed))]
    DiskFull {
        /// The folder of the finish.
        folder: PathBuf,
        /// The room that the rest takes, if anything is made to reckon it by. Unit: bytes.
        needed: Option<u64>,
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

/// The room that is needed, in words.
fn more(needed: Option<u64>) -> String {
    needed.map_or_else(String::new, |bytes| {
        let megabytes = bytes.div_ceil(1_000_000);
        format!("; the rest of this finish needs some {megabytes} MB there")
    })
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
            Self::RateTooLow { .. } => "finish.rate_too_low",
            Self::WrongContainer { .. } => "finish.wrong_container",
            Self::MasterChanged { .. } => "finish.master_changed",
            Self::NoCard => "finish.no_card",
            Self::FramesLost { .. } => "finish.frames_lost",
            Self::DiskFull { .. } => "finish.disk_full",
            Self::File { .. } => "finish.file",
        }
    }

    /// The next step, in the user's words.
    #[must_use]
    pub fn hint(&self) -> String {
        match self {
            Self::Intake(problem) => problem.hint().to_string(),
            Self::Compose(problem) => problem.hint(),
            Self::Cancelled { .. } => {
                "start it again when you like: it goes on behind the last whole part".into()
            }
            Self::RateTooLow { .. } => {
                "give a file rate of the film's speed or more, such as 24, 25 or 30".into()
            }
            Self::WrongContainer { .. } => {
                "end the name in .mkv for FFV1, .mov for ProRes, .mp4 for H.264".into()
            }
            Self::MasterChanged { .. } => {
                "make a finish for showing beside it, in .mov or .mp4".into()
            }
            Self::NoCard => "make the finish with black for cards, or look at the title".into(),
            Self::FramesLost { .. } => "make it again; if it comes again, tell us".into(),
            Self::UnlikeScans { .. } => {
                "have the rolls scanned alike, or finish the parts separately".into()
            }
            Self::WrongPicture { .. } => "read the roll again; its scan may have changed".into(),
            Self::Empty => "lay at least one piece into the cut".into(),
            Self::NoScan => "bring in a scan of at least one roll of this cut".into(),
            Self::WouldReplaceScan { .. } => "give another name for the finish".into(),
            Self::DiskFull { .. } => {
                "make room on that disk and ask for the same finish again: it goes on behind \
                 its last whole part; or give it a place on another disk"
                    .into()
            }
            Self::File { .. } => {
                "check the space left on the disk and the rights on the folder".into()
            }
        }
    }
}
