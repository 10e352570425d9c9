//! What goes wrong with sound.

use std::io;
use std::path::PathBuf;

/// Why something could not be done with a sound.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum SoundError {
    /// The disk, or what is on it.
    #[error("{doing} failed: {}", .path.display())]
    Disk {
        /// What was being done.
        doing: &'static str,
        /// With which file.
        path: PathBuf,
        /// The system's reason.
        #[source]
        source: io::Error,
    },
    /// A kept sound that is not as it is kept.
    #[error("this is not a sound as it is kept, {what}: {}", .path.display())]
    NotKept {
        /// What is amiss.
        what: String,
        /// The file.
        path: PathBuf,
    },
    /// It cannot be resampled so.
    #[error("a sound of {rate} samples a second cannot be played at {play} times its speed")]
    Speed {
        /// Its rate.
        rate: u32,
        /// How much faster.
        play: f64,
    },
    /// More than a kept sound holds.
    #[error("this sound is longer than {} h {} min, the most that can be kept of one with its samples and channels", .minutes / 60, .minutes % 60)]
    Long {
        /// How long it may be.
        minutes: u64,
    },
    /// It was stopped.
    #[error("stopped")]
    Stopped,
}

impl SoundError {
    /// A stable name for programs.
    #[must_use]
    pub fn code(&self) -> &'static str {
        match self {
            Self::Disk { source, .. } if is_full(source) => "sound.disk_full",
            Self::Disk { .. } => "sound.disk",
            Self::NotKept { .. } => "sound.not_kept",
            Self::Speed { .. } => "sound.speed",
            Self::Long { .. } => "sound.long",
            Self::Stopped => "sound.stopped",
        }
    }

    /// What to do.
    #[must_use]
    pub fn hint(&self) -> &'static str {
        match self {
            Self::Disk { source, .. } if is_full(source) => {
                "make room on the disk and try again; what was kept before is there"
            }
            Self::Disk { .. } => "look whether the disk is there and can be written to",
            Self::NotKept { .. } => "bring the sound in again from its own file",
            Self::Speed { .. } => "write a speed between a twentieth and twenty times its own",
            Self::Long { .. } => "cut it into pieces and bring them in one by one",
            Self::Stopped => "begin again whenever you like: nothing half-made is left",
        }
    }
}

fn is_full(source: &io::Error) -> bool {
    matches!(
        source.kind(),
        io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded | io::ErrorKind::FileTooLarge
    )
}

pub(crate) fn disk(
    doing: &'static str,
    path: &std::path::Path,
) -> impl FnOnce(io::Error) -> SoundError {
    let path = path.to_owned();
    move |source| SoundError::Disk {
        doing,
        path,
        source,
    }
}
