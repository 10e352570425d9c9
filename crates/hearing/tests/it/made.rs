//! Sounds made for the tests.

/// Samples a second of all of them.
pub(crate) const RATE: u32 = 48_000;

/// Chance that is the same every time (Marsaglia's xorshift, 2003).
pub(crate) struct Chance(u64);

impl Chance {
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1)
    }

    /// From 0 to 1.
    pub(crate) fn part(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1u64 << 53) as f64
    }

    /// About normal, with a root mean square of 1: twelve parts, less six.
    pub(crate) fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.part()).sum::<f64>() - 6.0
    }
}

/// White noise of a root mean square.
pub(crate) fn noise(seconds: f64, rms: f64, seed: u64) -> Vec<f32> {
    let mut chance = Chance::new(seed);
    let count = (seconds * f64::from(RATE)) as usize;
    (0..count).map(|_| (rms * chance.normal()) as f32).collect()
}

/// Lays one sound into another from a sample on.
pub(crate) fn lay(into: &mut [f32], from: usize, sound: &[f32], gain: f32) {
    for (at, sample) in into.iter_mut().skip(from).zip(sound) {
        *at += gain * sample;
    }
}

/// A knock: noise that dies away over `ms` milliseconds.
pub(crate) fn knock(ms: f64, seed: u64) -> Vec<f32> {
    let mut chance = Chance::new(seed);
    let fall = ms / 1000.0 * f64::from(RATE);
    (0..(6.0 * fall) as usize)
        .map(|at| (0.3 * chance.normal() * (-(at as f64) / fall).exp()) as f32)
        .collect()
}

/// A bell: partials of an old church bell, which die away one after the other.
pub(crate) fn bell(seconds: f64, hertz: f64) -> Vec<f32> {
    let partials = [
        (1.0, 0.5, 1.2),
        (2.0, 1.0, 0.7),
        (2.4, 0.6, 0.5),
        (3.0, 0.5, 0.35),
        (4.0, 0.7, 0.25),
    ];
    (0..(seconds * f64::from(RATE)) as usize)
        .map(|at| {
            let time = at as f64 / f64::from(RATE);
            let value: f64 = partials
                .iter()
                .map(|(times, loud, falls)| {
                    loud * (-time / falls).exp()
                        * (std::f64::consts::TAU * hertz * times * time).sin()
                })
                .sum();
            (0.15 * value) as f32
        })
        .collect()
}

/// Root mean square.
pub(crate) fn rms(sound: &[f32]) -> f64 {
    let sum: f64 = sound.iter().map(|&value| f64::from(value).powi(2)).sum();
    (sum / sound.len().max(1) as f64).sqrt()
}
