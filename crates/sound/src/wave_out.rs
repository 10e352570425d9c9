//! Writing WAV: 24 bits at 48 kHz, with the description of Broadcast Wave (EBU Tech 3285,
//! version 2, with loudness), and past 4 GiB as RF64 (EBU Tech 3306).
//!
//! The chunk stands before the samples and is filled in when they are written, which the
//! libraries for WAV do not do; so the head is written here.

use std::fs::File;
use std::io::{BufWriter, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use crate::sound_error::disk;
use crate::{Loudness, RATE, SoundError};

/// The fixed part of the description. Unit: bytes.
const BEXT: usize = 602;

/// What a Broadcast Wave says of itself.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Bext {
    /// What it is; at most 256 letters, others than ASCII become `?`.
    pub description: String,
    /// Who made it; at most 32 letters.
    pub originator: String,
    /// A reference of its own; at most 32 letters.
    pub reference: String,
    /// `yyyy-mm-dd`.
    pub date: String,
    /// `hh:mm:ss`.
    pub time: String,
    /// How it came to be, line by line.
    pub history: Vec<String>,
}

fn field(bytes: &mut Vec<u8>, text: &str, long: usize) {
    let plain = text.chars().map(|c| {
        if c.is_ascii() && !c.is_control() {
            c as u8
        } else {
            b'?'
        }
    });
    let mut cut: Vec<u8> = plain.take(long).collect();
    cut.resize(long, 0);
    bytes.extend_from_slice(&cut);
}

/// Hundredths, as the loudness fields hold them; 7FFF where there is none.
fn hundredths(value: Option<f64>) -> [u8; 2] {
    let value = value.map_or(0x7fff, |v| {
        (v * 100.0).round().clamp(-32_768.0, 32_766.0) as i16
    });
    value.to_le_bytes()
}

impl Bext {
    /// The bytes of the chunk, without its head.
    #[must_use]
    pub fn to_bytes(&self, loudness: Option<&Loudness>) -> Vec<u8> {
        let mut bytes = Vec::with_capacity(BEXT);
        field(&mut bytes, &self.description, 256);
        field(&mut bytes, &self.originator, 32);
        field(&mut bytes, &self.reference, 32);
        field(&mut bytes, &self.date, 10);
        field(&mut bytes, &self.time, 8);
        // The time reference: samples since midnight. A mix begins at its own head.
        bytes.extend_from_slice(&[0; 8]);
        bytes.extend_from_slice(&2_u16.to_le_bytes());
        // No UMID.
        bytes.extend_from_slice(&[0; 64]);
        bytes.extend_from_slice(&hundredths(loudness.and_then(|l| l.integrated_lufs)));
        bytes.extend_from_slice(&hundredths(loudness.and_then(|l| l.range_lu)));
        bytes.extend_from_slice(&hundredths(loudness.and_then(|l| l.true_peak_dbtp)));
        bytes.extend_from_slice(&hundredths(loudness.and_then(|l| l.max_momentary_lufs)));
        bytes.extend_from_slice(&hundredths(loudness.and_then(|l| l.max_short_term_lufs)));
        bytes.resize(BEXT, 0);
        for line in &self.history {
            let plain = line.chars().map(|c| {
                if c.is_ascii() && !c.is_control() {
                    c as u8
                } else {
                    b'?'
                }
            });
            bytes.extend(plain);
            bytes.extend_from_slice(b"\r\n");
        }
        if !bytes.len().is_multiple_of(2) {
            // Some readers do not know the byte between chunks: none is needed.
            bytes.extend_from_slice(b" ");
        }
        bytes
    }
}

/// A sample of 24 bits, rounded with triangular dither of one step. The dither is a sum over
/// the number of the sample: the same mix gives the same file.
#[must_use]
pub fn dithered(sample: f32, number: u64) -> i32 {
    const FULL: f64 = 8_388_608.0;
    let noise = spread(number);
    let (one, two) = ((noise >> 32) as u32, noise as u32);
    let triangle = (f64::from(one) - f64::from(two)) / 4_294_967_296.0;
    // Silence stays silence: there is nothing to round.
    let dither = if sample == 0.0 { 0.0 } else { triangle };
    let exact = f64::from(sample) * FULL + dither;
    exact.round().clamp(-FULL, FULL - 1.0) as i32
}

