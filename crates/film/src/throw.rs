//! The hall: how far the projector stands, how large the picture is, how high
//! letters must be.
//!
//! Floats are right here: a lens and a tape measure are known to two figures.

use crate::{Aperture, UnitError};

/// How large letters must appear to be read with ease. Unit: minutes of arc.
/// Source: h ≥ 2 d tan 10′, an editable figure of the trade; pamphlets on
/// legibility go as low as 1/50 of the picture's height at 8 heights, 8.6′.
pub const LETTER_ARC_MINUTES: f64 = 20.0;

/// What stands on a tape measure in a hall.
///
/// Unit: millimetres. Range: 10 mm to 200 m.
///
/// ```
/// # use onestrand_film::HallLength;
/// assert_eq!("1.2m".parse::<HallLength>()?.mm(), 1_200.0);
/// assert_eq!("120 cm".parse::<HallLength>()?, "1200mm".parse()?);
/// assert!("12 paces".parse::<HallLength>().is_err());
/// # Ok::<(), onestrand_film::UnitError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct HallLength(f64);

impl HallLength {
    /// A length in millimetres.
    ///
    /// # Errors
    /// [`UnitError::OutOfRange`] outside 10 mm to 200 m.
    pub fn from_mm(mm: f64) -> Result<Self, UnitError> {
        if !(10.0..=200_000.0).contains(&mm) {
            return Err(UnitError::out_of_range(
                "a length in a hall in mm",
                mm,
                10,
                200_000,
            ));
        }
        Ok(Self(mm))
    }

    /// Unit: millimetres.
    #[must_use]
    pub const fn mm(self) -> f64 {
        self.0
    }
}

impl std::str::FromStr for HallLength {
    type Err = UnitError;

    /// Reads `1.2m`, `120cm`, `1200mm`; a comma may stand for the point.
    ///
    /// # Errors
    /// [`UnitError::Unreadable`] without a unit, [`UnitError::OutOfRange`].
    fn from_str(text: &str) -> Result<Self, UnitError> {
        let bad = || UnitError::unreadable("a length in a hall", text, "1.2m, 120cm or 1200mm");
        let plain = text.trim().replace(',', ".");
        let (number, mm) = plain
            .strip_suffix("mm")
            .map(|number| (number, 1.0))
            .or_else(|| plain.strip_suffix("cm").map(|number| (number, 10.0)))
            .or_else(|| plain.strip_suffix('m').map(|number| (number, 1000.0)))
            .ok_or_else(bad)?;
        let (num, den) = crate::quantity::decimal(number.trim()).ok_or_else(bad)?;
        Self::from_mm(num as f64 / den as f64 * mm)
    }
}

/// A lens before the shown part of the frame, and the picture it throws.
///
/// Unit: millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Throw {
    /// Focal length of the lens.
    pub lens_mm: f64,
    /// From the lens to the screen.
    pub distance_mm: f64,
    /// Across the picture.
    pub width_mm: f64,
    /// From foot to head of the picture.
    pub height_mm: f64,
}

fn width_of(shown: Aperture) -> f64 {
    f64::from(shown.width_um) / 1000.0
}

fn lens_fits(lens_mm: f64) -> Result<(), UnitError> {
    if (3.0..=300.0).contains(&lens_mm) {
        return Ok(());
    }
    Err(UnitError::out_of_range(
        "a focal length in mm",
        lens_mm,
        3,
        300,
    ))
}

impl Throw {
    fn of(
        shown: Aperture,
        lens_mm: f64,
        distance_mm: f64,
        width_mm: f64,
    ) -> Result<Self, UnitError> {
        HallLength::from_mm(distance_mm)?;
        HallLength::from_mm(width_mm)?;
        Ok(Self {
            lens_mm,
            distance_mm,
            width_mm,
            height_mm: f64::from(shown.height_um) * width_mm / f64::from(shown.width_um),
        })
    }

    /// How far the projector stands for a picture so wide: d = f (W/w + 1).
    ///
    /// # Errors
    /// [`UnitError::OutOfRange`] for a lens outside 3 to 300 mm or a hall longer
    /// than 200 m.
    ///
    /// ```
    /// # use onestrand_film::{Gauge, HallLength, Throw};
    /// let hall = Throw::for_width(Gauge::Super8.spec().shown, 20.0, "1.2m".parse()?)?;
    /// assert_eq!(format!("{:.2}", hall.distance_mm / 1000.0), "4.54");
    /// assert!(Throw::for_width(Gauge::Super8.spec().shown, 0.0, "1.2m".parse()?).is_err());
    /// # Ok::<(), onestrand_film::UnitError>(())
    /// ```
    pub fn for_width(shown: Aperture, lens_mm: f64, width: HallLength) -> Result<Self, UnitError> {
        lens_fits(lens_mm)?;
        let distance = lens_mm * (width.mm() / width_of(shown) + 1.0);
        Self::of(shown, lens_mm, distance, width.mm())
    }

