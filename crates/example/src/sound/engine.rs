//! The ferry's engine with its chain, and the lever that turns it back.

use super::chance::Chance;
use super::tones::{Filter, Partial, strike};
use super::{finish, samples_of};

/// Strokes a second of the one cylinder, and the loop: whole strokes go into it.
const STROKES: f64 = 5.5;
const LOOP: f64 = 8.0;
const OVER: f64 = 2.0;

/// When the cylinder strikes in the loop. Unit: seconds.
pub(super) fn strokes() -> Vec<f64> {
    let count = (LOOP * STROKES) as u32;
    (0..count)
        .map(|stroke| f64::from(stroke) / STROKES)
        .collect()
}

/// The engine, to be played round and round.
pub(super) fn engine() -> Vec<f32> {
    let count = samples_of(LOOP + OVER);
    let mut chance = Chance::new(21);
    let mut sound = vec![0.0; count];
    for stroke in 0..((LOOP + OVER) * STROKES) as u32 {
        let from = samples_of(f64::from(stroke) / STROKES);
        chug(&mut sound, from, &mut chance);
    }
    // The chain over its wheel: links, quietly.
    let mut links = chance.noise(count);
    Filter::about(2_100.0, 2.0).through(&mut links);
    let mut hum = chance.noise(count);
    Filter::below(160.0, 0.7).through(&mut hum);
    for (at, sample) in sound.iter_mut().enumerate() {
        let time = at as f64 / f64::from(super::SOUND_RATE);
        let link = (std::f64::consts::TAU * 2.0 * STROKES * time)
            .sin()
            .max(0.0)
            .powi(3);
        *sample += 0.12 * links[at] * (0.25 + link) + 0.35 * hum[at];
    }
    finish::round(sound, samples_of(LOOP), 0.13)
}

/// One stroke: a thump, the breath of the exhaust, iron answering.
fn chug(sound: &mut [f64], from: usize, chance: &mut Chance) {
    let hard = chance.between(0.9, 1.0);
    for (hertz, loud, falls) in [(58.0, 0.9, 0.05), (117.0, 0.5, 0.035), (291.0, 0.16, 0.02)] {
        strike(
            sound,
            from,
            Partial {
                hertz,
                loud: loud * hard,
                falls,
                rises: 0.003,
            },
        );
    }
    let mut breath = chance.noise(samples_of(0.12));
    Filter::about(420.0, 0.7).through(&mut breath);
    for (at, (sample, value)) in sound.iter_mut().skip(from).zip(breath).enumerate() {
        let time = at as f64 / f64::from(super::SOUND_RATE);
        *sample += hard * value * (1.0 - (-time / 0.004).exp()) * (-time / 0.03).exp();
    }
}

/// The lever: it slides, falls into its notch, and the deck answers.
pub(super) fn lever() -> Vec<f32> {
    let mut chance = Chance::new(22);
    let mut sound = vec![0.0; samples_of(0.9)];
    for (from, hard) in [(0.0, 0.45), (0.085, 1.0)] {
        let start = samples_of(from);
        for (hertz, loud, falls) in [
            (92.0, 0.9, 0.06),
            (611.0, 0.4, 0.04),
            (1_370.0, 0.35, 0.03),
            (2_290.0, 0.2, 0.02),
        ] {
            strike(
                &mut sound,
                start,
                Partial {
                    hertz,
                    loud: loud * hard,
                    falls,
                    rises: 0.0008,
                },
            );
        }
        for (at, sample) in sound
            .iter_mut()
            .skip(start)
            .take(samples_of(0.03))
            .enumerate()
        {
            *sample += 0.6 * hard * chance.either() * (-(at as f64) / 200.0).exp();
        }
    }
    finish::effect(sound)
}
