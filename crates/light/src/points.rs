//! Printer-light points: how much more or less light a shot is given.

use std::fmt;

use crate::LightError;

/// Exposure of one point, as log10. Source: the trade's printers, 50 steps of 0.025;
/// 12 points are 0.30, which is one stop (log10 2 = 0.301).
pub const LOG_EXPOSURE_PER_POINT: f64 = 0.025;

/// The most points either way: five stops. A printer has 50 steps in all; a digital
/// finish that needs more has the wrong scan.
pub const MOST_POINTS: i16 = 60;

/// Points of the three colours of light. More points make the picture lighter, as in a
/// print from reversal film.
///
/// Unit: points. Range: each from −60 to 60.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
pub struct Points([i16; 3]);

impl Points {
    /// No change.
    pub const NONE: Self = Self([0; 3]);

    /// Points of red, green and blue.
    ///
    /// # Errors
    /// [`LightError::OutOfRange`].
    ///
    /// # Examples
    /// ```
    /// use onestrand_light::Points;
    /// let stop = Points::new(12, 12, 12)?;
    /// assert!((stop.slopes()[0] - 1.995).abs() < 0.001);
    /// assert!(Points::new(61, 0, 0).is_err());
    /// # Ok::<(), onestrand_light::LightError>(())
    /// ```
    pub fn new(red: i16, green: i16, blue: i16) -> Result<Self, LightError> {
        let all = [red, green, blue];
        match all.iter().find(|points| points.abs() > MOST_POINTS) {
            None => Ok(Self(all)),
            Some(found) => Err(LightError::OutOfRange {
                what: "a number of points",
                given: f64::from(*found),
                least: f64::from(-MOST_POINTS),
                most: f64::from(MOST_POINTS),
            }),
        }
    }

    /// The nearest whole points of measured ones; ties go away from zero.
    ///
    /// # Errors
    /// [`LightError::OutOfRange`].
    pub fn nearest(measured: [f64; 3]) -> Result<Self, LightError> {
        let whole = |points: f64| {
            let limit = f64::from(MOST_POINTS);
            let rounded = points.round();
            if rounded.abs() <= limit {
                Ok(rounded as i16)
            } else {
                Err(LightError::OutOfRange {
                    what: "a number of points",
                    given: points,
                    least: -limit,
                    most: limit,
                })
            }
        };
        let [red, green, blue] = measured;
        Ok(Self([whole(red)?, whole(green)?, whole(blue)?]))
    }

    /// Red, green and blue.
    #[must_use]
    pub const fn rgb(self) -> [i16; 3] {
        self.0
    }

    /// Whether nothing is changed.
    #[must_use]
    pub fn is_none(self) -> bool {
        self == Self::NONE
    }

    /// What linear light is multiplied by: 10^(0.025 · points).
    #[must_use]
    pub fn slopes(self) -> [f64; 3] {
        self.0
            .map(|points| 10_f64.powf(LOG_EXPOSURE_PER_POINT * f64::from(points)))
    }
}

impl fmt::Display for Points {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [red, green, blue] = self.0;
        write!(f, "R {red:+} G {green:+} B {blue:+}")
    }
}

/// Points for a difference of log10 exposure: a shot darker by 0.128 wants 5.12 more.
///
/// Unit: log10 exposure in, points out.
#[must_use]
pub fn points_for(log_difference: f64) -> f64 {
    -log_difference / LOG_EXPOSURE_PER_POINT
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The worked case of story 12: a cap in two shots.
    #[test]
    fn a_cap_in_two_shots() {
        let measured = [-0.128, -0.124, -0.171].map(points_for);
        let points = Points::nearest(measured).expect("in range");
        assert_eq!(points.rgb(), [5, 5, 7]);
        for (slope, said) in points.slopes().into_iter().zip([1.334, 1.334, 1.496]) {
            assert!((slope - said).abs() < 0.0005, "{slope}");
        }
    }

    #[test]
    fn twelve_points_are_a_stop() {
        let slope = Points::new(12, 0, -12).expect("in range").slopes();
        assert!((slope[0].log10() - 0.30).abs() < 1e-12);
        assert!((slope[0] * slope[2] - 1.0).abs() < 1e-12);
        assert!((slope[0] - 2.0).abs() < 0.005, "{}", slope[0]);
    }

    #[test]
    fn what_cannot_be_given_is_refused() {
        assert!(Points::nearest([60.6, 0.0, 0.0]).is_err());
        assert!(Points::nearest([f64::NAN, 0.0, 0.0]).is_err());
        assert!(Points::new(0, -61, 0).is_err());
    }
}
