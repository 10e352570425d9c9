//! How long a take is thought to run.

use std::fmt;
use std::str::FromStr;

use onestrand_film::{Fps, Frames};

/// A text that is no estimate.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("cannot read {found:?} as seconds, 0 to 86400, such as 7.5")]
pub struct SecondsError {
    /// The text as given.
    pub found: String,
}

/// Estimated seconds of a take, exact to a thousandth. Further decimals are cut off: a
/// third of a second out of another program's table then gives the frames that were meant.
///
/// Unit: seconds. Range: 0 to 86,400 (a day).
///
/// ```
/// # use onestrand_film::Fps;
/// # use onestrand_plan::Seconds;
/// let title: Seconds = "4.5".parse()?;
/// assert_eq!(title.frames_up(Fps::EIGHTEEN).count(), 81);
/// // 204 frames at 18, as another program writes them.
/// let long: Seconds = "11.333333333333334".parse()?;
/// assert_eq!(long.frames_up(Fps::EIGHTEEN).count(), 204);
/// assert!("a while".parse::<Seconds>().is_err());
/// # Ok::<(), onestrand_plan::SecondsError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Seconds {
    thousandths: u32,
}

const MOST_THOUSANDTHS: u32 = 86_400_000;

impl Seconds {
    /// No time at all.
    pub const ZERO: Self = Self { thousandths: 0 };
    /// One second.
    pub const ONE: Self = Self { thousandths: 1000 };

    /// Whole seconds.
    ///
    /// # Errors
    /// [`SecondsError`] above 86,400.
    pub fn whole(seconds: u32) -> Result<Self, SecondsError> {
        let thousandths = seconds.checked_mul(1000).filter(|t| *t <= MOST_THOUSANDTHS);
        let found = seconds.to_string();
        thousandths
            .map(|thousandths| Self { thousandths })
            .ok_or(SecondsError { found })
    }

    /// The frames that pass in that time, rounded up: a begun frame is a frame.
    ///
    /// Source: the settled rule of the plan, frames = ⌈seconds · speed⌉.
    #[must_use]
    pub fn frames_up(self, speed: Fps) -> Frames {
        let parts = u64::from(self.thousandths) * u64::from(speed.num());
        let frames = parts.div_ceil(1000 * u64::from(speed.den()));
        // A day at 1,000 frames a second lies within the range of frames.
        Frames::new(u32::try_from(frames).unwrap_or(u32::MAX)).unwrap_or(Frames::MAX)
    }
}

impl fmt::Display for Seconds {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (whole, part) = (self.thousandths / 1000, self.thousandths % 1000);
        if part == 0 {
            return write!(f, "{whole}");
        }
        let part = format!("{part:03}");
        write!(f, "{whole}.{}", part.trim_end_matches('0'))
    }
}

impl FromStr for Seconds {
    type Err = SecondsError;
    fn from_str(text: &str) -> Result<Self, SecondsError> {
        let bad = || SecondsError {
            found: text.to_owned(),
        };
        let plain = text.trim();
        let (whole, part) = plain.split_once('.').unwrap_or((plain, "0"));
        let digits = |t: &str| !t.is_empty() && t.bytes().all(|b| b.is_ascii_digit());
        if !digits(whole) || !digits(part) {
            return Err(bad());
        }
        let whole: u32 = whole.parse().map_err(|_| bad())?;
        let part: u32 = format!("{part:0<3}")[..3].parse().map_err(|_| bad())?;
        let thousandths = whole.checked_mul(1000).and_then(|t| t.checked_add(part));
        thousandths
            .filter(|t| *t <= MOST_THOUSANDTHS)
            .map(|thousandths| Self { thousandths })
            .ok_or_else(bad)
    }
}
