//! Forks and hum, with planted pitches.

use onestrand_hearing::{Heard, HearingError, Mains, hum, tone};
use proptest::prelude::*;

use crate::made::{Chance, RATE, noise};

/// A tone of a pitch that may wander as a sine, in noise.
fn fork(hertz: f64, wander: f64, seconds: f64, rest: f64, seed: u64) -> Vec<f32> {
    let mut phase = 0.0;
    let mut sound = noise(seconds, rest, seed);
    for (at, sample) in sound.iter_mut().enumerate() {
        let time = at as f64 / f64::from(RATE);
        let now = hertz * (1.0 + wander * (std::f64::consts::TAU * 0.55 * time).sin());
        phase += std::f64::consts::TAU * now / f64::from(RATE);
        *sample += (0.1 * phase.sin()) as f32;
    }
    sound
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// A fork 10 dB below the noise of the room, on a tape up to 8 % off.
    #[test]
    fn a_steady_fork_is_known_to_two_parts_in_ten_thousand(
        hertz in 405.0..475.0_f64,
        seed in 1_u64..1_000,
    ) {
        let rest = 0.1 / 2f64.sqrt() * 10f64.powf(0.5);
        let sound = fork(hertz, 0.0, 6.0, rest, seed);
        let found = tone(Heard::new(&sound, RATE).unwrap(), 440.0, 0.1).unwrap();
        prop_assert!((found.hertz / hertz - 1.0).abs() < 2e-4, "{} for {hertz}", found.hertz);
    }

    /// Hum of many harmonics under noise of ten times its power.
    #[test]
    fn hum_is_known_to_two_parts_in_ten_thousand(
        off in -0.04..0.04_f64,
        sixty in any::<bool>(),
        seed in 1_u64..1_000,
    ) {
        let mains = if sixty { Mains::Sixty } else { Mains::Fifty };
        let hertz = mains.hertz() * (1.0 + off);
        let mut chance = Chance::new(seed);
        let mut sound = noise(12.0, 0.1, seed);
        let phases: Vec<f64> = (0..8).map(|_| std::f64::consts::TAU * chance.part()).collect();
        for (at, sample) in sound.iter_mut().enumerate() {
            let turn = std::f64::consts::TAU * hertz * at as f64 / f64::from(RATE);
            let wave: f64 = (1..=8).map(|k| (turn * f64::from(k) + phases[k as usize - 1]).sin()).sum();
            *sample += (0.0158 * wave) as f32;
        }
        let found = hum(Heard::new(&sound, RATE).unwrap(), mains, 0.06).unwrap();
        prop_assert!((found.hertz / hertz - 1.0).abs() < 2e-4, "{} for {hertz}", found.hertz);
    }
}

/// Story 11: heard at 433.4 for 440.
#[test]
fn the_fork_of_the_story_plays_at_1_0152() {
    let sound = fork(433.4, 0.0, 4.0, 0.05, 7);
    let found = tone(Heard::new(&sound, RATE).unwrap(), 440.0, 0.1).unwrap();
    assert_eq!(format!("{:.4}", found.play(440.0)), "1.0152");
    assert_eq!(format!("{:.1}", found.hertz), "433.4");
}

/// A recorder that wanders by 0.2 % all the time: the mean is what counts.
#[test]
fn a_wandering_tape_gives_its_mean() {
    let sound = fork(437.0, 0.003, 20.0, 0.02, 3);
    let found = tone(Heard::new(&sound, RATE).unwrap(), 440.0, 0.1).unwrap();
    assert!((found.hertz / 437.0 - 1.0).abs() < 2e-4, "{found:?}");
    assert!((0.1..0.4).contains(&found.wander_percent), "{found:?}");
}

/// The tone sounds for two seconds of ten.
#[test]
fn a_tone_at_the_beginning_only_is_found() {
    let mut sound = noise(10.0, 0.03, 5);
    for (at, sample) in fork(441.7, 0.0, 2.0, 0.0, 1).iter().enumerate() {
        sound[at] += sample;
    }
    let found = tone(Heard::new(&sound, RATE).unwrap(), 440.0, 0.1).unwrap();
    assert!((found.hertz / 441.7 - 1.0).abs() < 2e-4, "{found:?}");
}

#[test]
fn noise_has_no_tone_and_silence_is_said() {
    let sound = noise(6.0, 0.1, 11);
    let heard = Heard::new(&sound, RATE).unwrap();
    assert!(matches!(
        tone(heard, 440.0, 0.1),
        Err(HearingError::NoTone { .. })
    ));
    assert!(matches!(
        hum(heard, Mains::Fifty, 0.05),
        Err(HearingError::NoTone { .. })
    ));
    let silence = vec![0.0; 96_000];
    let heard = Heard::new(&silence, RATE).unwrap();
    assert_eq!(tone(heard, 440.0, 0.1), Err(HearingError::Silent));
}
