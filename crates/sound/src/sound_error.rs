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
    /// It was stopped.
    #[error("stopped")]
    Stopped,
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
