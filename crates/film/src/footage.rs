//! Feet and frames: the working measure of film.

use std::fmt;
use std::str::FromStr;

use crate::{FramePos, Frames, Gauge, UnitError};

/// Feet and frames as written on a sheet; a length only together with a gauge.
///
/// Unit: feet, and frames beyond them. Range: each 0 to 100,000,000. The
/// frames may exceed a foot when a person wrote it so (`0+100`); what
/// [`Gauge::footage`] makes never does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct FeetFrames {
    feet: u32,
    frames: u32,
}

impl FeetFrames {
    /// So many feet and so many frames more.
    #[must_use]
    pub const fn new(feet: u32, frames: u32) -> Self {
        Self { feet, frames }
    }

    /// Whole feet.
    #[must_use]
    pub const fn feet(self) -> u32 {
        self.feet
    }

    /// Frames beyond the whole feet.
    #[must_use]
    pub const fn frames(self) -> u32 {
        self.frames
    }
}

impl Gauge {
    /// A count of frames as feet and frames of this gauge.
    #[must_use]
    pub fn footage(self, frames: Frames) -> FeetFrames {
        let per_foot = self.spec().frames_per_foot;
        FeetFrames::new(frames.count() / per_foot, frames.count() % per_foot)
    }

    /// The frames in so many feet and frames of this gauge.
    ///
    /// # Errors
    /// [`UnitError::OutOfRange`] above [`Frames::MAX`].
    pub fn frames_from_footage(self, footage: FeetFrames) -> Result<Frames, UnitError> {
        let per_foot = u64::from(self.spec().frames_per_foot);
        let sum = u64::from(footage.feet) * per_foot + u64::from(footage.frames);
        u32::try_from(sum)
            .map_err(|_| UnitError::out_of_range("a footage", footage, 0, Frames::MAX))
            .and_then(Frames::new)
    }
}

impl fmt::Display for FeetFrames {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}ft{}", self.feet, self.frames)
    }
}

impl FromStr for FeetFrames {
    type Err = UnitError;

    /// Reads `50ft`, `37ft60`, `37ft60fr`, `12+34`.
    ///
    /// # Errors
    /// [`UnitError::Unreadable`].
    fn from_str(text: &str) -> Result<Self, UnitError> {
        let bad = || UnitError::unreadable("feet and frames", text, "37ft60 or 12+34");
        let number = |t: &str| t.trim().replace(',', "").parse::<u32>().ok();
        let plain = text.trim();
        let (feet, frames) = plain
            .split_once("ft")
            .or_else(|| plain.split_once('+'))
            .ok_or_else(bad)?;
        let frames = frames.trim().strip_suffix("fr").unwrap_or(frames);
        let feet = number(feet).ok_or_else(bad)?;
        let frames = match frames.trim() {
            "" if plain.contains("ft") => 0,
            some => number(some).ok_or_else(bad)?,
        };
        Ok(Self { feet, frames })
    }
}

/// A place written as a frame number (`547`) or as feet and frames (`7+43`).
///
/// # Errors
/// [`UnitError::Unreadable`] when it is neither, [`UnitError::OutOfRange`]
/// beyond [`FramePos::MAX`].
pub fn parse_position(text: &str, gauge: Gauge) -> Result<FramePos, UnitError> {
    if text.contains('+') || text.contains("ft") {
        let frames = gauge.frames_from_footage(text.parse()?)?;
        return FramePos::new(frames.count());
    }
    text.parse()
}
