//! Counted film frames: a length, a place, and a signed difference.

use std::fmt;
use std::str::FromStr;

use crate::UnitError;

/// The largest frame count and frame number.
///
/// 100 million frames of 16 mm are 475 miles of film: no shelf holds more, and
/// every product used here stays far inside 128 bits.
const MAX: u32 = 100_000_000;

/// A number of film frames: a length.
///
/// Unit: frames. Range: 0 to 100,000,000.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Frames(u32);

/// The place of a frame on a roll or in a cut, counted from 0.
///
/// Unit: frames from the head. Range: 0 to 100,000,000.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct FramePos(u32);

/// A signed difference of places or lengths.
///
/// Unit: frames. Range: −100,000,000 to 100,000,000.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct FrameDelta(i32);

fn checked(what: &'static str, value: i64) -> Result<u32, UnitError> {
    u32::try_from(value)
        .ok()
        .filter(|v| *v <= MAX)
        .ok_or_else(|| UnitError::out_of_range(what, value, 0, MAX))
}

fn read(what: &'static str, text: &str, example: &'static str) -> Result<i64, UnitError> {
    // "3,600" is how people and the sheets write it.
    let plain: String = text.trim().chars().filter(|c| *c != ',').collect();
    plain
        .parse()
        .map_err(|_| UnitError::unreadable(what, text, example))
}

impl Frames {
    /// No frames.
    pub const ZERO: Self = Self(0);
    /// The most frames that can be counted.
    pub const MAX: Self = Self(MAX);

    /// A count of frames.
    ///
    /// # Errors
    /// [`UnitError::OutOfRange`] above [`Frames::MAX`].
    pub fn new(count: u32) -> Result<Self, UnitError> {
        checked("a number of frames", i64::from(count)).map(Self)
    }

    /// The count as a plain number.
    #[must_use]
    pub const fn count(self) -> u32 {
        self.0
    }

    /// The sum, or nothing beyond [`Frames::MAX`].
    #[must_use]
    pub fn checked_add(self, other: Self) -> Option<Self> {
        self.0.checked_add(other.0).filter(|v| *v <= MAX).map(Self)
    }

    /// The difference, not below zero.
    #[must_use]
    pub const fn saturating_sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }

    /// The sum of many, stopping at [`Frames::MAX`].
    #[must_use]
    pub fn total(all: impl IntoIterator<Item = Self>) -> Self {
        let sum: u64 = all.into_iter().map(|f| u64::from(f.0)).sum();
        Self(u32::try_from(sum.min(u64::from(MAX))).unwrap_or(MAX))
    }
}

impl FramePos {
    /// The first frame.
    pub const ZERO: Self = Self(0);
    /// The last place that can be named.
    pub const MAX: Self = Self(MAX);

    /// A place counted from the head.
    ///
    /// # Errors
    /// [`UnitError::OutOfRange`] above [`FramePos::MAX`].
    pub fn new(index: u32) -> Result<Self, UnitError> {
        checked("a frame number", i64::from(index)).map(Self)
    }

    /// The place as a plain number, counted from 0.
    #[must_use]
    pub const fn index(self) -> u32 {
        self.0
    }

    /// The place some frames further on.
    ///
    /// # Errors
    /// [`UnitError::OutOfRange`] beyond [`FramePos::MAX`].
    pub fn plus(self, length: Frames) -> Result<Self, UnitError> {
        checked("a frame number", i64::from(self.0) + i64::from(length.0)).map(Self)
    }

    /// The place moved by a signed number of frames.
    ///
    /// # Errors
    /// [`UnitError::OutOfRange`] before frame 0 or beyond [`FramePos::MAX`].
    pub fn moved(self, by: FrameDelta) -> Result<Self, UnitError> {
        checked("a frame number", i64::from(self.0) + i64::from(by.0)).map(Self)
    }

    /// How far this place lies after another.
    #[must_use]
    pub fn since(self, other: Self) -> FrameDelta {
        let delta = i64::from(self.0) - i64::from(other.0);
        FrameDelta(i32::try_from(delta).unwrap_or(0))
    }
}

impl FrameDelta {
    /// A signed number of frames.
    ///
    /// # Errors
    /// [`UnitError::OutOfRange`] beyond ±100,000,000.
    pub fn new(frames: i32) -> Result<Self, UnitError> {
        if frames.unsigned_abs() > MAX {
            let (min, max) = (-i64::from(MAX), MAX);
            return Err(UnitError::out_of_range("a shift", frames, min, max));
        }
        Ok(Self(frames))
    }

    /// The shift as a plain signed number.
    #[must_use]
    pub const fn frames(self) -> i32 {
        self.0
    }
}

macro_rules! text_form {
    ($type:ty, $what:literal, $example:literal) => {
        impl fmt::Display for $type {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                self.0.fmt(f)
            }
        }
        impl FromStr for $type {
            type Err = UnitError;
            fn from_str(text: &str) -> Result<Self, UnitError> {
                checked($what, read($what, text, $example)?).map(Self)
            }
        }
    };
}
text_form!(Frames, "a number of frames", "2724");
text_form!(FramePos, "a frame number", "547");

impl fmt::Display for FrameDelta {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:+}", self.0)
    }
}

impl FromStr for FrameDelta {
    type Err = UnitError;
    fn from_str(text: &str) -> Result<Self, UnitError> {
        let value = read("a shift", text, "+3")?;
        i32::try_from(value)
            .map_err(|_| UnitError::out_of_range("a shift", value, -i64::from(MAX), MAX))
            .and_then(Self::new)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_stop_at_their_bounds() {
        assert!(Frames::new(MAX).is_ok());
        assert!(Frames::new(MAX + 1).is_err());
        assert_eq!(Frames::MAX.checked_add(Frames(1)), None);
        assert!(FramePos(3).moved(FrameDelta(-4)).is_err());
        assert_eq!("-4".parse::<FrameDelta>(), Ok(FrameDelta(-4)));
        assert!("-4".parse::<Frames>().is_err());
        assert_eq!("3,600".parse::<Frames>(), Ok(Frames(3600)));
    }
}
