//! Sounds that a mix plays: 48 kHz, one channel or two, any place of them at any time.

use std::fs::File;
use std::io;
use std::os::unix::fs::FileExt;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::SoundError;
use crate::sound_error::disk;

/// A sound at 48 kHz.
pub trait SoundReader: Send {
    /// 1 or 2.
    fn channels(&self) -> usize;

    /// How long. Unit: samples of each channel.
    fn length(&self) -> u64;

    /// Fills `into` with the sound from sample `first` on, channels side by side; what lies
    /// behind its end is silence.
    ///
    /// # Errors
    /// [`SoundError::Disk`].
    fn read(&mut self, first: u64, into: &mut [f32]) -> Result<(), SoundError>;
}

/// A sound in memory.
#[derive(Debug, Clone)]
pub struct MemorySound {
    samples: Arc<Vec<f32>>,
    channels: usize,
}

impl MemorySound {
    /// Samples with the channels side by side.
    #[must_use]
    pub fn new(samples: Vec<f32>, channels: usize) -> Self {
        let samples = Arc::new(samples);
        Self {
            samples,
            channels: channels.clamp(1, 2),
        }
    }
}

impl SoundReader for MemorySound {
    fn channels(&self) -> usize {
        self.channels
    }

    fn length(&self) -> u64 {
        (self.samples.len() / self.channels) as u64
    }

    fn read(&mut self, first: u64, into: &mut [f32]) -> Result<(), SoundError> {
        let from = usize::try_from(first).unwrap_or(usize::MAX);
        let from = from.saturating_mul(self.channels).min(self.samples.len());
        let there = (self.samples.len() - from).min(into.len());
        into[..there].copy_from_slice(&self.samples[from..from + there]);
        into[there..].fill(0.0);
        Ok(())
    }
}

/// A sound made ready: nothing but samples, 32-bit floating point, least byte first.
#[derive(Debug)]
pub struct PlainSound {
    file: File,
    path: PathBuf,
    channels: usize,
    length: u64,
    bytes: Vec<u8>,
}

impl PlainSound {
    /// Opens what [`crate::make_ready`] wrote.
    ///
    /// # Errors
    /// [`SoundError::Disk`].
    pub fn open(path: &Path, channels: usize) -> Result<Self, SoundError> {
        let channels = channels.clamp(1, 2);
        let file = File::open(path).map_err(disk("opening a sound", path))?;
        let size = file
            .metadata()
            .map_err(disk("looking at a sound", path))?
            .len();
        Ok(Self {
            file,
            path: path.to_owned(),
            channels,
            length: size / (4 * channels as u64),
            bytes: Vec::new(),
        })
    }
}

impl SoundReader for PlainSound {
    fn channels(&self) -> usize {
        self.channels
    }

    fn length(&self) -> u64 {
        self.length
    }

    fn read(&mut self, first: u64, into: &mut [f32]) -> Result<(), SoundError> {
        let left = self.length.saturating_sub(first);
        let there = usize::try_from(left).unwrap_or(usize::MAX);
        let there = there.saturating_mul(self.channels).min(into.len());
        self.bytes.resize(4 * there, 0);
        let at = first.saturating_mul(4 * self.channels as u64);
        if there > 0 {
            let read: io::Result<()> = self.file.read_exact_at(&mut self.bytes, at);
            read.map_err(disk("reading a sound", &self.path))?;
        }
        let (whole, _) = self.bytes.as_chunks::<4>();
        for (sample, bytes) in into.iter_mut().zip(whole) {
            *sample = f32::from_le_bytes(*bytes);
        }
        into[there..].fill(0.0);
        Ok(())
    }
}
