//! Beats and bars of music whose beats are planted.

use onestrand_hearing::{Beats, Heard, HearingError, beats, loop_beats};
use proptest::prelude::*;

use crate::made::{Chance, RATE, bell, knock, lay, noise};

/// A plain band: bass on the first beat, a drum on every beat, a tune of
/// half-beats with rests, a little uneven.
fn band(bpm: f64, in_a_bar: usize, beats: usize, uneven: f64, seed: u64) -> (Vec<f32>, Vec<f64>) {
    let every = 60.0 / bpm;
    let mut chance = Chance::new(seed);
    let mut sound = noise(1.0 + every * beats as f64, 0.003, seed);
    let mut truth = Vec::new();
    for beat in 0..beats {
        let time = 0.4 + every * beat as f64 + uneven * (chance.part() - 0.5);
        truth.push(time);
        let at = (time * f64::from(RATE)) as usize;
        lay(&mut sound, at, &knock(18.0, seed + beat as u64), 0.7);
        if beat % in_a_bar == 0 {
            lay(&mut sound, at, &bell(0.4, 80.0), 2.5);
        }
        for half in 0..2 {
            if chance.part() < 0.6 {
                let note = at + half * (every * 0.5 * f64::from(RATE)) as usize;
                let pitch = [392.0, 440.0, 494.0, 587.0][(chance.part() * 4.0) as usize % 4];
                lay(&mut sound, note, &bell(0.25, pitch), 0.5);
            }
        }
    }
    (sound, truth)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(16))]

    #[test]
    fn tempo_beats_and_bars_of_a_band(bpm in 72.0..150.0_f64, three in any::<bool>(), seed in 1_u64..10_000) {
        let in_a_bar = if three { 3 } else { 4 };
        let (sound, truth) = band(bpm, in_a_bar, 48, 0.01, seed);
        let found = beats(Heard::new(&sound, RATE).unwrap(), 60.0, 180.0).unwrap();
        // Octaves are a choice of the listener; here the drum names the beat, and
        // half or double of it is the only other answer that is let pass.
        let times = found.bpm / bpm;
        let octave = [0.5, 1.0, 2.0].into_iter().find(|octave| (times / octave - 1.0).abs() < 0.01);
        prop_assert!(octave.is_some(), "{} for {bpm}", found.bpm);
        if octave == Some(1.0) {
            let hit = truth.iter().filter(|time| found.seconds.iter().any(|beat| (beat - *time).abs() < 0.03)).count();
            prop_assert!(hit * 100 >= truth.len() * 95, "{hit} of {}", truth.len());
            prop_assert_eq!(found.in_a_bar as usize, in_a_bar);
            let first = found.bars().next().unwrap();
            let nearest = truth.iter().position(|time| (time - first).abs() < 0.05);
            prop_assert!(nearest.is_some_and(|at| at % in_a_bar == 0), "first bar at {first}");
        }
    }
}

/// Most of them must be right outright, octave and all.
#[test]
fn octaves_are_seldom_wrong() {
    let right = (0..12_u32)
        .filter(|at| {
            let bpm = 75.0 + 5.0 * f64::from(*at);
            let (sound, _) = band(bpm, 4, 40, 0.01, u64::from(*at) + 1);
            let (slowest, fastest) = Beats::USUAL;
            let found = beats(Heard::new(&sound, RATE).unwrap(), slowest, fastest).unwrap();
            (found.bpm / bpm - 1.0).abs() < 0.02
        })
        .count();
    assert!(right >= 10, "{right} of 12");
}

/// A loop of four beats is known exactly, for whole beats go into it.
#[test]
fn a_loop_has_whole_beats() {
    let (sound, _) = band(126.0, 4, 4, 0.0, 3);
    let length = (4.0 * 60.0 / 126.0 * f64::from(RATE)) as usize;
    let start = (0.39 * f64::from(RATE)) as usize;
    let (bpm, beats) = loop_beats(
        Heard::new(&sound[start..start + length], RATE).unwrap(),
        70.0,
        180.0,
    )
    .unwrap();
    assert_eq!(beats, 4);
    assert!((bpm - 126.0).abs() < 0.01);
}

#[test]
fn noise_is_not_sure_and_silence_is_said() {
    let sound = noise(12.0, 0.1, 5);
    match beats(Heard::new(&sound, RATE).unwrap(), 60.0, 180.0) {
        Ok(found) => assert!(found.uneven_ms > 20.0 || found.sure < 0.3, "{found:?}"),
        Err(error) => assert_eq!(error, HearingError::NoBeat),
    }
    let silent = vec![0.0; 480_000];
    assert_eq!(
        beats(Heard::new(&silent, RATE).unwrap(), 60.0, 180.0),
        Err(HearingError::Silent)
    );
    let heard = Heard::new(&sound, RATE).unwrap();
    assert!(matches!(
        beats(heard, 120.0, 60.0),
        Err(HearingError::OutOfRange { .. })
    ));
}

/// A music that is cut to its first beat begins with it, though nothing rises there; one that
/// begins in the middle of a beat, or with silence, does not.
#[test]
fn a_music_that_begins_with_its_beat_has_that_beat() {
    let (sound, truth) = band(100.0, 4, 40, 0.0, 11);
    let found_from = |seconds: f64, pause: f64| {
        let start = (seconds * f64::from(RATE)) as usize;
        let mut cut = vec![0.0; (pause * f64::from(RATE)) as usize];
        cut.extend_from_slice(&sound[start..]);
        beats(Heard::new(&cut, RATE).unwrap(), 70.0, 140.0).unwrap()
    };
    let found = found_from(truth[0], 0.0);
    assert!(found.seconds[0] < 0.03, "{:?}", &found.seconds[..3]);
    assert_eq!((found.first_bar, found.seconds.len()), (0, truth.len()));
    let upbeat = found_from(truth[3], 0.0);
    assert!(upbeat.seconds[0] < 0.03, "{:?}", &upbeat.seconds[..3]);
    assert_eq!(upbeat.first_bar, 1);
    let late = found_from(truth[0] + 0.3, 0.0);
    assert!(
        (late.seconds[0] - 0.3).abs() < 0.03,
        "{:?}",
        &late.seconds[..3]
    );
    let silent = found_from(truth[1] - 0.01, 0.59);
    assert!(
        (silent.seconds[0] - 0.6).abs() < 0.03,
        "{:?}",
        &silent.seconds[..3]
    );
}
