//! Lengths of film on a ruler, with shrinkage.

use std::fmt;
use std::str::FromStr;

use num_rational::Ratio;

use crate::{Frames, Gauge, UnitError};

/// How much shorter than new the film has become.
///
/// Unit: a fraction of the new length, kept exactly. Range: 0 to 5 %: beyond
/// that no film runs on a sprocket, and a slip of the decimal point is likelier.
///
/// ```
/// # use onestrand_film::{Gauge, Shrinkage};
/// // 100 frames of regular 8 measure 377.6 mm instead of 381.0.
/// let s = Shrinkage::from_hundred_frames(Gauge::Regular8, "377.6")?;
/// assert_eq!(s.to_string(), "0.89");
/// assert!("7".parse::<Shrinkage>().is_err());
/// # Ok::<(), onestrand_film::UnitError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Shrinkage(Ratio<i64>);

impl Shrinkage {
    /// Film as long as new, or not measured.
    pub const NONE: Self = Self(Ratio::new_raw(0, 1));

    /// Shrinkage as `num`/`den` per cent.
    ///
    /// # Errors
    /// [`UnitError::OutOfRange`] outside 0 to 5 %.
    fn from_percent(percent: Ratio<i64>) -> Result<Self, UnitError> {
        if percent < Ratio::from_integer(0) || percent > Ratio::from_integer(5) {
            return Err(UnitError::out_of_range(
                "a shrinkage in per cent",
                percent,
                0,
                5,
            ));
        }
        Ok(Self(percent / 100))
    }

    /// Shrinkage from the measured length of a hundred frames.
    ///
    /// Source: S = (L₀ − L)/L₀ with L₀ = 100 pitches (common practice; the
    /// hundred-pitch dimension is L in SMPTE 149-2004 for Super 8).
    ///
    /// # Errors
    /// [`UnitError::Unreadable`] for a text that is no millimetres,
    /// [`UnitError::OutOfRange`] when the film would be longer than new or
    /// shrunk beyond 5 %.
    pub fn from_hundred_frames(gauge: Gauge, millimetres: &str) -> Result<Self, UnitError> {
        let bad = || UnitError::unreadable("a length in mm", millimetres, "377.6");
        let (num, den) = crate::quantity::decimal(millimetres.trim()).ok_or_else(bad)?;
        let num = i64::try_from(num).map_err(|_| bad())?;
        let den = i64::try_from(den).map_err(|_| bad())?;
        let new_mm = Ratio::new(i64::from(gauge.spec().pitch_um), 10);
        Self::from_percent((new_mm - Ratio::new(num, den)) / new_mm * 100)
    }

    /// What is left of a new length: 1 − s.
    pub(crate) fn left(self) -> Ratio<i128> {
        let part = Ratio::new(i128::from(*self.0.numer()), i128::from(*self.0.denom()));
        Ratio::from_integer(1) - part
    }

    /// Whether any shrinkage was measured.
    #[must_use]
    pub fn is_none(self) -> bool {
        self == Self::NONE
    }
}

impl fmt::Display for Shrinkage {
    /// Per cent, to two decimals.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let hundredths = (self.0 * 10_000 + Ratio::new(1, 2)).floor().to_integer();
        write!(f, "{}.{:02}", hundredths / 100, hundredths % 100)
    }
}

impl FromStr for Shrinkage {
    type Err = UnitError;

    /// Reads per cent: `0.89` or `0.89%`.
    ///
    /// # Errors
    /// [`UnitError::Unreadable`] or [`UnitError::OutOfRange`].
    fn from_str(text: &str) -> Result<Self, UnitError> {
        let bad = || UnitError::unreadable("a shrinkage in per cent", text, "0.89");
        let plain = text.trim().trim_end_matches('%').trim();
        let (num, den) = crate::quantity::decimal(plain).ok_or_else(bad)?;
        let num = i64::try_from(num).map_err(|_| bad())?;
        let den = i64::try_from(den).map_err(|_| bad())?;
        Self::from_percent(Ratio::new(num, den))
    }
}

/// A length on a ruler, exact.
///
/// Unit: millimetres inside. Range: not negative.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Length(Ratio<i128>);

impl Length {
    /// The length by the trade's feet: frames ÷ frames a foot × 304.8 mm.
    ///
    /// This is what a footage counter and a published running-time table give.
    /// It differs from [`Length::by_pitch`] by 0.016 % on Super 8 and by 1 % on
    /// 9.5 mm, whose foot is counted at 40 frames by custom.
    #[must_use]
    pub fn by_feet(frames: Frames, gauge: Gauge, shrinkage: Shrinkage) -> Self {
        let per_foot = i128::from(gauge.spec().frames_per_foot);
        let new = Ratio::new(i128::from(frames.count()) * 3_048, per_foot * 10);
        Self(new * shrinkage.left())
    }

    /// The length by the pitch of the perforations: n · p · (1 − s).
    ///
    /// This is what a ruler laid along the film gives; bench sheets use it.
    #[must_use]
    pub fn by_pitch(frames: Frames, gauge: Gauge, shrinkage: Shrinkage) -> Self {
        let um = i128::from(frames.count()) * i128::from(gauge.spec().pitch_um);
        Self(Ratio::new(um, 1000) * shrinkage.left())
    }

    /// Millimetres as text with so many decimals, rounded half up.
    #[must_use]
    pub fn mm_text(self, decimals: u32) -> String {
        fixed(self.0, decimals)
    }

    /// Metres as text with so many decimals, rounded half up.
    #[must_use]
    pub fn metres_text(self, decimals: u32) -> String {
        fixed(self.0 / 1000, decimals)
    }

    /// Feet as text with so many decimals, rounded half up.
    #[must_use]
    pub fn feet_text(self, decimals: u32) -> String {
        fixed(self.0 * 10 / 3_048, decimals)
    }

    /// Millimetres as a decimal, for circles and display.
    #[must_use]
    pub fn as_mm_f64(self) -> f64 {
        *self.0.numer() as f64 / *self.0.denom() as f64
    }
}

fn fixed(value: Ratio<i128>, decimals: u32) -> String {
    let scale = 10_i128.pow(decimals);
    let units = (value * scale + Ratio::new(1, 2)).floor().to_integer();
    let (whole, part) = (units / scale, units % scale);
    if decimals == 0 {
        return whole.to_string();
    }
    format!("{whole}.{part:0width$}", width = decimals as usize)
}
