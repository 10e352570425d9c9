//! A kept sound brought to the ear.

use std::path::PathBuf;

use onestrand_hearing::Heard;
use onestrand_intake::Cancel;
use onestrand_sound::kept_mono;
use onestrand_store::Production;

use super::unheard;
use crate::documents::{ListenAsked, SoundWords};
use crate::error::unfit;
use crate::{ProductionError, Progress};

/// The longest stretch that is listened to at once: what fits the memory of a small machine.
/// Unit: seconds.
const LONGEST: f64 = 20.0 * 60.0;

/// Which stretch of which file.
#[derive(Debug, Clone)]
pub(super) struct Ear {
    path: PathBuf,
    from: u64,
    /// Samples a second.
    rate: u32,
    count: u64,
}

/// A stretch of a sound in the ear.
#[derive(Debug)]
pub(super) struct InTheEar {
    pub(super) samples: Vec<f32>,
    pub(super) rate: u32,
    /// Its first sample in the whole sound.
    pub(super) from: u64,
}

impl Ear {
    pub(super) fn of(
        production: &Production,
        sound: &SoundWords,
        asked: &ListenAsked,
    ) -> Result<Self, ProductionError> {
        let rate = f64::from(sound.facts.rate.max(1));
        let all = sound.facts.samples as f64 / rate;
        let from = asked.from.unwrap_or(0.0);
        let to = asked.to.unwrap_or(all).min(all).min(from + LONGEST);
        // A time that is no number is not inside either.
        if !(from >= 0.0 && from < to) {
            return Err(unfit(
                format!("there is no sound from {from} s to {to} s, it has {all:.1} s"),
                "begin before it ends",
            ));
        }
        let first = (from * rate) as u64;
        Ok(Self {
            path: crate::dub::sounds_folder(production).join(&sound.kept),
            from: first,
            rate: sound.facts.rate,
            count: ((to * rate) as u64).saturating_sub(first),
        })
    }

    pub(super) fn read(
        &self,
        cancel: &Cancel,
        progress: &mut dyn Progress,
    ) -> Result<InTheEar, ProductionError> {
        let rate = u64::from(self.rate.max(1));
        progress.begin_in("seconds", "reading the sound", Some(self.count / rate));
        let mut go_on = |done| {
            progress.at(done / rate);
            !cancel.is_cancelled()
        };
        let mono = kept_mono(&self.path, self.from, self.count, &mut go_on)?;
        Ok(InTheEar {
            samples: mono.samples,
            rate: mono.rate,
            from: self.from,
        })
    }
}

impl InTheEar {
    pub(super) fn heard(&self) -> Result<Heard<'_>, ProductionError> {
        Heard::new(&self.samples, self.rate).map_err(|why| unheard(&why))
    }

    /// A time in the ear as a time in the whole sound. Unit: seconds.
    pub(super) fn in_sound(&self, seconds: f64) -> f64 {
        self.from as f64 / f64::from(self.rate) + seconds
    }

    /// A time in the ear as the nearest sample of the whole sound.
    pub(super) fn sample(&self, seconds: f64) -> u64 {
        self.from + (seconds * f64::from(self.rate)).round().max(0.0) as u64
    }
}
