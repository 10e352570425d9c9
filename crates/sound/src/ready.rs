//! Making a kept sound ready: resampled to 48 kHz as a whole, at the speed it is played at,
//! with its outline.

use std::fs::File;
use std::io::{BufReader, BufWriter, Write};
use std::path::Path;
use std::sync::atomic::{AtomicU64, Ordering};

use rubato::audioadapter_buffers::direct::InterleavedSlice;
use rubato::{
    Async, Fft, FixedAsync, FixedSync, Indexing, Resampler, SincInterpolationParameters,
    SincInterpolationType, WindowFunction,
};

use crate::sound_error::disk;
use crate::{Peaks, RATE, SoundError};

/// A sound made ready.
#[derive(Debug, Clone)]
pub struct Ready {
    /// 1 or 2.
    pub channels: usize,
    /// How long it is at 48 kHz. Unit: samples of each channel.
    pub length: u64,
    /// Its outline.
    pub peaks: Peaks,
}

/// Half-written files so far, so that each has a name of its own.
static HALVES: AtomicU64 = AtomicU64::new(0);

/// Samples of each channel that go in at a time.
const CHUNK: usize = 4096;

/// Makes a kept sound ready: a WAV of 32-bit floating point with one or two channels,
/// played `play` times as fast, as a tape would be, becomes plain samples at 48 kHz.
/// `go_on` is asked now and then, with the samples that are done; false stops.
///
/// # Errors
/// [`SoundError::NotKept`], [`SoundError::Disk`], [`SoundError::Speed`],
/// [`SoundError::Stopped`]; a file that is half written is taken away.
pub fn make_ready(
    kept: &Path,
    play: f64,
    into: &Path,
    go_on: &mut dyn FnMut(u64) -> bool,
) -> Result<Ready, SoundError> {
    // Two who ask for one sound at once each write their own; either is as good.
    let number = HALVES.fetch_add(1, Ordering::Relaxed);
    let half = into.with_extension(format!("{}-{number}.part", std::process::id()));
    let made = write_ready(kept, play, &half, go_on);
    match made {
        Ok(ready) => {
            std::fs::rename(&half, into).map_err(disk("writing a sound", into))?;
            Ok(ready)
        }
        Err(why) => {
            // What is half written is of no use; that it cannot be removed changes nothing.
            let _gone = std::fs::remove_file(&half);
            Err(why)
        }
    }
}

fn write_ready(
    kept: &Path,
    play: f64,
    into: &Path,
    go_on: &mut dyn FnMut(u64) -> bool,
) -> Result<Ready, SoundError> {
    let wrong = |what: String| SoundError::NotKept {
        what,
        path: kept.to_owned(),
    };
    let reader = hound::WavReader::open(kept).map_err(|e| wrong(e.to_string()))?;
    let spec = reader.spec();
    let channels = usize::from(spec.channels);
    if spec.sample_format != hound::SampleFormat::Float || !(1..=2).contains(&channels) {
        return Err(wrong(format!("{spec:?}")));
    }
    let out = File::create(into).map_err(disk("writing a sound", into))?;
    let mut out = Out {
        file: BufWriter::with_capacity(1 << 18, out),
        path: into,
        peaks: Peaks::default(),
        channels,
        written: 0,
        most: u64::MAX,
    };
    let mut samples = Samples {
        reader,
        wrong: &wrong,
    };
    let plain = spec.sample_rate == RATE && (play - 1.0).abs() < f64::EPSILON;
    if plain {
        let mut chunk = vec![0.0; CHUNK * channels];
        loop {
            let there = samples.fill(&mut chunk)?;
            out.write(&chunk[..there])?;
            if there < chunk.len() {
                break;
            }
            if !go_on(out.written) {
                return Err(SoundError::Stopped);
            }
        }
    } else {
        resampled(&mut samples, spec.sample_rate, play, &mut out, go_on)?;
    }
    out.file.flush().map_err(disk("writing a sound", into))?;
    out.peaks.finish();
    Ok(Ready {
        channels,
        length: out.written,
        peaks: out.peaks,
    })
}

struct Samples<'a, W: Fn(String) -> SoundError> {
    reader: hound::WavReader<BufReader<File>>,
    wrong: &'a W,
}

