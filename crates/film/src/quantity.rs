//! A length as a person writes it: feet, frames, clock time or metres.

use std::str::FromStr;

use crate::{FeetFrames, Fps, Frames, Gauge, RunningTime, Shrinkage, UnitError};
use num_rational::Ratio;

/// A decimal text as an exact fraction; no sign, no exponent.
pub(crate) fn decimal(text: &str) -> Option<(u64, u64)> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let digits = |s: &str| s.chars().all(|c| c.is_ascii_digit());
    if whole.is_empty() && part.is_empty() || !digits(whole) || !digits(part) || part.len() > 9 {
        return None;
    }
    let whole: u64 = if whole.is_empty() {
        0
    } else {
        whole.parse().ok()?
    };
    let den = 10_u64.pow(u32::try_from(part.len()).ok()?);
    let part: u64 = if part.is_empty() {
        0
    } else {
        part.parse().ok()?
    };
    Some((whole.checked_mul(den)?.checked_add(part)?, den))
}

/// A length of film in whatever unit it was written.
///
/// Written forms: `50ft`, `37ft60`, `12+34` (feet and frames), `2724fr`,
/// `2:31.3` and `1:30:00` (clock), `15.24m`.
///
/// ```
/// # use onestrand_film::{Fps, Frames, Gauge, Quantity, Shrinkage};
/// let q: Quantity = "15.24m".parse()?;
/// let n = q.frames(Gauge::Super8, Fps::EIGHTEEN, Shrinkage::NONE)?;
/// assert_eq!(n, Frames::new(3600)?);
/// assert!("three feet".parse::<Quantity>().is_err());
/// # Ok::<(), onestrand_film::UnitError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Quantity {
    /// Frames, counted.
    Counted(Frames),
    /// Feet, and frames on top.
    Footage(FeetFrames),
    /// Feet as a decimal, in thousand-millionths of a foot at the finest.
    DecimalFeet {
        /// Upper term.
        num: u64,
        /// Lower term.
        den: u64,
    },
    /// A time on the screen.
    Clock(RunningTime),
    /// Metres of film, as measured.
    Metres {
        /// Upper term.
        num: u64,
        /// Lower term.
        den: u64,
    },
}

impl Quantity {
    /// The nearest whole number of frames.
    ///
    /// Metres and decimal feet are lengths on a ruler and take the shrinkage
    /// into account; feet and frames, frames and clock are counts and do not.
    ///
    /// # Errors
    /// [`UnitError::OutOfRange`] for more than [`Frames::MAX`].
    pub fn frames(self, gauge: Gauge, fps: Fps, shrinkage: Shrinkage) -> Result<Frames, UnitError> {
        let per_foot = Ratio::from_integer(i128::from(gauge.spec().frames_per_foot));
        let exact = match self {
            Self::Counted(frames) => return Ok(frames),
            Self::Footage(footage) => return gauge.frames_from_footage(footage),
            Self::Clock(time) => time.frames_exact(fps),
            Self::DecimalFeet { num, den } => fraction(num, den) * per_foot / shrinkage.left(),
            // One foot is 0.3048 m exactly (international yard and pound, 1959).
            Self::Metres { num, den } => {
                fraction(num, den) * Ratio::new(10_000, 3_048) * per_foot / shrinkage.left()
            }
        };
        let nearest = (exact + Ratio::new(1, 2)).floor().to_integer();
        u32::try_from(nearest)
            .map_err(|_| UnitError::out_of_range("a length", nearest, 0, Frames::MAX))
            .and_then(Frames::new)
    }
}

fn fraction(num: u64, den: u64) -> Ratio<i128> {
    Ratio::new(i128::from(num), i128::from(den))
}

impl FromStr for Quantity {
    type Err = UnitError;

    fn from_str(text: &str) -> Result<Self, UnitError> {
        let bad = || {
            UnitError::unreadable(
                "a length of film",
                text,
                "50ft, 37ft60, 2724fr, 2:31.3 or 15.24m",
            )
        };
        let plain = text.trim();
        if plain.contains(':') {
            return plain.parse().map(Self::Clock);
        }
        if let Some(count) = plain.strip_suffix("fr").filter(|t| !t.contains("ft")) {
            return count.trim().parse().map(Self::Counted).map_err(|_| bad());
        }
        if let Some(metres) = plain.strip_suffix('m') {
            let (num, den) = decimal(metres.trim()).ok_or_else(bad)?;
            return Ok(Self::Metres { num, den });
        }
        if let Some(feet) = plain.strip_suffix("ft").filter(|t| t.contains('.')) {
            let (num, den) = decimal(feet.trim()).ok_or_else(bad)?;
            return Ok(Self::DecimalFeet { num, den });
        }
        if plain.contains("ft") || plain.contains('+') {
            return plain.parse().map(Self::Footage).map_err(|_| bad());
        }
        Err(bad())
    }
}
