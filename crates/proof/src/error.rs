//! What can be wrong with what is handed in.

/// Why something cannot be looked at.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum ProofError {
    /// A picture too small, too large, or with too few or too many bytes.
    #[error("a picture of {width} by {height} pixels with {found} bytes cannot be looked at")]
    PictureSize {
        /// Pixels across.
        width: usize,
        /// Pixels down.
        height: usize,
        /// Bytes that came.
        found: usize,
    },
    /// Sketches kept by another form of this crate, or cut off.
    #[error("these are no sketches of frames as they are kept now")]
    Kept,
}
