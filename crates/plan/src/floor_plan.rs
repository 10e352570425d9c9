//! What a camera on a floor plan sees.

use onestrand_film::Gauge;

use crate::camera::angle;

/// How wide a lens sees, focused far away.
///
/// `lens_tenths` is its focal length in tenths of a millimetre. Unit of the answer:
/// degrees, 0 where no lens is said.
///
/// Source: 2·atan(w / 2f), w the width of the camera's gate from the gauge table.
#[must_use]
pub fn field_angle(gauge: Gauge, lens_tenths: u32) -> f64 {
    if lens_tenths == 0 {
        return 0.0;
    }
    let width = f64::from(gauge.spec().camera.width_um) / 1_000.0;
    angle(width, f64::from(lens_tenths) / 10.0)
}

/// Whether a camera stands on the other side of the line of action than the first one.
/// On the line itself it stands on neither side, and crosses nothing.
///
/// ```
/// # use onestrand_plan::over_the_line;
/// let line = [[0, 0], [100, 0]];
/// assert!(over_the_line(line, [50, 40], [20, -10]));
/// assert!(!over_the_line(line, [50, 40], [20, 10]));
/// assert!(!over_the_line(line, [50, 40], [20, 0]));
/// ```
#[must_use]
pub fn over_the_line(line: [[i32; 2]; 2], first: [i32; 2], camera: [i32; 2]) -> bool {
    side(line, first) * side(line, camera) < 0
}

/// On which side of a line a point lies: -1, 0 or 1.
fn side([from, to]: [[i32; 2]; 2], at: [i32; 2]) -> i64 {
    let less = |a: i32, b: i32| i64::from(a) - i64::from(b);
    let along = [less(to[0], from[0]), less(to[1], from[1])];
    let beside = [less(at[0], from[0]), less(at[1], from[1])];
    // Differences of 32 bits lie below 2³³: their products would not fit 64 bits.
    let wide = |a: i64, b: i64| i128::from(a) * i128::from(b);
    let cross = wide(along[0], beside[1]) - wide(along[1], beside[0]);
    i64::from(cross > 0) - i64::from(cross < 0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_field_is_as_wide_as_the_rows_say() {
        // Rows O032 and O041 of the house's check values, computed from the gates there:
        // Super 8 at 12.5 mm 26.08 degrees, 16 mm at 12.5 mm 44.63 degrees.
        assert!((field_angle(Gauge::Super8, 125) - 26.08).abs() < 0.02);
        assert!((field_angle(Gauge::Sixteen, 125) - 44.63).abs() < 0.02);
        assert!(field_angle(Gauge::Super8, 0).abs() < f64::EPSILON);
    }
}