/// A number well mixed (the finaliser of `SplitMix64`, Steele, Lea and Flood 2014).
pub(crate) fn spread(number: u64) -> u64 {
    let mut z = number.wrapping_add(0x9e37_79b9_7f4a_7c15);
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

/// A WAV being written. Until it is [done](WaveOut::done) it stands under another name.
#[derive(Debug)]
pub struct WaveOut {
    file: BufWriter<File>,
    half: PathBuf,
    path: PathBuf,
    channels: u16,
    bext: Bext,
    frames: u64,
    values: u64,
}

impl WaveOut {
    /// Begins a file.
    ///
    /// # Errors
    /// [`SoundError::Disk`].
    pub fn create(path: &Path, channels: usize, bext: Bext) -> Result<Self, SoundError> {
        let mut half = path.as_os_str().to_owned();
        half.push(".part");
        let half = PathBuf::from(half);
        let file = File::create(&half).map_err(disk("writing the mix", path))?;
        let mut out = Self {
            file: BufWriter::with_capacity(1 << 18, file),
            half,
            path: path.to_owned(),
            channels: channels.clamp(1, 2) as u16,
            bext,
            frames: 0,
            values: 0,
        };
        let head = out.head(None);
        out.put(&head)?;
        Ok(out)
    }

    fn put(&mut self, bytes: &[u8]) -> Result<(), SoundError> {
        self.file
            .write_all(bytes)
            .map_err(disk("writing the mix", &self.path))
    }

    fn data_bytes(&self) -> u64 {
        self.frames * u64::from(self.channels) * 3
    }

    /// The head of the file, for as much as is written; it is always as long.
    fn head(&self, loudness: Option<&Loudness>) -> Vec<u8> {
        let data = self.data_bytes();
        let bext = self.bext.to_bytes(loudness);
        let bext_bytes = bext.len() as u32;
        let mut head = Vec::with_capacity(bext.len() + 128);
        let whole = 4 + 36 + 8 + bext.len() as u64 + 24 + 8 + data + data % 2;
        let large = whole > u64::from(u32::MAX);
        let short = |bytes: u64| u32::try_from(bytes).unwrap_or(u32::MAX);
        head.extend_from_slice(if large { b"RF64" } else { b"RIFF" });
        let size = if large { u32::MAX } else { short(whole) };
        head.extend_from_slice(&size.to_le_bytes());
        head.extend_from_slice(b"WAVE");
        // Room for the sizes of a large file, as Tech 3306 has it.
        head.extend_from_slice(if large { b"ds64" } else { b"JUNK" });
        head.extend_from_slice(&28_u32.to_le_bytes());
        let sizes = if large {
            [whole, data, self.frames]
        } else {
            [0; 3]
        };
        for size in sizes {
            head.extend_from_slice(&size.to_le_bytes());
        }
        head.extend_from_slice(&0_u32.to_le_bytes());
        head.extend_from_slice(b"bext");
        head.extend_from_slice(&bext_bytes.to_le_bytes());
        head.extend_from_slice(&bext);
        head.extend_from_slice(b"fmt ");
        head.extend_from_slice(&16_u32.to_le_bytes());
        head.extend_from_slice(&1_u16.to_le_bytes());
        head.extend_from_slice(&self.channels.to_le_bytes());
        head.extend_from_slice(&RATE.to_le_bytes());
        let frame = 3 * self.channels;
        head.extend_from_slice(&(RATE * u32::from(frame)).to_le_bytes());
        head.extend_from_slice(&frame.to_le_bytes());
        head.extend_from_slice(&24_u16.to_le_bytes());
        head.extend_from_slice(b"data");
        let size = if large { u32::MAX } else { short(data) };
        head.extend_from_slice(&size.to_le_bytes());
        head
    }

    /// Writes samples, channels side by side.
    ///
    /// # Errors
    /// [`SoundError::Disk`].
    pub fn write(&mut self, samples: &[f32]) -> Result<(), SoundError> {
        let mut bytes = Vec::with_capacity(3 * samples.len());
        for sample in samples {
            let value = dithered(*sample, self.values).to_le_bytes();
            bytes.extend_from_slice(&value[..3]);
            self.values += 1;
        }
        self.put(&bytes)?;
        self.frames += samples.len() as u64 / u64::from(self.channels);
        Ok(())
    }

    /// Fills the head in and gives the file its name.
    ///
    /// # Errors
    /// [`SoundError::Disk`].
    pub fn done(mut self, loudness: Option<&Loudness>) -> Result<u64, SoundError> {
        if !self.data_bytes().is_multiple_of(2) {
            self.put(&[0])?;
        }
        let head = self.head(loudness);
        const DOING: &str = "writing the mix";
        let path = self.path.clone();
        self.file
            .seek(SeekFrom::Start(0))
            .map_err(disk(DOING, &path))?;
        self.put(&head)?;
        self.file.flush().map_err(disk(DOING, &path))?;
        self.file.get_ref().sync_all().map_err(disk(DOING, &path))?;
        std::fs::rename(&self.half, &path).map_err(disk(DOING, &path))?;
        Ok(self.frames)
    }
}

impl Drop for WaveOut {
    fn drop(&mut self) {
        // After `done` there is nothing under this name; a half-written mix is of no use.
        let _gone = std::fs::remove_file(&self.half);
    }
}
