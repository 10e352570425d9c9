//! Speed in frames a second, always an exact fraction.

use std::fmt;
use std::str::FromStr;

use crate::UnitError;

/// A speed in frames a second, kept as a fraction in lowest terms.
///
/// Unit: frames a second. Range: 1/1000 to 1000; numerator and denominator at
/// most 10,000,000, so that every sample and frame sum stays inside 128 bits.
///
/// ```
/// # use onestrand_film::Fps;
/// let fps: Fps = "24000/1001".parse()?;
/// assert_eq!(fps.to_string(), "24000/1001");
/// assert_eq!("18.5".parse::<Fps>()?.to_string(), "37/2");
/// assert!("0".parse::<Fps>().is_err());
/// # Ok::<(), onestrand_film::UnitError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Fps {
    num: u32,
    den: u32,
}

const TERM_MAX: u64 = 10_000_000;
const WHAT: &str = "a speed in frames a second";

fn gcd(a: u64, b: u64) -> u64 {
    if b == 0 { a } else { gcd(b, a % b) }
}

impl Fps {
    /// 18 frames a second: the silent projection speed preferred by ISO 26:1993.
    pub const EIGHTEEN: Self = Self { num: 18, den: 1 };
    /// 24 frames a second: the sound projection speed of ISO 26:1993.
    pub const TWENTY_FOUR: Self = Self { num: 24, den: 1 };

    /// A speed of `num`/`den` frames a second.
    ///
    /// # Errors
    /// [`UnitError::OutOfRange`] for a zero term, terms above 10,000,000 in
    /// lowest terms, or a speed outside 1/1000 to 1000.
    pub fn new(num: u64, den: u64) -> Result<Self, UnitError> {
        let refuse = || UnitError::out_of_range(WHAT, format!("{num}/{den}"), "1/1000", 1000);
        if num == 0 || den == 0 {
            return Err(refuse());
        }
        let divisor = gcd(num, den);
        let (n, d) = (num / divisor, den / divisor);
        let sane = n <= TERM_MAX && d <= TERM_MAX && n <= d * 1000 && d <= n * 1000;
        match (sane, u32::try_from(n), u32::try_from(d)) {
            (true, Ok(num), Ok(den)) => Ok(Self { num, den }),
            _ => Err(refuse()),
        }
    }

    /// The upper term of the fraction.
    #[must_use]
    pub const fn num(self) -> u32 {
        self.num
    }

    /// The lower term of the fraction.
    #[must_use]
    pub const fn den(self) -> u32 {
        self.den
    }

    /// The speed as a decimal, for display and analysis only.
    #[must_use]
    pub fn as_f64(self) -> f64 {
        f64::from(self.num) / f64::from(self.den)
    }
}

impl PartialOrd for Fps {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Fps {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        let left = u64::from(self.num) * u64::from(other.den);
        let right = u64::from(other.num) * u64::from(self.den);
        left.cmp(&right)
    }
}

impl fmt::Display for Fps {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.den == 1 {
            write!(f, "{}", self.num)
        } else {
            write!(f, "{}/{}", self.num, self.den)
        }
    }
}

impl FromStr for Fps {
    type Err = UnitError;

    /// Reads `18`, `50/3`, `24000/1001` and decimals such as `18.36`.
    ///
    /// # Errors
    /// [`UnitError::Unreadable`] or [`UnitError::OutOfRange`].
    fn from_str(text: &str) -> Result<Self, UnitError> {
        let bad = || UnitError::unreadable(WHAT, text, "18 or 50/3 or 24000/1001");
        let trimmed = text.trim();
        if let Some((num, den)) = trimmed.split_once('/') {
            let num = num.trim().parse().map_err(|_| bad())?;
            let den = den.trim().parse().map_err(|_| bad())?;
            return Self::new(num, den);
        }
        let (num, den) = crate::quantity::decimal(trimmed).ok_or_else(bad)?;
        Self::new(num, den)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn odd_texts_are_refused() {
        for text in [
            "", "x", "18/", "/3", "-18", "0", "18/0", "1e3", "1001/1", "nan",
        ] {
            assert!(text.parse::<Fps>().is_err(), "{text}");
        }
    }

    proptest! {
        #[test]
        fn text_round_trips(num in 1_u64..100_000, den in 1_u64..2_000) {
            if let Ok(fps) = Fps::new(num, den) {
                prop_assert_eq!(fps.to_string().parse::<Fps>().expect("own text"), fps);
            }
        }
    }
}
