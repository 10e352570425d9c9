//! Feet on planks and deck, and the paper round a loaf.

use super::chance::Chance;
use super::tones::{Filter, Partial, strike};
use super::{finish, samples_of};

/// When Ida's feet fall: running, a little uneven. Unit: seconds.
const STEPS: [f64; 9] = [0.0, 0.36, 0.71, 1.08, 1.43, 1.80, 2.15, 2.51, 2.86];

pub(super) fn step_onsets() -> Vec<f64> {
    STEPS.into()
}

/// Running on the landing.
pub(super) fn steps() -> Vec<f32> {
    let mut chance = Chance::new(31);
    let mut sound = vec![0.0; samples_of(3.5)];
    for onset in STEPS {
        let plank = chance.between(0.92, 1.08);
        let hard = chance.between(0.75, 1.0);
        fall(&mut sound, samples_of(onset), hard, plank, &mut chance);
    }
    finish::effect(sound)
}

/// One foot on the hollow deck of the ferry.
pub(super) fn foot() -> Vec<f32> {
    let mut chance = Chance::new(32);
    let mut sound = vec![0.0; samples_of(1.0)];
    fall(&mut sound, 0, 1.0, 0.62, &mut chance);
    // The hollow below.
    strike(
        &mut sound,
        0,
        Partial {
            hertz: 71.0,
            loud: 0.8,
            falls: 0.14,
            rises: 0.004,
        },
    );
    finish::effect(sound)
}

/// A shoe on a plank: sole, thud, the board's own tones.
fn fall(sound: &mut [f64], from: usize, hard: f64, plank: f64, chance: &mut Chance) {
    for (hertz, loud, falls) in [
        (128.0, 1.0, 0.045),
        (243.0, 0.6, 0.05),
        (402.0, 0.35, 0.035),
        (655.0, 0.2, 0.02),
    ] {
        strike(
            sound,
            from,
            Partial {
                hertz: hertz * plank,
                loud: loud * hard,
                falls,
                rises: 0.001,
            },
        );
    }
    let mut sole = chance.noise(samples_of(0.05));
    Filter::about(1_600.0, 0.7).through(&mut sole);
    for (at, (sample, value)) in sound.iter_mut().skip(from).zip(sole).enumerate() {
        *sample += 0.9 * hard * value * (-(at as f64) / 350.0).exp();
    }
}

/// Paper: many small cracks, more while the hands are busy.
pub(super) fn rustle() -> Vec<f32> {
    let mut chance = Chance::new(33);
    let length = 1.6;
    let mut sound = vec![0.0; samples_of(length)];
    let busy = |time: f64| {
        let hands = [(0.0, 0.22, 1.0), (0.42, 0.2, 0.6), (0.95, 0.25, 0.8)];
        hands
            .iter()
            .map(|(from, lasts, loud)| {
                if time < *from {
                    0.0
                } else {
                    loud * (-(time - from) / lasts).exp()
                }
            })
            .fold(0.0, f64::max)
    };
    for _ in 0..900 {
        let time = chance.between(0.0, length);
        let loud = busy(time) * chance.part().powi(3);
        crack(&mut sound, samples_of(time), loud, &mut chance);
    }
    crack(&mut sound, 0, 1.4, &mut chance);
    Filter::above(1_100.0, 0.6).through(&mut sound);
    Filter::below(9_000.0, 0.6).through(&mut sound);
    finish::effect(sound)
}

fn crack(sound: &mut [f64], from: usize, loud: f64, chance: &mut Chance) {
    let falls = chance.between(12.0, 90.0);
    for (at, sample) in sound.iter_mut().skip(from).take(500).enumerate() {
        *sample += loud * chance.either() * (-(at as f64) / falls).exp();
    }
}
