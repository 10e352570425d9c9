//! The mix that goes with a finish.

use std::fs::File;
use std::io::Read;
use std::path::Path;

use onestrand_film::{Fps, FramePos, Frames, SampleCount, SampleRate, sample_from_frame_floor};
use onestrand_finish::SoundOfFilm;
use onestrand_intake::{Cancel, Ffmpeg, IntakeError, SoundFacts, SoundSink, read_sound};

use crate::ProductionError;
use crate::error::unfit;

/// Samples a second of a mix.
const HZ: f64 = 48_000.0;

/// A sound that fits the film, with the leader that stands before it in frames.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct FittingSound {
    pub(super) sound: SoundOfFilm,
    pub(super) leader: u32,
}

/// Finds out how a mix lies to so many frames at this speed.
///
/// A mix has ⌈(leader + frames) · 48000 / S⌉ samples (`docs/SOUND.md`), so its length says
/// how much leader it has, and whether it was made for this film at all.
///
/// # Errors
/// [`ProductionError::Unfit`] where it is no WAV file at 48 kHz, or does not fit;
/// [`ProductionError::Intake`] where it cannot be read.
pub(super) fn fitting(
    ffmpeg: &Ffmpeg,
    path: &Path,
    frames: u32,
    speed: Fps,
    cancel: &Cancel,
) -> Result<FittingSound, ProductionError> {
    let path =
        std::path::absolute(path).map_err(crate::error::file("name the sound in full", path))?;
    let mut head = [0; 12];
    let read = File::open(&path).and_then(|mut file| file.read_exact(&mut head));
    read.map_err(crate::error::file("open the sound", &path))?;
    let is_wave = matches!(&head[..4], b"RIFF" | b"RF64" | b"BW64") && &head[8..] == b"WAVE";
    if !is_wave {
        return Err(unfit(
            format!("{} is no WAV file", path.display()),
            "make the mix with `onestrand mix`, which writes one",
        ));
    }
    let found = read_sound(ffmpeg, &path, cancel, &mut Counted)?;
    if found.facts.rate != SampleRate::HZ_48000.hz() {
        return Err(unfit(
            format!(
                "the sound has {} samples a second, a mix has 48000",
                found.facts.rate
            ),
            "make the mix with `onestrand mix`",
        ));
    }
    let of = |frames: u32| -> Result<u64, ProductionError> {
        let all = SampleCount::of(Frames::new(frames)?, speed, SampleRate::HZ_48000).ceil();
        Ok(u64::try_from(all).unwrap_or(0))
    };
    // The leader that comes nearest; it is right only where the length is, to the sample.
    let all = found.samples as f64 * speed.as_f64() / HZ;
    let leader = (all.floor() as u32).saturating_sub(frames);
    if found.samples != of(leader + frames)? {
        let seconds = found.samples as f64 / HZ;
        let wanted = of(frames)? as f64 / HZ;
        return Err(unfit(
            format!(
                "the sound lasts {seconds:.3} s, {frames} frames at {speed} f/s last {wanted:.3} s"
            ),
            "make the mix of this version at this speed, with whatever leader you like",
        ));
    }
    let skip = sample_from_frame_floor(FramePos::new(leader)?, speed, SampleRate::HZ_48000);
    Ok(FittingSound {
        sound: SoundOfFilm {
            path,
            skip,
            samples: found.samples - skip,
        },
        leader,
    })
}

/// Only the number of samples is wanted.
struct Counted;

impl SoundSink for Counted {
    fn begin(&mut self, _facts: &SoundFacts) -> Result<(), IntakeError> {
        Ok(())
    }

    fn take(&mut self, _samples: &[f32]) -> Result<(), IntakeError> {
        Ok(())
    }
}
