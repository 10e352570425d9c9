//! The outline of a kept sound, from its file.

use std::path::Path;

use crate::{Peaks, SoundError};

/// Values read at a time.
const PIECE: usize = 1 << 16;

/// The outline of a kept sound (a WAV of 32-bit floating point), in samples as they are
/// kept: what [`crate::KeepSound::outline`] gives while it comes in.
///
/// # Errors
/// [`SoundError::NotKept`] for another kind of file.
pub fn kept_outline(kept: &Path) -> Result<Peaks, SoundError> {
    let wrong = |what: hound::Error| SoundError::NotKept {
        what: what.to_string(),
        path: kept.to_owned(),
    };
    let mut reader = hound::WavReader::open(kept).map_err(wrong)?;
    let channels = usize::from(reader.spec().channels.max(1));
    let mut outline = Peaks::default();
    let mut piece = Vec::with_capacity(PIECE * channels);
    for sample in reader.samples::<f32>() {
        piece.push(sample.map_err(wrong)?);
        if piece.len() == PIECE * channels {
            outline.add(&piece, channels);
            piece.clear();
        }
    }
    outline.add(&piece, channels);
    outline.finish();
    Ok(outline)
}
