//! Tones and filters that sounds are put together from.

use super::SOUND_RATE;

const TAU: f64 = std::f64::consts::TAU;

/// A tone laid into a sound.
#[derive(Clone, Copy)]
pub(super) struct Partial {
    /// Unit: hertz.
    pub(super) hertz: f64,
    pub(super) loud: f64,
    /// Time in which it falls to 1/e. Unit: seconds.
    pub(super) falls: f64,
    /// Time in which it rises. Unit: seconds.
    pub(super) rises: f64,
}

/// Lays a tone that rises and dies away into a sound, for as long as there is
/// room and it can be heard.
pub(super) fn strike(into: &mut [f64], from: usize, partial: Partial) {
    let rate = f64::from(SOUND_RATE);
    let (sin, cos) = (TAU * partial.hertz / rate).sin_cos();
    let fall = (-1.0 / (partial.falls * rate)).exp();
    let rise = 1.0 - (-1.0 / (partial.rises.max(1e-5) * rate)).exp();
    let (mut s, mut c, mut level, mut risen) = (0.0, partial.loud, 1.0, 0.0);
    for sample in into.iter_mut().skip(from) {
        *sample += s * level * risen;
        (s, c) = (s * cos + c * sin, c * cos - s * sin);
        level *= fall;
        risen += (1.0 - risen) * rise;
        if level < 1e-5 {
            break;
        }
    }
}

/// A filter of second order, by the cookbook of R. Bristow-Johnson (1994).
pub(super) struct Filter {
    b: [f64; 3],
    a: [f64; 2],
    x: [f64; 2],
    y: [f64; 2],
}

impl Filter {
    /// Lets pass what lies below.
    pub(super) fn below(hertz: f64, quality: f64) -> Self {
        let (alpha, cos) = angle(hertz, quality);
        let half = (1.0 - cos) / 2.0;
        Self::of(
            [half, 2.0 * half, half],
            [1.0 + alpha, -2.0 * cos, 1.0 - alpha],
        )
    }

    /// Lets pass what lies above.
    pub(super) fn above(hertz: f64, quality: f64) -> Self {
        let (alpha, cos) = angle(hertz, quality);
        let half = f64::midpoint(1.0, cos);
        Self::of(
            [half, -2.0 * half, half],
            [1.0 + alpha, -2.0 * cos, 1.0 - alpha],
        )
    }

    /// Lets pass what lies about a pitch, that one unchanged.
    pub(super) fn about(hertz: f64, quality: f64) -> Self {
        let (alpha, cos) = angle(hertz, quality);
        Self::of([alpha, 0.0, -alpha], [1.0 + alpha, -2.0 * cos, 1.0 - alpha])
    }

    fn of(b: [f64; 3], a: [f64; 3]) -> Self {
        Self {
            b: b.map(|value| value / a[0]),
            a: [a[1] / a[0], a[2] / a[0]],
            x: [0.0; 2],
            y: [0.0; 2],
        }
    }

    pub(super) fn next(&mut self, value: f64) -> f64 {
        let out = self.b[0] * value + self.b[1] * self.x[0] + self.b[2] * self.x[1]
            - self.a[0] * self.y[0]
            - self.a[1] * self.y[1];
        self.x = [value, self.x[0]];
        self.y = [out, self.y[0]];
        out
    }

    /// A whole sound through it.
    pub(super) fn through(mut self, sound: &mut [f64]) {
        for sample in sound {
            *sample = self.next(*sample);
        }
    }
}

fn angle(hertz: f64, quality: f64) -> (f64, f64) {
    let (sin, cos) = (TAU * hertz / f64::from(SOUND_RATE)).sin_cos();
    (sin / (2.0 * quality), cos)
}
