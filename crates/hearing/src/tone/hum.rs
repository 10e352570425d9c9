//! Hum of the mains: many harmonics of one pitch that is known.

use super::{MeanSpectrum, in_range, line};
use crate::{Heard, HearingError, middle};

/// The mains of the place where a recording was made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Mains {
    /// 50 Hz: most of the world (IEC 60038).
    Fifty,
    /// 60 Hz: the Americas and parts of Asia (IEC 60038).
    Sixty,
}

impl Mains {
    /// The pitch. Unit: hertz.
    #[must_use]
    pub fn hertz(self) -> f64 {
        match self {
            Self::Fifty => 50.0,
            Self::Sixty => 60.0,
        }
    }
}

/// Hum that was found.
#[derive(Debug, Clone, PartialEq)]
pub struct Hum {
    /// Its lowest pitch as heard, out of all its harmonics. Unit: hertz.
    pub hertz: f64,
    /// Standard error of it. Unit: hertz.
    pub error_hertz: f64,
    /// Which harmonics were heard: 2 is twice the mains.
    pub harmonics: Vec<u32>,
}

impl Hum {
    /// How many times faster the sound must be played to be true.
    #[must_use]
    pub fn play(&self, mains: Mains) -> f64 {
        mains.hertz() / self.hertz
    }
}

/// Highest harmonic that is looked for. Unit: hertz.
const HIGHEST: f64 = 1_250.0;

/// Finds the hum of the mains and measures its pitch as heard.
///
/// `within`: how far off it may be, as a share from 0.002 to 0.09 (more would
/// take 55 Hz for either). Mains themselves wander by about 0.1 % over minutes,
/// so the speed of a tape is known no better than that, whatever the error says.
///
/// # Errors
/// [`HearingError::TooShort`] below two seconds, [`HearingError::Silent`],
/// [`HearingError::OutOfRange`], or [`HearingError::NoTone`] when fewer than two
/// harmonics stand out.
///
/// ```
/// use onestrand_hearing::{Heard, HearingError, Mains, hum};
///
/// let turn = std::f64::consts::TAU * 49.2 / 8_000.0;
/// let wave = |at: u32| (1..6).map(|k| (turn * f64::from(k * at)).sin()).sum::<f64>() as f32;
/// let sound: Vec<f32> = (0..40_000).map(wave).collect();
/// let found = hum(Heard::new(&sound, 8_000)?, Mains::Fifty, 0.05)?;
/// assert!((found.hertz - 49.2).abs() < 0.005);
/// assert_eq!(hum(Heard::new(&[0.0; 40_000], 8_000)?, Mains::Fifty, 0.05), Err(HearingError::Silent));
/// # Ok::<(), HearingError>(())
/// ```
pub fn hum(heard: Heard<'_>, mains: Mains, within: f64) -> Result<Hum, HearingError> {
    let heard = heard.long_enough(2.0)?;
    in_range("how far off it may be", within, 0.002, 0.09)?;
    let spectrum = MeanSpectrum::of(heard);
    let (from, to) = (
        mains.hertz() * (1.0 - within),
        mains.hertz() * (1.0 + within),
    );
    let near = likeliest(&spectrum, from, to);
    let numbers = 1..=(HIGHEST / near) as u32;
    let lines: Vec<Harmonic> = numbers
        .filter(|&number| spectrum.stands_out(near * f64::from(number)) > 10.0)
        .map(|number| Harmonic::follow(heard, near, number, spectrum.bin))
        .collect();
    let middle = middle::median(&lines.iter().map(|line| line.lowest).collect::<Vec<_>>());
    let agreeing: Vec<&Harmonic> = lines
        .iter()
        .filter(|line| (line.lowest - middle).abs() < 0.002 * middle + 2.0 * line.error)
        .collect();
    if agreeing.len() < 2 {
        return Err(HearingError::NoTone { from, to });
    }
    let weight = |line: &Harmonic| 1.0 / line.error.max(1e-6).powi(2);
    let total: f64 = agreeing.iter().map(|line| weight(line)).sum();
    let sum: f64 = agreeing.iter().map(|line| weight(line) * line.lowest).sum();
    Ok(Hum {
        hertz: sum / total,
        error_hertz: total.sqrt().recip(),
        harmonics: agreeing.iter().map(|line| line.number).collect(),
    })
}

/// A harmonic brought down to the lowest pitch.
struct Harmonic {
    number: u32,
    lowest: f64,
    error: f64,
}

impl Harmonic {
    fn follow(heard: Heard<'_>, near: f64, number: u32, bin: f64) -> Self {
        let times = f64::from(number);
        let line = line::follow(heard, near * times, bin);
        Self {
            number,
            lowest: line.hertz / times,
            error: line.error / times,
        }
    }
}

/// The pitch whose harmonics together stand out most.
fn likeliest(spectrum: &MeanSpectrum, from: f64, to: f64) -> f64 {
    let step = 0.0003 * from;
    let steps = ((to - from) / step) as usize;
    let score = |lowest: f64| -> f64 {
        (1..=(HIGHEST / lowest) as u32)
            .map(|number| spectrum.stands_out(lowest * f64::from(number)).ln_1p())
            .sum()
    };
    let places = (0..=steps).map(|at| from + at as f64 * step);
    places
        .map(|lowest| (score(lowest), lowest))
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map_or(from, |best| best.1)
}
