//! How loud something is.

use std::path::Path;

use onestrand_intake::{Cancel, IntakeError, SoundFacts, SoundSink};
use onestrand_sound::{Loudness, LoudnessMeter};
use serde::Serialize;

use crate::error::unfit;
use crate::{ProductionError, Progress};

/// How loud something is, as the command line tells it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, utoipa::ToSchema)]
pub struct LoudnessDocument {
    /// The whole, gated. Unit: LUFS; nothing for silence.
    pub integrated_lufs: Option<f64>,
    /// How far soft and loud parts lie apart. Unit: LU.
    pub loudness_range_lu: Option<f64>,
    /// The loudest 0.4 s. Unit: LUFS.
    pub max_momentary_lufs: Option<f64>,
    /// The loudest three seconds. Unit: LUFS.
    pub max_short_term_lufs: Option<f64>,
    /// The highest between samples too. Unit: dBTP.
    pub true_peak_dbtp: Option<f64>,
}

impl From<Loudness> for LoudnessDocument {
    fn from(found: Loudness) -> Self {
        let round = |v: Option<f64>| v.map(|v| (v * 100.0).round() / 100.0);
        Self {
            integrated_lufs: round(found.integrated_lufs),
            loudness_range_lu: round(found.range_lu),
            max_momentary_lufs: round(found.max_momentary_lufs),
            max_short_term_lufs: round(found.max_short_term_lufs),
            true_peak_dbtp: round(found.true_peak_dbtp),
        }
    }
}

/// How loud a file is.
///
/// # Errors
/// [`ProductionError::Intake`] for what is no sound.
pub fn loudness_of_file(
    path: &Path,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<LoudnessDocument, ProductionError> {
    let ffmpeg = onestrand_intake::Ffmpeg::locate()?;
    let mut listening = Listening {
        progress,
        meter: None,
        heard: 0,
        channels: 1,
    };
    onestrand_intake::read_sound(&ffmpeg, path, cancel, &mut listening)?;
    let none = || unfit("no sound came".to_owned(), "try another file");
    Ok(listening.meter.ok_or_else(none)?.done().into())
}

/// A file being measured.
struct Listening<'a> {
    progress: &'a mut dyn Progress,
    meter: Option<LoudnessMeter>,
    heard: u64,
    channels: u64,
}

impl SoundSink for Listening<'_> {
    fn begin(&mut self, facts: &SoundFacts) -> Result<(), IntakeError> {
        let all = facts.promised_s.map(|s| (s * f64::from(facts.rate)) as u64);
        self.progress.begin_in("samples", "listening", all);
        self.channels = u64::from(facts.channels.max(1));
        self.meter = LoudnessMeter::new(facts.channels as usize, facts.rate);
        Ok(())
    }

    fn take(&mut self, samples: &[f32]) -> Result<(), IntakeError> {
        if let Some(meter) = &mut self.meter {
            meter.hear(samples);
        }
        self.heard += samples.len() as u64 / self.channels;
        self.progress.at(self.heard);
        Ok(())
    }
}
