//! Film wound on a hub.
//!
//! Source of every formula: the area of the wound ring, L·h = π (D² − d²)/4.
//! Floats are right here: there is a circle in it, and the thickness of film
//! is known to two figures.

use std::f64::consts::PI;

use crate::{Frames, Gauge, Length, Shrinkage, UnitError};

/// What film is wound on, and how thick it is.
///
/// Unit: millimetres. Range: hub 5 to 400, thickness 0.01 to 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Winding {
    hub_mm: f64,
    thickness_mm: f64,
}

impl Winding {
    /// A hub of this diameter and film of this thickness.
    ///
    /// # Errors
    /// [`UnitError::OutOfRange`] outside the ranges above.
    pub fn new(hub_mm: f64, thickness_mm: f64) -> Result<Self, UnitError> {
        if !(5.0..=400.0).contains(&hub_mm) {
            return Err(UnitError::out_of_range("a hub in mm", hub_mm, 5, 400));
        }
        if !(0.01..=1.0).contains(&thickness_mm) {
            let what = "a film thickness in mm";
            return Err(UnitError::out_of_range(what, thickness_mm, 0.01, 1));
        }
        Ok(Self {
            hub_mm,
            thickness_mm,
        })
    }

    /// Diameter of the hub. Unit: millimetres.
    #[must_use]
    pub const fn hub_mm(self) -> f64 {
        self.hub_mm
    }

    /// Thickness of the film. Unit: millimetres.
    #[must_use]
    pub const fn thickness_mm(self) -> f64 {
        self.thickness_mm
    }
}

/// How far across the wound film is: D = √(d² + 4 L h/π). Unit: millimetres.
///
/// ```
/// # use onestrand_film::*;
/// let fifty_feet = Length::by_feet(Frames::new(3600)?, Gauge::Super8, Shrinkage::NONE);
/// let across = diameter(fifty_feet, Winding::new(32.0, 0.10)?);
/// assert_eq!(format!("{across:.2}"), "54.45");
/// assert!(Winding::new(32.0, 0.0).is_err());
/// # Ok::<(), UnitError>(())
/// ```
#[must_use]
pub fn diameter(length: Length, on: Winding) -> f64 {
    (on.hub_mm.powi(2) + 4.0 * length.as_mm_f64() * on.thickness_mm / PI).sqrt()
}

/// How many turns that takes: n = (D − d)/(2 h).
#[must_use]
pub fn turns(length: Length, on: Winding) -> f64 {
    (diameter(length, on) - on.hub_mm) / (2.0 * on.thickness_mm)
}

/// The length that fills a reel to `across`: L = π (D² − d²)/(4 h).
///
/// Unit: millimetres, both. Zero when the reel is no wider than its hub.
#[must_use]
pub fn capacity(across_mm: f64, on: Winding) -> f64 {
    (PI * (across_mm.powi(2) - on.hub_mm.powi(2)) / (4.0 * on.thickness_mm)).max(0.0)
}

/// The thickness that a known length on a reel implies: h = π (D² − d²)/(4 L).
///
/// Unit: millimetres. Nothing when the length is zero.
#[must_use]
pub fn thickness_from_capacity(across_mm: f64, hub_mm: f64, length: Length) -> Option<f64> {
    let mm = length.as_mm_f64();
    (mm > 0.0).then(|| PI * (across_mm.powi(2) - hub_mm.powi(2)) / (4.0 * mm))
}

/// The frames that film wound to `across` holds: its length by the area of the
/// ring over the pitch of the film as it is now, p · (1 − s), to the nearest.
///
/// Unit: millimetres. It is as good as the ruler and the thickness are: a
/// hundredth of a millimetre of thickness is a fifteenth of the length.
///
/// # Errors
/// [`UnitError::OutOfRange`] for more than [`Frames::MAX`].
///
/// ```
/// # use onestrand_film::*;
/// let fifty_feet = Length::by_pitch(Frames::new(3600)?, Gauge::Super8, Shrinkage::NONE);
/// let on = Winding::new(32.0, 0.145)?;
/// let across = diameter(fifty_feet, on);
/// assert_eq!(frames_wound(across, on, Gauge::Super8, Shrinkage::NONE)?.count(), 3600);
/// assert_eq!(frames_wound(32.0, on, Gauge::Super8, Shrinkage::NONE)?.count(), 0);
/// # Ok::<(), UnitError>(())
/// ```
pub fn frames_wound(
    across_mm: f64,
    on: Winding,
    gauge: Gauge,
    shrinkage: Shrinkage,
) -> Result<Frames, UnitError> {
    let frame = Length::by_pitch(Frames::new(1)?, gauge, shrinkage).as_mm_f64();
    let nearest = (capacity(across_mm, on) / frame).round();
    if nearest > f64::from(Frames::MAX.count()) {
        return Err(UnitError::out_of_range("a length", nearest, 0, Frames::MAX));
    }
    Frames::new(nearest as u32)
}