    /// How wide the picture is at a distance: W = w (d/f − 1).
    ///
    /// # Errors
    /// [`UnitError::OutOfRange`] for a lens outside 3 to 300 mm, and where it would
    /// stand too near to throw a picture.
    pub fn at_distance(
        shown: Aperture,
        lens_mm: f64,
        distance: HallLength,
    ) -> Result<Self, UnitError> {
        lens_fits(lens_mm)?;
        let width = width_of(shown) * (distance.mm() / lens_mm - 1.0);
        Self::of(shown, lens_mm, distance.mm(), width)
    }

    /// The lens for a picture so wide at a distance: f = d/(W/w + 1).
    ///
    /// # Errors
    /// [`UnitError::OutOfRange`] where that would be no lens of 3 to 300 mm.
    pub fn lens_for(
        shown: Aperture,
        width: HallLength,
        distance: HallLength,
    ) -> Result<Self, UnitError> {
        let lens_mm = distance.mm() / (width.mm() / width_of(shown) + 1.0);
        lens_fits(lens_mm)?;
        Self::of(shown, lens_mm, distance.mm(), width.mm())
    }

    /// How many heights of the picture a seat is away.
    #[must_use]
    pub fn heights_away(&self, seat: HallLength) -> f64 {
        seat.mm() / self.height_mm
    }
}

/// How high letters must be on the screen for a seat: h = 2 d tan 10′. Unit:
/// millimetres.
///
/// ```
/// # use onestrand_film::letter_height;
/// assert_eq!(format!("{:.1}", letter_height("5m".parse()?)), "29.1");
/// # Ok::<(), onestrand_film::UnitError>(())
/// ```
#[must_use]
pub fn letter_height(seat: HallLength) -> f64 {
    2.0 * seat.mm() * (LETTER_ARC_MINUTES / 2.0 / 60.0).to_radians().tan()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Gauge;

    /// Check values, O054: w (throw/f − 1).
    #[test]
    fn widths_of_pictures_as_they_were_worked_out() {
        for (gauge, lens, metres, wide) in [
            (Gauge::Super8, 20.0, "4m", 1_057),
            (Gauge::Regular8, 20.0, "4m", 870),
            (Gauge::Sixteen, 50.0, "8m", 1_534),
        ] {
            let shown = gauge.spec().shown;
            let far = metres.parse().expect("a length");
            let there = Throw::at_distance(shown, lens, far).expect("a picture");
            assert_eq!(there.width_mm.round() as u32, wide, "{gauge}");
            let width = HallLength::from_mm(there.width_mm).expect("a width");
            let back = Throw::for_width(shown, lens, width).expect("a throw");
            assert!((back.distance_mm - far.mm()).abs() < 1e-6);
            let found = Throw::lens_for(shown, width, far).expect("a lens");
            assert!((found.lens_mm - lens).abs() < 1e-9);
        }
    }

    /// Check values, O074: 1/50 of the height at 8 heights is 8.6 minutes of arc,
    /// less than half of what is asked for here.
    #[test]
    fn letters_are_asked_larger_than_the_smallest_legible() {
        let seat = HallLength::from_mm(8_000.0).expect("a seat");
        let smallest: f64 = 1_000.0 / 50.0;
        let arc = 2.0 * (smallest / 2.0 / seat.mm()).atan().to_degrees() * 60.0;
        assert_eq!(format!("{arc:.1}"), "8.6");
        assert!(letter_height(seat) > 2.0 * smallest);
    }

    #[test]
    fn a_lens_too_near_throws_no_picture() {
        let near = HallLength::from_mm(15.0).expect("a length");
        assert!(Throw::at_distance(Gauge::Super8.spec().shown, 20.0, near).is_err());
        assert!("0.001m".parse::<HallLength>().is_err());
        assert!("-2m".parse::<HallLength>().is_err());
        assert!("2".parse::<HallLength>().is_err());
    }
}
