//! The speed of a tape, from a tone whose pitch is known.

mod hum;
mod line;

pub use hum::{Hum, Mains, hum};

use crate::spectra::Spectra;
use crate::{Heard, HearingError, middle};

/// A tone found in a recording.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tone {
    /// Its pitch as heard. Unit: hertz.
    pub hertz: f64,
    /// Standard error of the pitch. Unit: hertz.
    pub error_hertz: f64,
    /// How much the pitch wanders from second to second, as the recorder winds:
    /// root mean square. Unit: per cent.
    pub wander_percent: f64,
    /// How far it stands above what else is heard near it. Unit: dB.
    pub above_rest_db: f64,
}

impl Tone {
    /// Heard over true: above 1 the sound plays too fast.
    #[must_use]
    pub fn heard_over_true(&self, true_hertz: f64) -> f64 {
        self.hertz / true_hertz
    }

    /// How many times faster it must be played to be true.
    ///
    /// ```
    /// # use onestrand_hearing::Tone;
    /// let fork = Tone { hertz: 433.4, error_hertz: 0.0, wander_percent: 0.0, above_rest_db: 40.0 };
    /// assert_eq!(format!("{:.4}", fork.play(440.0)), "1.0152");
    /// ```
    #[must_use]
    pub fn play(&self, true_hertz: f64) -> f64 {
        true_hertz / self.hertz
    }
}

/// How far above its surroundings a tone must stand to be called one. Unit: dB.
const STANDS_OUT_DB: f64 = 12.0;

/// Finds a tone near `true_hertz` and measures its pitch as heard.
///
/// Unit of `true_hertz`: hertz, from 20 to a third of the rate. `within`: how far
/// off it may be, as a share from 0.002 to 0.25; 0.1 covers any tape that runs.
/// A steady tone 10 dB below white noise is measured to better than 0.02 % from
/// five seconds.
///
/// # Errors
/// [`HearingError::TooShort`] below half a second, [`HearingError::Silent`],
/// [`HearingError::OutOfRange`], or [`HearingError::NoTone`] when nothing stands
/// 12 dB out of its surroundings.
///
/// ```
/// use onestrand_hearing::{Heard, tone};
///
/// let turn = std::f64::consts::TAU * 433.4 / 48_000.0;
/// let fork: Vec<f32> = (0..96_000).map(|at| (turn * f64::from(at)).sin() as f32).collect();
/// let found = tone(Heard::new(&fork, 48_000)?, 440.0, 0.1)?;
/// assert!((found.hertz - 433.4).abs() < 0.005);
/// assert!(tone(Heard::new(&fork, 48_000)?, 1_000.0, 0.1).is_err());
/// # Ok::<(), onestrand_hearing::HearingError>(())
/// ```
pub fn tone(heard: Heard<'_>, true_hertz: f64, within: f64) -> Result<Tone, HearingError> {
    let heard = heard.long_enough(0.5)?;
    in_range("the true pitch", true_hertz, 20.0, heard.rate() / 3.0)?;
    in_range("how far off it may be", within, 0.002, 0.25)?;
    let (from, to) = (true_hertz * (1.0 - within), true_hertz * (1.0 + within));
    let spectrum = MeanSpectrum::of(heard);
    let (near, above_rest_db) = spectrum.highest(from, to);
    if above_rest_db < STANDS_OUT_DB {
        return Err(HearingError::NoTone { from, to });
    }
    let line = line::follow(heard, near, spectrum.bin);
    Ok(Tone {
        hertz: line.hertz,
        error_hertz: line.error,
        wander_percent: 100.0 * line.wander / line.hertz,
        above_rest_db,
    })
}

pub(crate) fn in_range(
    what: &'static str,
    given: f64,
    least: f64,
    most: f64,
) -> Result<(), HearingError> {
    if (least..=most).contains(&given) {
        return Ok(());
    }
    Err(HearingError::OutOfRange {
        what,
        given,
        least,
        most,
    })
}

/// The mean power of a whole recording, in bins of about a hertz.
struct MeanSpectrum {
    power: Vec<f64>,
    bin: f64,
}

impl MeanSpectrum {
    fn of(heard: Heard<'_>) -> Self {
        let second = (heard.rate() as usize).next_power_of_two();
        let length = second.min((heard.samples().len() / 2).next_power_of_two());
        let mut spectra = Spectra::new(length);
        let mut one = vec![0.0; spectra.bins()];
        let mut power = vec![0.0; spectra.bins()];
        for middle in (length / 2..heard.samples().len()).step_by(length / 2) {
            spectra.power_at(heard, middle as isize, &mut one);
            for (sum, value) in power.iter_mut().zip(&one) {
                *sum += f64::from(*value);
            }
        }
        Self {
            power,
            bin: heard.rate() / length as f64,
        }
    }

    fn between(&self, from: f64, to: f64) -> (usize, &[f64]) {
        let first = ((from / self.bin).floor().max(1.0) as usize).min(self.power.len());
        let last = ((to / self.bin).ceil() as usize + 1).clamp(first, self.power.len());
        (first, &self.power[first..last])
    }

    /// The highest place between two pitches, and how far above the middle of
    /// its surroundings it stands. Unit: hertz, dB.
    fn highest(&self, from: f64, to: f64) -> (f64, f64) {
        let (first, bins) = self.between(from, to);
        let peak = bins.iter().enumerate().max_by(|a, b| a.1.total_cmp(b.1));
        let Some((at, &height)) = peak else {
            return (from, 0.0);
        };
        let hertz = (first + at) as f64 * self.bin;
        (hertz, decibels(height / self.floor(hertz).max(1e-300)))
    }

    /// The middle power within 30 bins on both sides.
    fn floor(&self, hertz: f64) -> f64 {
        let span = 30.0 * self.bin;
        middle::median(self.between(hertz - span, hertz + span).1)
    }

    /// Power over floor, the highest within a bin of a pitch.
    fn stands_out(&self, hertz: f64) -> f64 {
        let (_, bins) = self.between(hertz - 0.5 * self.bin, hertz + 0.5 * self.bin);
        let height = bins.iter().copied().fold(0.0, f64::max);
        height / self.floor(hertz).max(1e-300)
    }
}

fn decibels(ratio: f64) -> f64 {
    10.0 * ratio.max(1e-30).log10()
}
