//! Everything that can go wrong between a file of somebody else's and us.

mod words;

use std::io;
use std::path::PathBuf;

use crate::Version;

/// Why a scan could not be opened or read.
///
/// [`IntakeError::code`] is stable, [`IntakeError::hint`] says the next step.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum IntakeError {
    /// FFmpeg or its companion is not on this machine.
    #[error("the program {program} was not found on this computer")]
    ProgramMissing {
        /// `ffmpeg` or `ffprobe`, or the path asked for.
        program: PathBuf,
    },
    /// The program is there but older than what we rely on.
    #[error("{} is version {found}, and version {needed} or newer is needed", .program.display())]
    ProgramTooOld {
        /// Where it was found.
        program: PathBuf,
        /// What it says of itself.
        found: Version,
        /// The oldest that will do.
        needed: Version,
    },
    /// The program ran but did not say a version that we understand.
    #[error("{} did not say which version it is; it said \"{said}\"", .program.display())]
    ProgramUnknown {
        /// Where it was found.
        program: PathBuf,
        /// Its first line, shortened.
        said: String,
    },
    /// The program could not be started.
    #[error("{} could not be started", .program.display())]
    StartFailed {
        /// Where it was found.
        program: PathBuf,
        /// The system's reason.
        #[source]
        source: io::Error,
    },
    /// Nothing was named to read.
    #[error("no file was named")]
    NothingNamed,
    /// The file is not there.
    #[error("there is no such file or folder: {}", .path.display())]
    NotFound {
        /// As named.
        path: PathBuf,
    },
    /// The file may not be read by this user.
    #[error("reading is not permitted: {}", .path.display())]
    NoPermission {
        /// As named.
        path: PathBuf,
    },
    /// The disk, or the connection to it, failed.
    #[error("the disk failed while {doing}: {}", .path.display())]
    Disk {
        /// What was being done.
        doing: &'static str,
        /// Where.
        path: PathBuf,
        /// The system's reason.
        #[source]
        source: io::Error,
    },
    /// The disk has no room left.
    #[error("no room is left on the disk while {doing}: {}", .path.display())]
    DiskFull {
        /// What was being done.
        doing: &'static str,
        /// Where.
        path: PathBuf,
    },
    /// A device, socket or pipe, not a file.
    #[error("neither a file nor a folder: {}", .path.display())]
    NotAFile {
        /// As named.
        path: PathBuf,
    },
    /// The file has no bytes.
    #[error("the file is empty (0 bytes): {}", .path.display())]
    EmptyFile {
        /// As named.
        path: PathBuf,
    },
    /// The first bytes are of no kind that we read.
    #[error("this is {looks_like}, not a film or picture file that can be read here: {}", .path.display())]
    UnknownKind {
        /// What it seems to be, in words.
        looks_like: &'static str,
        /// As named.
        path: PathBuf,
    },
    /// A list that points at other files; following it could read anything.
    #[error("this is a playlist ({kind}) that points at other files, not a film: {}", .path.display())]
    Playlist {
        /// Which kind of list.
        kind: &'static str,
        /// As named.
        path: PathBuf,
    },
    /// Cineon, which FFmpeg cannot read.
    #[error("Cineon pictures cannot be read here: {}", .path.display())]
    Cineon {
        /// As named.
        path: PathBuf,
    },
    /// A folder without any picture that could be a film frame.
    #[error("no DPX, TIFF, PNG or JPEG pictures among the {seen} entries of the folder {}", .path.display())]
    NoPictures {
        /// How many entries the folder has.
        seen: usize,
        /// As named.
        path: PathBuf,
    },
    /// A folder that holds more than one run of pictures.
    #[error("{} different runs of pictures in one folder ({}): {}", .runs.len(), .runs.join("; "), .path.display())]
    SeveralSequences {
        /// Each run in words, at most eight.
        runs: Vec<String>,
        /// As named.
        path: PathBuf,
    },
    /// Files named together that do not belong to one run.
    #[error("{} does not belong to the same run of numbered pictures as {}", .odd.display(), .first.display())]
    MixedFiles {
        /// The first file named.
        first: PathBuf,
        /// The one that does not fit.
        odd: PathBuf,
    },
    /// Two pictures with one number.
    #[error("two pictures carry the number {number}: {} and {}", .first.display(), .second.display())]
    DoubleNumber {
        /// The number.
        number: u64,
        /// One of them.
        first: PathBuf,
        /// The other.
        second: PathBuf,
    },
    /// A gap in the numbers so wide that it cannot be missing frames.
    #[error("{missing} numbers are missing after number {after}, more than the {limit} that a roll could have lost: {}", .path.display())]
    GapTooWide {
        /// The number before the gap.
        after: u64,
        /// How many numbers are missing.
        missing: u64,
        /// The most that is taken for missing frames.
        limit: u64,
        /// The picture before the gap.
        path: PathBuf,
    },
    /// Pictures of unlike size or kind in one run.
    #[error("picture {} is {found}, while the run began with {expected}", .path.display())]
    UnlikePictures {
        /// Size and kind of the first picture.
        expected: String,
        /// Size and kind of this one.
        found: String,
        /// The one that does not fit.
        path: PathBuf,
    },
    /// The file opened, but holds no moving picture.
    #[error("no picture track among {tracks} tracks: {}", .path.display())]
    NoPictureTrack {
        /// Tracks of any kind in the file.
        tracks: u32,
        /// As named.
        path: PathBuf,
    },
    /// The file holds no sound.
    #[error("no sound in this file: {}", .path.display())]
    NoSoundTrack {
        /// As named.
        path: PathBuf,
    },
    /// The pictures are too small to be film.
    #[error("the pictures are {width}×{height}, smaller than {least}×{least}: {}", .path.display())]
    TooSmall {
        /// Pixels across.
        width: u32,
        /// Pixels down.
        height: u32,
        /// The least of either.
        least: u32,
        /// As named.
        path: PathBuf,
    },
    /// The pictures are larger than what is read in bounded memory.
    #[error("the pictures are {width}×{height}, more than {most} pixels each: {}", .path.display())]
    TooLarge {
        /// Pixels across.
        width: u32,
        /// Pixels down.
        height: u32,
        /// The most pixels in a picture.
        most: u64,
        /// As named.
        path: PathBuf,
    },
    /// A QuickTime or MP4 file whose table of frames was never written.
    #[error("the file breaks off before its table of frames: {}", .path.display())]
    NoFrameTable {
        /// As named.
        path: PathBuf,
    },
    /// FFmpeg could not make out the file.
    #[error("FFmpeg cannot make out this file ({said}): {}", .path.display())]
    NotUnderstood {
        /// FFmpeg's own words, shortened.
        said: String,
        /// As named.
        path: PathBuf,
    },
    /// Not one frame came out.
    #[error("not one frame could be decoded ({said}): {}", .path.display())]
    NoFrames {
        /// FFmpeg's own words, shortened.
        said: String,
        /// As named.
        path: PathBuf,
    },
    /// A child process ended with a failure.
    #[error("{program} stopped with {status} after {frames} frames ({said})")]
    ChildFailed {
        /// Which program.
        program: String,
        /// How it ended.
        status: String,
        /// Frames delivered by then.
        frames: u64,
        /// Its last words.
        said: String,
    },
    /// The child gave nothing for too long.
    #[error("{program} gave nothing for {seconds} seconds, after {frames} frames")]
    Stalled {
        /// Which program.
        program: String,
        /// How long was waited.
        seconds: u64,
        /// Frames delivered by then.
        frames: u64,
    },
    /// A file was written to while it was read.
    #[error("{} changed while it was read", .path.display())]
    Changed {
        /// The file.
        path: PathBuf,
    },
    /// Somebody pulled the lever.
    #[error("stopped on request after {frames} frames")]
    Cancelled {
        /// Frames delivered by then.
        frames: u64,
    },
    /// Pictures, planes and times did not keep step, or were malformed.
    #[error("FFmpeg's output lost step at frame {frame}: {what}")]
    OutOfStep {
        /// The file frame at which it was noticed.
        frame: u64,
        /// What did not fit.
        what: &'static str,
    },
    /// A bound of ours was met.
    #[error("{what} would be {found}, above the limit of {limit}")]
    LimitReached {
        /// What is bounded.
        what: &'static str,
        /// What it would have been.
        found: u64,
        /// The limit.
        limit: u64,
    },
    /// A frame was asked for that the index does not hold.
    #[error("file frame {frame} was asked for, and the index has {frames} frames")]
    NotInIndex {
        /// The file frame asked for.
        frame: u64,
        /// File frames in the index.
        frames: u64,
    },
    /// The frames to fetch must rise.
    #[error("file frame {frame} was asked for out of order")]
    OutOfOrder {
        /// The frame that is not above the one before it.
        frame: u64,
    },
    /// The file gives another picture than at the reading.
    #[error("file frame {frame} is not the picture that was read before: {}", .path.display())]
    NotTheSame {
        /// The file frame.
        frame: u64,
        /// As named.
        path: PathBuf,
    },
}

impl IntakeError {
    /// Turns a failure of the system at `path` into the matching case.
    pub(crate) fn from_io(doing: &'static str, path: PathBuf, source: io::Error) -> Self {
        match source.kind() {
            io::ErrorKind::NotFound => Self::NotFound { path },
            io::ErrorKind::PermissionDenied => Self::NoPermission { path },
            io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => {
                Self::DiskFull { doing, path }
            }
            _ => Self::Disk {
                doing,
                path,
                source,
            },
        }
    }
}
