//! The landing bell.

use super::chance::Chance;
use super::tones::{Filter, Partial, strike};
use super::{finish, samples_of};

/// The prime of the bell. Unit: hertz.
const PRIME: f64 = 620.0;

/// Its partials: hum, prime, tierce, quint, nominal and two above, as a minor-third
/// bell has them (A. Lehr, Partial groups in the bell sound, 1986, from memory):
/// times the prime, loudness, seconds to fall.
const PARTIALS: [(f64, f64, f64); 8] = [
    (0.5, 0.35, 1.1),
    (1.0, 0.6, 0.8),
    (1.003, 0.3, 0.7),
    (1.19, 0.55, 0.6),
    (1.5, 0.2, 0.35),
    (2.0, 0.8, 0.45),
    (2.51, 0.3, 0.2),
    (3.01, 0.3, 0.12),
];

/// Frames from stroke to stroke in the take of the second version, at 18 f/s.
const BETWEEN: f64 = 19.0 / 18.0;

/// Lays a stroke into a sound; `hard` is 1 for a plain one.
pub(super) fn lay(into: &mut [f64], from: usize, hard: f64, faster: f64, seed: u64) {
    for (times, loud, falls) in PARTIALS {
        strike(
            into,
            from,
            Partial {
                hertz: PRIME * times * faster,
                loud: loud * hard,
                falls: falls / faster,
                rises: 0.0008,
            },
        );
    }
    // The clapper itself: a tick of metal.
    let mut tick = Chance::new(seed).noise(samples_of(0.02));
    Filter::about(3_400.0, 0.8).through(&mut tick);
    for (at, (sample, value)) in into.iter_mut().skip(from).zip(tick).enumerate() {
        *sample += 2.0 * hard * value * (-(at as f64) / 160.0).exp();
    }
}

/// One stroke.
pub(super) fn stroke() -> Vec<f32> {
    let mut sound = vec![0.0; samples_of(3.6)];
    lay(&mut sound, 0, 1.0, 1.0, 1);
    finish::effect(sound)
}

/// Three strokes in the rhythm of the take.
pub(super) fn three() -> Vec<f32> {
    let mut sound = vec![0.0; samples_of(2.0 * BETWEEN + 3.6)];
    for (number, (onset, hard)) in three_onsets().into_iter().zip([0.9, 1.0, 0.95]).enumerate() {
        lay(&mut sound, samples_of(onset), hard, 1.0, number as u64 + 1);
    }
    finish::effect(sound)
}

pub(super) fn three_onsets() -> Vec<f64> {
    vec![0.0, BETWEEN, 2.0 * BETWEEN]
}
