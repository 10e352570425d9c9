//! A sound as the ear takes it: one channel of samples, and their rate.

use crate::HearingError;
use crate::tone::in_range;

/// What no sample exceeds.
const HIGHEST: f64 = 1_000.0;

/// One channel of sound that was looked over once: its rate makes sense and all
/// its samples are numbers.
///
/// Unit of the samples: 1 is full scale.
///
/// ```
/// use onestrand_hearing::Heard;
///
/// assert_eq!(Heard::new(&[0.0; 480], 48_000)?.seconds(), 0.01);
/// assert!(Heard::new(&[f32::NAN], 48_000).is_err());
/// # Ok::<(), onestrand_hearing::HearingError>(())
/// ```
#[derive(Debug, Clone, Copy)]
pub struct Heard<'a> {
    samples: &'a [f32],
    rate: u32,
}

impl<'a> Heard<'a> {
    /// Looks a sound over.
    ///
    /// Unit of `rate`: samples a second. Range: 4,000 to 768,000.
    ///
    /// # Errors
    /// [`HearingError::Rate`], [`HearingError::NoNumber`] for an infinite sample or
    /// one that is no number, [`HearingError::OutOfRange`] for one beyond ±1,000,
    /// 60 dB above full scale, which no sound is.
    pub fn new(samples: &'a [f32], rate: u32) -> Result<Self, HearingError> {
        if !(4_000..=768_000).contains(&rate) {
            return Err(HearingError::Rate { rate });
        }
        if let Some(at) = samples.iter().position(|sample| !sample.is_finite()) {
            return Err(HearingError::NoNumber { at });
        }
        let highest = samples
            .iter()
            .fold(0.0_f32, |high, sample| high.max(sample.abs()));
        in_range("the highest sample", f64::from(highest), 0.0, HIGHEST)?;
        Ok(Self { samples, rate })
    }

    /// The samples.
    #[must_use]
    pub fn samples(self) -> &'a [f32] {
        self.samples
    }

    /// Samples a second.
    #[must_use]
    pub fn rate(self) -> f64 {
        f64::from(self.rate)
    }

    /// How long it is. Unit: seconds.
    #[must_use]
    pub fn seconds(self) -> f64 {
        self.samples.len() as f64 / self.rate()
    }

    /// Refuses what is shorter than `needed` seconds, and silence.
    pub(crate) fn long_enough(self, needed: f64) -> Result<Self, HearingError> {
        let seconds = self.seconds();
        if seconds < needed {
            return Err(HearingError::TooShort { seconds, needed });
        }
        if self.samples.iter().all(|sample| sample.abs() < 1e-9) {
            return Err(HearingError::Silent);
        }
        Ok(self)
    }

    /// A time as the next sample before it, inside the sound.
    pub(crate) fn sample_at(self, seconds: f64) -> usize {
        let at = (seconds * self.rate()).max(0.0) as usize;
        at.min(self.samples.len())
    }
}