impl<W: Fn(String) -> SoundError> Samples<'_, W> {
    /// Fills a chunk; how much of it was there.
    fn fill(&mut self, chunk: &mut [f32]) -> Result<usize, SoundError> {
        let mut there = 0;
        for (place, sample) in chunk.iter_mut().zip(self.reader.samples::<f32>()) {
            let sample = sample.map_err(|e| (self.wrong)(e.to_string()))?;
            // What is no number would stay in every filter for good.
            *place = if sample.is_finite() { sample } else { 0.0 };
            there += 1;
        }
        chunk[there..].fill(0.0);
        Ok(there)
    }
}

struct Out<'a> {
    file: BufWriter<File>,
    path: &'a Path,
    peaks: Peaks,
    channels: usize,
    written: u64,
    most: u64,
}

impl Out<'_> {
    fn write(&mut self, samples: &[f32]) -> Result<(), SoundError> {
        let room = usize::try_from(self.most - self.written).unwrap_or(usize::MAX);
        let take = samples.len().min(room.saturating_mul(self.channels));
        let samples = &samples[..take];
        let mut bytes = Vec::with_capacity(4 * samples.len());
        for sample in samples {
            bytes.extend_from_slice(&sample.to_le_bytes());
        }
        self.file
            .write_all(&bytes)
            .map_err(disk("writing a sound", self.path))?;
        self.peaks.add(samples, self.channels);
        self.written += (samples.len() / self.channels) as u64;
        Ok(())
    }
}

/// The resampler for a speed: by Fourier transform where rates stand in a small ratio, else
/// by a windowed sinc of 256 points.
fn resampler(rate: u32, play: f64, channels: usize) -> Result<Box<dyn Resampler<f32>>, SoundError> {
    let wrong = SoundError::Speed { rate, play };
    if !(play.is_finite() && (0.05..=20.0).contains(&play) && (1000..=768_000).contains(&rate)) {
        return Err(wrong);
    }
    if (play - 1.0).abs() < f64::EPSILON {
        let (from, to) = (rate as usize, RATE as usize);
        return match Fft::<f32>::new(from, to, CHUNK, channels, FixedSync::Input) {
            Ok(made) => Ok(Box::new(made)),
            Err(_) => Err(wrong),
        };
    }
    let sinc = SincInterpolationParameters {
        sinc_len: 256,
        f_cutoff: None,
        oversampling_factor: 256,
        interpolation: SincInterpolationType::Cubic,
        window: WindowFunction::BlackmanHarris2,
    };
    let ratio = f64::from(RATE) / (f64::from(rate) * play);
    match Async::<f32>::new_sinc(ratio, 1.0, &sinc, CHUNK, channels, FixedAsync::Input) {
        Ok(made) => Ok(Box::new(made)),
        Err(_) => Err(wrong),
    }
}

fn resampled<W: Fn(String) -> SoundError>(
    samples: &mut Samples<'_, W>,
    rate: u32,
    play: f64,
    out: &mut Out<'_>,
    go_on: &mut dyn FnMut(u64) -> bool,
) -> Result<(), SoundError> {
    let channels = out.channels;
    let mut machine = resampler(rate, play, channels)?;
    let total = u64::from(samples.reader.duration());
    out.most = (total as f64 * f64::from(RATE) / (f64::from(rate) * play)).ceil() as u64;
    // What comes out at first is the silence before the sound.
    let mut skip = machine.output_delay();
    let mut into = vec![0.0_f32; machine.output_frames_max() * channels];
    let failed = |_| SoundError::Speed { rate, play };
    let mut over = false;
    while out.written < out.most {
        let needed = machine.input_frames_next();
        let mut chunk = vec![0.0_f32; needed * channels];
        let there = if over {
            0
        } else {
            samples.fill(&mut chunk)? / channels
        };
        over = there < needed;
        let capacity = into.len() / channels;
        let made = {
            let from = InterleavedSlice::new(&chunk, channels, needed)
                .map_err(|_| SoundError::Speed { rate, play })?;
            let mut to = InterleavedSlice::new_mut(&mut into, channels, capacity)
                .map_err(|_| SoundError::Speed { rate, play })?;
            machine
                .process_into_buffer(&from, &mut to, Some(&Indexing::new()))
                .map_err(failed)?
                .1
        };
        let begin = skip.min(made);
        skip -= begin;
        out.write(&into[begin * channels..made * channels])?;
        if !go_on(out.written) {
            return Err(SoundError::Stopped);
        }
    }
    Ok(())
}
