//! The file of a recording that is being made: a WAV of 32-bit floating point whose head
//! says "to the end of the file" until it is finished, so that finishing needs no more
//! room on the disk than the recording itself, and a half one can be heard by any player.

use std::fs::File;
use std::io::{BufReader, Read};
use std::os::unix::fs::FileExt;
use std::path::Path;

use onestrand_sound::LoudnessMeter;

use crate::ProductionError;
use crate::error::{file, unfit};

/// The head: `RIFF`, `fmt ` with its extension, `fact`, and the name of `data`. Unit: bytes.
pub(super) const HEAD: u64 = 58;

/// A WAV says its length in 32 bits. Unit: bytes of samples.
const MOST: u64 = u32::MAX as u64 - HEAD;

/// What was found when a recording was read as a whole.
pub(super) struct Closed {
    /// The fingerprint of its file.
    pub(super) print: String,
    /// Its highest sample, 0 to 1 and over.
    pub(super) peak: f32,
    /// The whole, gated. Unit: LUFS; nothing for silence and for less than 0.4 s.
    pub(super) loudness: Option<f64>,
}

/// How the samples of a recording lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Layout {
    /// Samples a second.
    pub(super) rate: u32,
    /// 1 or 2.
    pub(super) channels: u32,
}

impl Layout {
    /// What one moment of all channels takes. Unit: bytes.
    pub(super) fn moment(self) -> u64 {
        4 * u64::from(self.channels.clamp(1, 2))
    }

    /// The head, for so many moments; `None` while it is being made.
    pub(super) fn head(self, moments: Option<u64>) -> Vec<u8> {
        let Self { rate, channels } = self;
        let open = u32::MAX;
        let data = moments.map_or(open, |n| {
            u32::try_from(n * self.moment()).unwrap_or(u32::MAX)
        });
        let whole = moments.map_or(open, |_| data.saturating_add(HEAD as u32 - 8));
        let fact = moments.map_or(open, |n| u32::try_from(n).unwrap_or(u32::MAX));
        let moment = self.moment() as u32;
        let mut head = Vec::with_capacity(HEAD as usize);
        head.extend_from_slice(b"RIFF");
        head.extend_from_slice(&whole.to_le_bytes());
        head.extend_from_slice(b"WAVEfmt ");
        head.extend_from_slice(&18_u32.to_le_bytes());
        // 3 is IEEE floating point; it wants the field for an extension, empty.
        head.extend_from_slice(&3_u16.to_le_bytes());
        head.extend_from_slice(&(channels as u16).to_le_bytes());
        head.extend_from_slice(&rate.to_le_bytes());
        head.extend_from_slice(&(rate * moment).to_le_bytes());
        head.extend_from_slice(&(moment as u16).to_le_bytes());
        head.extend_from_slice(&32_u16.to_le_bytes());
        head.extend_from_slice(&0_u16.to_le_bytes());
        head.extend_from_slice(b"fact");
        head.extend_from_slice(&4_u32.to_le_bytes());
        head.extend_from_slice(&fact.to_le_bytes());
        head.extend_from_slice(b"data");
        head.extend_from_slice(&data.to_le_bytes());
        head
    }

    /// What the head of a half recording says, whose slip was lost.
    pub(super) fn read(path: &Path) -> Option<Self> {
        let mut head = [0; HEAD as usize];
        File::open(path).ok()?.read_exact(&mut head).ok()?;
        let found = Self {
            rate: u32::from_le_bytes([head[24], head[25], head[26], head[27]]),
            channels: u32::from(u16::from_le_bytes([head[22], head[23]])),
        };
        ((1..=2).contains(&found.channels) && head.starts_with(b"RIFF")).then_some(found)
    }

    /// How many whole moments lie in the file.
    pub(super) fn moments(self, path: &Path) -> u64 {
        let size = std::fs::metadata(path).map_or(0, |about| about.len());
        size.saturating_sub(HEAD) / self.moment()
    }

    /// Writes what was recorded from moment `at` on and waits until the disk has it. What
    /// lies there already is written over: a sender that heard no answer sends again.
    pub(super) fn write(
        self,
        path: &Path,
        at: u64,
        samples: &[u8],
    ) -> Result<u64, ProductionError> {
        let there = self.moments(path);
        if at > there {
            return Err(unfit(
                format!("a gap in the recording: it goes on at sample {there}, not {at}"),
                "what was recorded before the gap is kept; send on from there",
            ));
        }
        if !(samples.len() as u64).is_multiple_of(self.moment()) {
            return Err(unfit(
                format!("{} bytes are no whole samples", samples.len()),
                "each sample has four bytes in each channel",
            ));
        }
        let from = at * self.moment();
        if from + samples.len() as u64 > MOST {
            return Err(unfit(
                "this recording has become as long as one file can be".to_owned(),
                "finish it and begin another",
            ));
        }
        let failed = || file("keep what is recorded", path);
        let out = File::options().write(true).open(path).map_err(failed())?;
        // As much as the disk takes is kept, also when it takes no more.
        out.write_all_at(&numbers(samples), HEAD + from)
            .map_err(failed())?;
        out.sync_data().map_err(failed())?;
        Ok(self.moments(path))
    }

    /// Makes the head true, and reads the file once as a whole.
    pub(super) fn close(self, path: &Path) -> Result<Closed, ProductionError> {
        let failed = || file("finish the recording", path);
        let moments = self.moments(path);
        let out = File::options()
            .read(true)
            .write(true)
            .open(path)
            .map_err(failed())?;
        out.set_len(HEAD + moments * self.moment())
            .map_err(failed())?;
        out.write_all_at(&self.head(Some(moments)), 0)
            .map_err(failed())?;
        out.sync_all().map_err(failed())?;
        let mut reader = BufReader::with_capacity(1 << 18, File::open(path).map_err(failed())?);
        let mut head = [0; HEAD as usize];
        reader.read_exact(&mut head).map_err(failed())?;
        let mut print = blake3::Hasher::new();
        print.update(&head);
        let mut chunk = vec![0; 1 << 18];
        let mut peak = 0.0_f32;
        let mut meter = LoudnessMeter::new(self.channels as usize, self.rate);
        loop {
            let read = fill(&mut reader, &mut chunk).map_err(failed())?;
            print.update(&chunk[..read]);
            let (samples, _) = chunk[..read].as_chunks::<4>();
            let samples: Vec<f32> = samples.iter().map(|s| f32::from_le_bytes(*s)).collect();
            peak = samples.iter().fold(peak, |most, s| most.max(s.abs()));
            if let Some(meter) = &mut meter {
                meter.hear(&samples);
            }
            if read < chunk.len() {
                break;
            }
        }
        Ok(Closed {
            print: print.finalize().to_hex()[..24].to_owned(),
            peak,
            loudness: meter.and_then(|meter| meter.done().integrated_lufs),
        })
    }
}

fn fill(from: &mut impl Read, into: &mut [u8]) -> std::io::Result<usize> {
    let mut there = 0;
    while there < into.len() {
        match from.read(&mut into[there..])? {
            0 => break,
            more => there += more,
        }
    }
    Ok(there)
}

/// The samples with silence for what is no number, which would stay in every filter.
fn numbers(samples: &[u8]) -> Vec<u8> {
    let (all, _) = samples.as_chunks::<4>();
    let plain = |sample: &[u8; 4]| {
        let value = f32::from_le_bytes(*sample);
        if value.is_finite() { *sample } else { [0; 4] }
    };
    all.iter().flat_map(plain).collect()
}
