//! Code and next step of each case.

use super::IntakeError;

impl IntakeError {
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
            Self::NoSoundTrack { .. } => "intake.no_sound_track",
            Self::TooSmall { .. } => "intake.too_small",
            Self::TooLarge { .. } => "intake.too_large",
            Self::NoFrameTable { .. } => "intake.no_frame_table",
            Self::NotUnderstood { .. } => "intake.not_understood",
            Self::NoFrames { .. } => "intake.no_frames",
            Self::ChildFailed { .. } => "intake.child_failed",
            Self::Stalled { .. } => "intake.stalled",
            Self::Changed { .. } => "intake.changed",
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
        let hint = self.hint_of_work().or_else(|| self.hint_of_place());
        hint.unwrap_or_else(|| self.hint_of_content())
    }

    /// Programs and their work.
    fn hint_of_work(&self) -> Option<&'static str> {
        match self {
            Self::ProgramMissing { .. } => Some(
                "install it with `sudo apt install ffmpeg` (it brings ffmpeg and ffprobe), then try again",
            ),
            Self::ProgramTooOld { .. } => Some(
                "the older one may drop or double frames unasked; install FFmpeg 5.1 or newer, or name another with ONESTRAND_FFMPEG and ONESTRAND_FFPROBE",
            ),
            Self::ProgramUnknown { .. } => Some(
                "check that ONESTRAND_FFMPEG and ONESTRAND_FFPROBE name FFmpeg's own programs, or unset them",
            ),
            Self::StartFailed { .. } => {
                Some("check that the program may be run and that memory is left, then try again")
            }
            Self::ChildFailed { .. } => Some(
                "try once more; if it stops at the same frame, copy the scan again from where it came from",
            ),
            Self::Stalled { .. } => {
                Some("check the disk or the network the scan lies on, then try again")
            }
            Self::Changed { .. } => Some(
                "wait until it has been copied or written to its end, then read it again; nothing of this reading is kept",
            ),
            Self::Cancelled { .. } => {
                Some("start it again whenever you like; it begins from the first frame")
            }
            Self::OutOfStep { .. } => Some(
                "try once more; if it happens again, please report it with the file's name and FFmpeg's version",
            ),
            Self::LimitReached { .. } => {
                Some("read the scan in parts, or raise the limit if the file is to be trusted")
            }
            _ => None,
        }
    }

    /// What was named, and where it lies.
    fn hint_of_place(&self) -> Option<&'static str> {
        match self {
            Self::NothingNamed => Some(
                "name one film file, one folder of numbered pictures, or the pictures themselves",
            ),
            Self::NotFound { .. } => {
                Some("check the spelling, and that the disk with your scans is connected")
            }
            Self::NoPermission { .. } => Some(
                "give yourself the right to read it (for example `chmod u+r FILE`), or copy it to your own folder",
            ),
            Self::Disk { .. } => {
                Some("check the disk and its cable, then try again; nothing was changed")
            }
            Self::DiskFull { .. } => {
                Some("make room on the disk, then try again; nothing half-made is kept")
            }
            Self::NotAFile { .. } => {
                Some("name the scan itself: a film file, or a folder of numbered pictures")
            }
            Self::EmptyFile { .. } => {
                Some("copy the scan again from where it came from; the copy you have holds nothing")
            }
            Self::NoPictures { .. } => Some("name the folder in which the pictures themselves lie"),
            Self::SeveralSequences { .. } => Some(
                "name one picture of the run you mean instead of the folder, or put each run into a folder of its own",
            ),
            Self::MixedFiles { .. } => {
                Some("name the pictures of one run only; read each film file or run by itself")
            }
            Self::DoubleNumber { .. } => Some("move one of the two out of the folder"),
            Self::GapTooWide { .. } => {
                Some("read the parts before and after the gap as two scans, in two folders")
            }
            Self::UnlikePictures { .. } => {
                Some("put the pictures that do not belong to this roll into another folder")
            }
            _ => None,
        }
    }

    /// What is in it.
    fn hint_of_content(&self) -> &'static str {
        match self {
            Self::UnknownKind { .. } => {
                "name a film file (MOV, MP4, MKV, AVI, MXF, MPEG, DV, OGV, WMV) or DPX, TIFF, PNG or JPEG pictures"
            }
            Self::Playlist { .. } => {
                "name the film file that the list points at; lists are never followed"
            }
            Self::Cineon { .. } => {
                "have the pictures saved as DPX or 16-bit TIFF, which hold the same densities"
            }
            Self::NoPictureTrack { .. } => {
                "this is a sound file or holds no picture; name the film file that goes with it"
            }
            Self::NoSoundTrack { .. } => {
                "name a file with sound: WAV, FLAC, MP3, Ogg, AIFF, or a film that has some"
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
            Self::NotInIndex { .. } => "read the scan again, so that the index is of this file",
            Self::OutOfOrder { .. } => "ask for the frames in rising order, each once",
            Self::NotTheSame { .. } => {
                "the scan was changed since it was read, or FFmpeg was; read the scan again"
            }
            _ => "look at the file in a player, and copy it again from where it came from",
        }
    }
}
