//! What every sound goes through last: no rumble, no click at its ends, its level.

use super::samples_of;
use super::tones::Filter;

/// Peak of an effect: −6 dBFS.
const EFFECT_PEAK: f64 = 0.501;
/// Peak that nothing exceeds: −3 dBFS.
const MOST: f64 = 0.708;

/// An effect: begins within a millisecond and dies away to nothing.
pub(super) fn effect(mut sound: Vec<f64>) -> Vec<f32> {
    Filter::above(25.0, 0.7).through(&mut sound);
    let (rise, fall) = (samples_of(0.0005), samples_of(0.05));
    let length = sound.len();
    for (at, sample) in sound.iter_mut().enumerate() {
        *sample *= eased(at, rise) * eased(length - 1 - at, fall);
    }
    to_peak(sound, EFFECT_PEAK)
}

/// A loop of `length` samples out of a sound that is longer: what is over passes
/// into the beginning, with equal power. `level`: its root mean square.
pub(super) fn round(mut sound: Vec<f64>, length: usize, level: f64) -> Vec<f32> {
    Filter::above(25.0, 0.7).through(&mut sound);
    let over = sound.split_off(length.min(sound.len()));
    let count = over.len();
    for (at, (sample, after)) in sound.iter_mut().zip(over).enumerate() {
        let angle = (at as f64 + 0.5) / count as f64 * std::f64::consts::FRAC_PI_2;
        *sample = *sample * angle.sin() + after * angle.cos();
    }
    to_level(sound, level)
}

/// A sound brought to a root mean square, its peaks bent below [`MOST`].
pub(super) fn to_level(mut sound: Vec<f64>, level: f64) -> Vec<f32> {
    let mean = sound.iter().sum::<f64>() / sound.len().max(1) as f64;
    let square = sound
        .iter()
        .map(|value| (value - mean).powi(2))
        .sum::<f64>();
    let gain = level / (square / sound.len().max(1) as f64).sqrt().max(1e-12);
    for sample in &mut sound {
        *sample = bent((*sample - mean) * gain);
    }
    sound.iter().map(|&sample| sample as f32).collect()
}

pub(super) fn to_peak(sound: Vec<f64>, peak: f64) -> Vec<f32> {
    let highest = sound
        .iter()
        .fold(1e-12_f64, |highest, value| highest.max(value.abs()));
    sound
        .iter()
        .map(|value| (value * peak / highest) as f32)
        .collect()
}

/// Straight up to two thirds of [`MOST`], then leaning towards it.
fn bent(value: f64) -> f64 {
    let straight = MOST * 2.0 / 3.0;
    let over = value.abs() - straight;
    if over <= 0.0 {
        return value;
    }
    let room = MOST - straight;
    (straight + room * (over / room).tanh()).copysign(value)
}

/// A raised cosine over the first samples, 1 after them.
fn eased(at: usize, over: usize) -> f64 {
    if at >= over {
        return 1.0;
    }
    0.5 - 0.5 * (std::f64::consts::PI * at as f64 / over as f64).cos()
}
