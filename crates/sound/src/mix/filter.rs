//! Filters of second order, by the well-known formulas of Robert Bristow-Johnson ("Audio EQ
//! Cookbook", a W3C note since 2021): bilinear transform of analogue prototypes.

use std::f64::consts::{FRAC_1_SQRT_2, PI};

use super::Equaliser;
use crate::RATE;

/// A filter with what it remembers, for one channel (transposed direct form II).
#[derive(Debug, Clone, Copy)]
pub(crate) struct Biquad {
    b: [f64; 3],
    a: [f64; 2],
    kept: [f64; 2],
}

impl Biquad {
    fn new(b: [f64; 3], a: [f64; 3]) -> Self {
        Self {
            b: b.map(|c| c / a[0]),
            a: [a[1] / a[0], a[2] / a[0]],
            kept: [0.0; 2],
        }
    }

    pub(crate) fn high_pass(hz: f64) -> Self {
        let (cos, alpha) = angle(hz, FRAC_1_SQRT_2);
        let side = f64::midpoint(1.0, cos);
        Self::new(
            [side, -2.0 * side, side],
            [1.0 + alpha, -2.0 * cos, 1.0 - alpha],
        )
    }

    pub(crate) fn low_pass(hz: f64) -> Self {
        let (cos, alpha) = angle(hz, FRAC_1_SQRT_2);
        let side = (1.0 - cos) / 2.0;
        Self::new(
            [side, 2.0 * side, side],
            [1.0 + alpha, -2.0 * cos, 1.0 - alpha],
        )
    }

    fn bell(hz: f64, octaves: f64, db: f64) -> Self {
        let turn = 2.0 * PI * hz / f64::from(RATE);
        let (sin, cos) = turn.sin_cos();
        let alpha = sin * (std::f64::consts::LN_2 / 2.0 * octaves * turn / sin).sinh();
        let a = 10_f64.powf(db / 40.0);
        Self::new(
            [1.0 + alpha * a, -2.0 * cos, 1.0 - alpha * a],
            [1.0 + alpha / a, -2.0 * cos, 1.0 - alpha / a],
        )
    }

    fn shelf(hz: f64, db: f64, low: bool) -> Self {
        let (cos, alpha) = angle(hz, FRAC_1_SQRT_2);
        // The high shelf is the low one with the circle turned half round.
        let cos = if low { cos } else { -cos };
        let a = 10_f64.powf(db / 40.0);
        let root = 2.0 * a.sqrt() * alpha;
        let (up, down) = (a + 1.0, a - 1.0);
        let side = if low { 1.0 } else { -1.0 };
        Self::new(
            [
                a * (up - down * cos + root),
                side * 2.0 * a * (down - up * cos),
                a * (up - down * cos - root),
            ],
            [
                up + down * cos + root,
                side * -2.0 * (down + up * cos),
                up + down * cos - root,
            ],
        )
    }

    pub(crate) fn pass(&mut self, x: f64) -> f64 {
        let y = self.b[0] * x + self.kept[0];
        self.kept[0] = self.b[1] * x - self.a[0] * y + self.kept[1];
        self.kept[1] = self.b[2] * x - self.a[1] * y;
        y
    }
}

fn angle(hz: f64, q: f64) -> (f64, f64) {
    let turn = 2.0 * PI * (hz / f64::from(RATE)).clamp(1e-5, 0.49);
    let (sin, cos) = turn.sin_cos();
    (cos, sin / (2.0 * q))
}

/// The filters of a column, for one channel.
#[derive(Debug, Clone, Default)]
pub(super) struct Bands(Vec<Biquad>);

impl Bands {
    pub(super) fn of(asked: &Equaliser) -> Self {
        let mut bands = Vec::new();
        bands.extend(asked.low_cut_hz.map(Biquad::high_pass));
        if asked.lows_db != 0.0 {
            bands.push(Biquad::shelf(200.0, asked.lows_db, true));
        }
        if asked.presence_db != 0.0 {
            bands.push(Biquad::bell(2500.0, 1.5, asked.presence_db));
        }
        if asked.highs_db != 0.0 {
            bands.push(Biquad::shelf(6000.0, asked.highs_db, false));
        }
        Self(bands)
    }

    pub(super) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    pub(super) fn pass(&mut self, x: f64) -> f64 {
        self.0.iter_mut().fold(x, |x, band| band.pass(x))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The gain of a filter at a pitch, measured by a sine. Unit: dB.
    fn gain(mut filter: Biquad, hz: f64) -> f64 {
        let mut squares = 0.0_f64;
        for n in 0..48_000 {
            let y = filter.pass((2.0 * PI * hz * f64::from(n) / 48_000.0).sin());
            if n >= 24_000 {
                squares += y * y;
            }
        }
        10.0 * (squares / 12_000.0).log10()
    }

    fn near(found: f64, told: f64) {
        assert!((found - told).abs() < 0.1, "{found}, told {told}");
    }

    #[test]
    fn bands_give_what_they_are_asked() {
        near(gain(Biquad::high_pass(100.0), 100.0), -3.01);
        near(gain(Biquad::high_pass(100.0), 50.0), -12.3);
        near(gain(Biquad::high_pass(100.0), 2000.0), 0.0);
        near(gain(Biquad::low_pass(5000.0), 5000.0), -3.01);
        near(gain(Biquad::bell(2500.0, 1.5, 4.0), 2500.0), 4.0);
        near(gain(Biquad::bell(2500.0, 1.5, 4.0), 40.0), 0.0);
        near(gain(Biquad::shelf(200.0, -6.0, true), 20.0), -6.0);
        near(gain(Biquad::shelf(200.0, -6.0, true), 200.0), -3.0);
        near(gain(Biquad::shelf(200.0, -6.0, true), 6000.0), 0.0);
        near(gain(Biquad::shelf(6000.0, 5.0, false), 20_000.0), 5.0);
        near(gain(Biquad::shelf(6000.0, 5.0, false), 6000.0), 2.5);
        near(gain(Biquad::shelf(6000.0, 5.0, false), 100.0), 0.0);
    }
}
