//! Time on the screen, exact.

use std::fmt;
use std::str::FromStr;

use num_rational::Ratio;

use crate::{Fps, Frames, UnitError};

/// How long a length of film runs; an exact fraction of a second.
///
/// Unit: seconds. Range: 0 to 10¹² (100 million frames at 1/1000 f/s fit).
///
/// Printed as `m:ss.s`, rounded half up to a tenth; minutes are not carried
/// into hours, since reels are compared in minutes. Reading a printed time
/// back gives the printed value, so printing again gives the same text.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct RunningTime(Ratio<i128>);

impl RunningTime {
    /// The time that `frames` run at `fps`.
    #[must_use]
    pub fn of(frames: Frames, fps: Fps) -> Self {
        let num = i128::from(frames.count()) * i128::from(fps.den());
        Self(Ratio::new(num, i128::from(fps.num())))
    }

    /// Upper term of the seconds, in lowest terms.
    #[must_use]
    pub fn num(self) -> i64 {
        i64::try_from(*self.0.numer()).unwrap_or(i64::MAX)
    }

    /// Lower term of the seconds, in lowest terms.
    #[must_use]
    pub fn den(self) -> i64 {
        i64::try_from(*self.0.denom()).unwrap_or(i64::MAX)
    }

    /// Seconds as a decimal, for display only.
    #[must_use]
    pub fn as_seconds_f64(self) -> f64 {
        self.num() as f64 / self.den() as f64
    }

    /// The nearest whole number of frames in this time at `fps`, half up.
    ///
    /// # Errors
    /// [`UnitError::OutOfRange`] above [`Frames::MAX`].
    pub fn frames_nearest(self, fps: Fps) -> Result<Frames, UnitError> {
        let nearest = (self.frames_exact(fps) + Ratio::new(1, 2))
            .floor()
            .to_integer();
        u32::try_from(nearest)
            .map_err(|_| UnitError::out_of_range("a running time", nearest, 0, Frames::MAX))
            .and_then(Frames::new)
    }

    pub(crate) fn frames_exact(self, fps: Fps) -> Ratio<i128> {
        self.0 * Ratio::new(i128::from(fps.num()), i128::from(fps.den()))
    }
}

impl fmt::Display for RunningTime {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let tenths = (self.0 * 10 + Ratio::new(1, 2)).floor().to_integer();
        let (minutes, rest) = (tenths / 600, tenths % 600);
        write!(f, "{minutes}:{:02}.{}", rest / 10, rest % 10)
    }
}

impl FromStr for RunningTime {
    type Err = UnitError;

    /// Reads `2:31.3`, `90:00`, `1:30:00`.
    ///
    /// # Errors
    /// [`UnitError::Unreadable`]; seconds and, with hours, minutes must lie
    /// below 60.
    fn from_str(text: &str) -> Result<Self, UnitError> {
        let bad = || UnitError::unreadable("a running time", text, "2:31.3 or 1:30:00");
        let parts: Vec<&str> = text.trim().split(':').collect();
        let (hours, minutes, seconds) = match parts.as_slice() {
            [m, s] => ("0", *m, *s),
            [h, m, s] => (*h, *m, *s),
            _ => return Err(bad()),
        };
        let (num, den) = crate::quantity::decimal(seconds).ok_or_else(bad)?;
        let hours: u32 = hours.parse().map_err(|_| bad())?;
        let minutes: u32 = minutes.parse().map_err(|_| bad())?;
        if num >= den * 60 || (parts.len() == 3 && minutes >= 60) || hours > 1_000_000 {
            return Err(bad());
        }
        let whole = i128::from(hours) * 3600 + i128::from(minutes) * 60;
        Ok(Self(
            Ratio::from_integer(whole) + Ratio::new(i128::from(num), i128::from(den)),
        ))
    }
}
