//! Keeping a sound: 32-bit floating point in a WAV, with what is to be told of it.

use std::fs::File;
use std::io::BufWriter;
use std::path::{Path, PathBuf};

use crate::{Loudness, LoudnessMeter, Peaks, SoundError};

/// From here on a sample counts as at full scale.
const FULL: f32 = 0.9995;
/// So many of them in a row are clipped: a lone peak may be meant.
const RUN: u32 = 3;
/// The most that the samples of a WAV may take, with room for its head. Unit: bytes.
const MOST_BYTES: u64 = u32::MAX as u64 - 1024;

/// What was found in a sound while it was kept.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KeptFacts {
    /// How long. Unit: samples of each channel.
    pub samples: u64,
    /// The highest from 0. Unit: of full scale.
    pub peak: f64,
    /// Samples that stand at full scale three or more in a row.
    pub clipped: u64,
    /// How far the middle of it lies off 0: the larger of the channels. Unit: of full scale.
    pub offset: f64,
    /// How loud it is.
    pub loudness: Loudness,
}

/// A sound being kept.
pub struct KeepSound {
    out: hound::WavWriter<BufWriter<File>>,
    path: PathBuf,
    channels: usize,
    meter: Option<LoudnessMeter>,
    outline: Peaks,
    rate: u32,
    samples: u64,
    peak: f32,
    sums: [f64; 2],
    at_full: [u32; 2],
    clipped: u64,
}

impl std::fmt::Debug for KeepSound {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("KeepSound")
            .field("path", &self.path)
            .finish_non_exhaustive()
    }
}

impl KeepSound {
    /// Begins a file for one or two channels.
    ///
    /// # Errors
    /// [`SoundError`] of the disk.
    pub fn create(path: &Path, rate: u32, channels: usize) -> Result<Self, SoundError> {
        let channels = channels.clamp(1, 2);
        let spec = hound::WavSpec {
            channels: channels as u16,
            sample_rate: rate,
            bits_per_sample: 32,
            sample_format: hound::SampleFormat::Float,
        };
        let out = hound::WavWriter::create(path, spec).map_err(|e| failed(path, e))?;
        Ok(Self {
            out,
            path: path.to_owned(),
            channels,
            meter: LoudnessMeter::new(channels, rate),
            outline: Peaks::default(),
            rate,
            samples: 0,
            peak: 0.0,
            sums: [0.0; 2],
            at_full: [0; 2],
            clipped: 0,
        })
    }

    /// Takes samples in, channels side by side.
    ///
    /// # Errors
    /// [`SoundError`] of the disk; [`SoundError::Long`] for more than a WAV holds, 4 GiB.
    pub fn add(&mut self, samples: &[f32]) -> Result<(), SoundError> {
        let second = 4 * self.channels as u64 * u64::from(self.rate.max(1));
        let bytes = 4 * (self.samples * self.channels as u64 + samples.len() as u64);
        if bytes > MOST_BYTES {
            let minutes = MOST_BYTES / second / 60;
            return Err(SoundError::Long { minutes });
        }
        for frame in samples.chunks_exact(self.channels) {
            for (side, sample) in frame.iter().enumerate() {
                let sample = if sample.is_finite() { *sample } else { 0.0 };
                self.out
                    .write_sample(sample)
                    .map_err(|e| failed(&self.path, e))?;
                self.peak = self.peak.max(sample.abs());
                self.sums[side] += f64::from(sample);
                if sample.abs() >= FULL {
                    self.at_full[side] += 1;
                    match self.at_full[side] {
                        RUN => self.clipped += u64::from(RUN),
                        longer if longer > RUN => self.clipped += 1,
                        _ => {}
                    }
                } else {
                    self.at_full[side] = 0;
                }
            }
        }
        self.samples += (samples.len() / self.channels) as u64;
        if let Some(meter) = &mut self.meter {
            meter.hear(samples);
        }
        self.outline.add(samples, self.channels);
        Ok(())
    }

    /// The outline of what came, in samples as they are kept.
    #[must_use]
    pub fn outline(&self) -> Peaks {
        let mut outline = self.outline.clone();
        outline.finish();
        outline
    }

    /// The sound is over; its file is whole from now on.
    ///
    /// # Errors
    /// [`SoundError`] of the disk.
    pub fn done(self) -> Result<KeptFacts, SoundError> {
        self.out.finalize().map_err(|e| failed(&self.path, e))?;
        let count = self.samples.max(1) as f64;
        let offset = self
            .sums
            .iter()
            .fold(0.0_f64, |most, sum| most.max((sum / count).abs()));
        let silence = Loudness {
            integrated_lufs: None,
            range_lu: None,
            max_momentary_lufs: None,
            max_short_term_lufs: None,
            true_peak_dbtp: None,
        };
        Ok(KeptFacts {
            samples: self.samples,
            peak: f64::from(self.peak),
            clipped: self.clipped,
            offset,
            loudness: self.meter.map_or(silence, LoudnessMeter::done),
        })
    }
}

fn failed(path: &Path, why: hound::Error) -> SoundError {
    match why {
        hound::Error::IoError(source) => SoundError::Disk {
            doing: "keeping a sound",
            path: path.to_owned(),
            source,
        },
        other => SoundError::NotKept {
            what: other.to_string(),
            path: path.to_owned(),
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn more_than_a_wav_holds_is_refused() {
        let mut keep = KeepSound::create(Path::new("/dev/null"), 48_000, 2).expect("opened");
        // As if 186 minutes had come: 4 GiB are 186 minutes and 24 s of two channels.
        keep.samples = 186 * 60 * 48_000;
        let minute = vec![0.0; 2 * 60 * 48_000];
        let wrong = keep.add(&minute).expect_err("refused");
        assert_eq!(wrong.code(), "sound.long");
        assert!(wrong.to_string().contains("3 h 6 min"), "{wrong}");
        keep.add(&minute[..2 * 20 * 48_000])
            .expect("twenty seconds go in");
    }
}
