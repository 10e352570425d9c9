//! A kept sound for ears that need one channel: as it lies on the disk, at its own rate.

use std::path::Path;

use crate::SoundError;

/// A stretch of a kept sound in one channel.
#[derive(Debug, Clone, PartialEq)]
pub struct KeptMono {
    /// The mean of its channels; 1 is full scale.
    pub samples: Vec<f32>,
    /// Samples a second.
    pub rate: u32,
}

/// Samples between two looks at the stop.
const PIECE: usize = 1 << 16;

/// Reads a stretch of a kept sound (a WAV of 32-bit floating point with one or two
/// channels), its channels put together: `most` samples from `first` on, fewer where it
/// ends. `go_on` is asked now and then, with the samples that are read; false stops.
///
/// # Errors
/// [`SoundError::NotKept`] for another kind of file, [`SoundError::Stopped`].
pub fn kept_mono(
    kept: &Path,
    first: u64,
    most: u64,
    go_on: &mut dyn FnMut(u64) -> bool,
) -> Result<KeptMono, SoundError> {
    let wrong = |what: String| SoundError::NotKept {
        what,
        path: kept.to_owned(),
    };
    let mut reader = hound::WavReader::open(kept).map_err(|e| wrong(e.to_string()))?;
    let spec = reader.spec();
    let channels = usize::from(spec.channels);
    if spec.sample_format != hound::SampleFormat::Float || !(1..=2).contains(&channels) {
        return Err(wrong(format!("{spec:?}")));
    }
    let all = u64::from(reader.duration());
    let first = first.min(all);
    let count = most.min(all - first);
    // It cannot be further than the file is long, which fits.
    let start = u32::try_from(first).unwrap_or(u32::MAX);
    reader.seek(start).map_err(|e| wrong(e.to_string()))?;
    let mut samples = Vec::with_capacity(usize::try_from(count).unwrap_or(0));
    let mut one = 0.0_f32;
    let share = 1.0 / channels as f32;
    let wanted = usize::try_from(count).unwrap_or(usize::MAX);
    let wanted = wanted.saturating_mul(channels);
    for (nth, sample) in reader.samples::<f32>().take(wanted).enumerate() {
        let sample = sample.map_err(|e| wrong(e.to_string()))?;
        one += if sample.is_finite() { sample } else { 0.0 };
        if (nth + 1) % channels == 0 {
            samples.push(one * share);
            one = 0.0;
            if samples.len() % PIECE == 0 && !go_on(samples.len() as u64) {
                return Err(SoundError::Stopped);
            }
        }
    }
    Ok(KeptMono {
        samples,
        rate: spec.sample_rate,
    })
}
