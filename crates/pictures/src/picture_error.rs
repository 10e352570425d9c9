//! What can go wrong with a picture.

use thiserror::Error;

/// Why a picture could not be read or made.
#[derive(Debug, Error)]
#[non_exhaustive]
pub enum PictureError {
    /// A picture of a workprint cannot be read.
    #[error("a picture of the workprint cannot be read: {source}")]
    Workprint {
        /// The decoder's reason.
        #[source]
        source: jpeg_decoder::Error,
    },
    /// A picture of another kind cannot be read.
    #[error("{source}")]
    Unreadable {
        /// The decoder's reason.
        #[source]
        source: image::ImageError,
    },
    /// A picture cannot be coded.
    #[error("a small picture cannot be made: {source}")]
    Coding {
        /// The encoder's reason.
        #[source]
        source: image::ImageError,
    },
}
