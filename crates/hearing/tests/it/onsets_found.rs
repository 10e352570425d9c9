//! Attacks at planted samples.

use onestrand_hearing::{Heard, HearingError, onsets};
use proptest::prelude::*;

use crate::made::{Chance, RATE, bell, knock, lay, noise};

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Knocks of several lengths over noise 30 dB below their peaks.
    #[test]
    fn knocks_are_found_within_two_milliseconds(seed in 1_u64..10_000) {
        let mut chance = Chance::new(seed);
        let mut sound = noise(8.0, 0.01, seed + 1);
        let mut planted = Vec::new();
        let mut time = 0.3;
        while time < 7.5 {
            let at = (time * f64::from(RATE)) as usize;
            let length = 10.0 + 40.0 * chance.part();
            lay(&mut sound, at, &knock(length, seed + planted.len() as u64 + 2), 1.0);
            planted.push(at as f64 / f64::from(RATE));
            time += 0.25 + 0.6 * chance.part();
        }
        let found = onsets(Heard::new(&sound, RATE).unwrap()).unwrap();
        prop_assert_eq!(found.len(), planted.len(), "{:?} for {:?}", found, planted);
        for (one, truth) in found.iter().zip(&planted) {
            prop_assert!((one.seconds - truth).abs() < 0.002, "{} for {truth}", one.seconds);
        }
    }
}

/// A bell is struck again while it still rings.
#[test]
fn strokes_of_a_ringing_bell() {
    let mut sound = noise(9.0, 0.001, 4);
    let planted = [0.5, 1.62, 2.66, 3.69, 4.76, 5.82, 6.91];
    for time in planted {
        lay(
            &mut sound,
            (time * f64::from(RATE)) as usize,
            &bell(2.0, 640.0),
            1.0,
        );
    }
    let found = onsets(Heard::new(&sound, RATE).unwrap()).unwrap();
    assert_eq!(found.len(), planted.len(), "{found:?}");
    for (one, truth) in found.iter().zip(planted) {
        assert!(
            (one.seconds - truth).abs() < 0.002,
            "{} for {truth}",
            one.seconds
        );
    }
}

#[test]
fn steady_noise_and_tones_strike_nothing() {
    let sound = noise(10.0, 0.1, 9);
    assert_eq!(onsets(Heard::new(&sound, RATE).unwrap()).unwrap(), []);
    let turn = std::f64::consts::TAU * 300.0 / f64::from(RATE);
    let tone: Vec<f32> = (0..RATE * 4)
        .map(|at| (turn * f64::from(at)).sin() as f32)
        .collect();
    let found = onsets(Heard::new(&tone, RATE).unwrap()).unwrap();
    assert!(found.iter().all(|one| one.seconds < 0.06), "{found:?}");
}

#[test]
fn too_short_and_silent_are_said() {
    let short = [0.1; 100];
    assert!(matches!(
        onsets(Heard::new(&short, RATE).unwrap()),
        Err(HearingError::TooShort { .. })
    ));
    let silent = vec![0.0; 48_000];
    assert_eq!(
        onsets(Heard::new(&silent, RATE).unwrap()),
        Err(HearingError::Silent)
    );
    assert_eq!(
        Heard::new(&silent, 100).unwrap_err(),
        HearingError::Rate { rate: 100 }
    );
}
