//! Everything that can go wrong between a file of somebody else's and us.

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

    /// A stable name of the case, for programs.
    #[must_use]
    pub fn code(&self) -> &'static str {
        match self {
            Self::ProgramMissing { .. } => "intake.program_missing",
            Self::ProgramTooOld { .. } => "intake.program_too_old",
            Self::ProgramUnknown { .. } => "intake.program_unknown",
            Self::StartFailed { .. } => "intake.start_failed",
            Self::NothingNamed => "intake.nothing_named",
            Self::NotFound { .. } => "intake.not_found",
            Self::NoPermission { .. } => "intake.no_permission",
            Self::Disk { .. } => "intake.disk",
            Self::DiskFull { .. } => "intake.disk_full",
            Self::NotAFile { .. } => "intake.not_a_file",
            Self::EmptyFile { .. } => "intake.empty_file",
            Self::UnknownKind { .. } => "intake.unknown_kind",
            Self::Playlist { .. } => "intake.playlist",
            Self::Cineon { .. } => "intake.cineon",
            Self::NoPictures { .. } => "intake.no_pictures",
            Self::SeveralSequences { .. } => "intake.several_sequences",
            Self::MixedFiles { .. } => "intake.mixed_files",
            Self::DoubleNumber { .. } => "intake.double_number",
            Self::GapTooWide { .. } => "intake.gap_too_wide",
            Self::UnlikePictures { .. } => "intake.unlike_pictures",
            Self::NoPictureTrack { .. } => "intake.no_picture_track",
            Self::TooSmall { .. } => "intake.too_small",
            Self::TooLarge { .. } => "intake.too_large",
            Self::NoFrameTable { .. } => "intake.no_frame_table",
            Self::NotUnderstood { .. } => "intake.not_understood",
            Self::NoFrames { .. } => "intake.no_frames",
            Self::ChildFailed { .. } => "intake.child_failed",
            Self::Stalled { .. } => "intake.stalled",
            Self::Cancelled { .. } => "intake.cancelled",
            Self::OutOfStep { .. } => "intake.out_of_step",
            Self::LimitReached { .. } => "intake.limit_reached",
            Self::NotInIndex { .. } => "intake.not_in_index",
            Self::OutOfOrder { .. } => "intake.out_of_order",
            Self::NotTheSame { .. } => "intake.not_the_same",
        }
    }

    /// The next step, in the user's words.
    #[must_use]
    pub fn hint(&self) -> &'static str {
        match self {
            Self::ProgramMissing { .. } => {
                "install it with `sudo apt install ffmpeg` (it brings ffmpeg and ffprobe), then try again"
            }
            Self::ProgramTooOld { .. } => {
                "the older one may drop or double frames unasked; install FFmpeg 5.1 or newer, or name another with ONESTRAND_FFMPEG and ONESTRAND_FFPROBE"
            }
            Self::ProgramUnknown { .. } => {
                "check that ONESTRAND_FFMPEG and ONESTRAND_FFPROBE name FFmpeg's own programs, or unset them"
            }
            Self::StartFailed { .. } => {
                "check that the program may be run and that memory is left, then try again"
            }
            Self::NothingNamed => {
                "name one film file, one folder of numbered pictures, or the pictures themselves"
            }
            Self::NotFound { .. } => {
                "check the spelling, and that the disk with your scans is connected"
            }
            Self::NoPermission { .. } => {
                "give yourself the right to read it (for example `chmod u+r FILE`), or copy it to your own folder"
            }
            Self::Disk { .. } => {
                "check the disk and its cable, then try again; nothing was changed"
            }
            Self::DiskFull { .. } => {
                "make room on the disk, then try again; nothing half-made is kept"
            }
            Self::NotAFile { .. } => {
                "name the scan itself: a film file, or a folder of numbered pictures"
            }
            Self::EmptyFile { .. } => {
                "copy the scan again from where it came from; the copy you have holds nothing"
            }
            Self::UnknownKind { .. } => {
                "name a film file (MOV, MP4, MKV, AVI, MXF, MPEG, DV, OGV, WMV) or DPX, TIFF, PNG or JPEG pictures"
            }
            Self::Playlist { .. } => {
                "name the film file that the list points at; lists are never followed"
            }
            Self::Cineon { .. } => {
                "have the pictures saved as DPX or 16-bit TIFF, which hold the same densities"
            }
            Self::NoPictures { .. } => "name the folder in which the pictures themselves lie",
            Self::SeveralSequences { .. } => {
                "name one picture of the run you mean instead of the folder, or put each run into a folder of its own"
            }
            Self::MixedFiles { .. } => {
                "name the pictures of one run only; read each film file or run by itself"
            }
            Self::DoubleNumber { .. } => "move one of the two out of the folder",
            Self::GapTooWide { .. } => {
                "read the parts before and after the gap as two scans, in two folders"
            }
            Self::UnlikePictures { .. } => {
                "put the pictures that do not belong to this roll into another folder"
            }
            Self::NoPictureTrack { .. } => {
                "this is a sound file or holds no picture; name the film file that goes with it"
            }
            Self::TooSmall { .. } => {
                "this is no scan of film; name the scan itself, not an icon or a test picture"
            }
            Self::TooLarge { .. } => "make a smaller copy of the scan and read that",
            Self::NoFrameTable { .. } => {
                "the recording or copying was broken off; copy the file again, or ask the scanning house for it again"
            }
            Self::NotUnderstood { .. } | Self::NoFrames { .. } => {
                "see whether a player shows it; if not, copy it again from where it came from"
            }
            Self::ChildFailed { .. } => {
                "try once more; if it stops at the same frame, copy the scan again from where it came from"
            }
            Self::Stalled { .. } => {
                "check the disk or the network the scan lies on, then try again"
            }
            Self::Cancelled { .. } => {
                "start it again whenever you like; it begins from the first frame"
            }
            Self::OutOfStep { .. } => {
                "try once more; if it happens again, please report it with the file's name and FFmpeg's version"
            }
            Self::LimitReached { .. } => {
                "read the scan in parts, or raise the limit if the file is to be trusted"
            }
            Self::NotInIndex { .. } => "read the scan again, so that the index is of this file",
            Self::OutOfOrder { .. } => "ask for the frames in rising order, each once",
            Self::NotTheSame { .. } => {
                "the scan was changed since it was read, or FFmpeg was; read the scan again"
            }
        }
    }
}
