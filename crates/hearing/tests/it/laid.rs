//! Recordings and events laid beside each other, with planted places.

use onestrand_hearing::{Heard, HearingError, delay, lay_events};
use proptest::prelude::*;

use crate::made::{Chance, RATE, bell, knock, lay, noise, rms};

/// A yard: a bell, knocks, and a voice-like murmur, so that it is a real sound.
fn yard(seconds: f64, seed: u64) -> Vec<f32> {
    let mut chance = Chance::new(seed);
    let mut sound = vec![0.0; (seconds * f64::from(RATE)) as usize];
    let mut at = 0.0;
    while at < seconds - 0.5 {
        let from = (at * f64::from(RATE)) as usize;
        if chance.part() < 0.4 {
            lay(
                &mut sound,
                from,
                &bell(0.8, 300.0 + 500.0 * chance.part()),
                1.0,
            );
        } else {
            lay(
                &mut sound,
                from,
                &knock(8.0 + 60.0 * chance.part(), seed + from as u64),
                1.0,
            );
        }
        at += 0.1 + 0.7 * chance.part();
    }
    sound
}

/// With noise of its own, so many decibels below the sound.
fn noisy(sound: &[f32], below_db: f64, seed: u64) -> Vec<f32> {
    let level = rms(sound) * 10f64.powf(-below_db / 20.0);
    let mut heard = noise(sound.len() as f64 / f64::from(RATE), level, seed);
    lay(&mut heard, 0, sound, 1.0);
    heard
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Planted places are recovered within 5 ms at 10 dB in both recordings.
    #[test]
    fn a_planted_delay_at_ten_decibels(early in 0_usize..200_000, late in 0_usize..200_000, seed in 1_u64..10_000) {
        let sound = yard(12.0, seed);
        let first = noisy(&sound[early..], 10.0, seed + 1);
        let second = noisy(&sound[late..], 10.0, seed + 2);
        let planted = (early as f64 - late as f64) / f64::from(RATE);
        let found = delay(Heard::new(&first, RATE).unwrap(), Heard::new(&second, RATE).unwrap()).unwrap();
        prop_assert!((found.seconds - planted).abs() < 0.005, "{found:?} for {planted}");
        prop_assert!((found.seconds - planted).abs() < 0.0005, "{found:?} for {planted}");
        prop_assert!(found.sure > 1.2, "{found:?}");
    }

    /// A third of the events make no sound, as many sounds are not seen.
    #[test]
    fn planted_events(place in -20.0..20.0_f64, seed in 1_u64..10_000) {
        let mut chance = Chance::new(seed);
        let (mut events, mut onsets, mut truth) = (Vec::new(), Vec::new(), 0);
        let mut at = 5.0;
        for _ in 0..30 {
            at += 0.15 + chance.part();
            let (seen, sounds) = (chance.part() < 0.7, chance.part() < 0.7);
            if seen { events.push(at); }
            if sounds { onsets.push(at + place + 0.004 * (chance.part() - 0.5)); }
            truth += usize::from(seen && sounds);
        }
        prop_assume!(truth >= 6);
        let laid = lay_events(&events, &onsets, 0.02).unwrap();
        prop_assert!((laid.seconds - place).abs() < 0.005, "{laid:?} for {place}");
        prop_assert!(laid.pairs.len() >= truth);
        prop_assert!(laid.pairs.windows(2).all(|two| two[0].0 < two[1].0 && two[0].1 < two[1].1));
    }
}

#[test]
fn two_rooms_have_nothing_in_common() {
    let (a, b) = (noise(5.0, 0.1, 1), noise(5.0, 0.1, 2));
    let found = delay(Heard::new(&a, RATE).unwrap(), Heard::new(&b, RATE).unwrap());
    // White noise of five seconds has places that stand 5 out by chance.
    assert!(found.is_err() || found.is_ok_and(|found| found.sure < 1.2));
    let other = Heard::new(&b, 44_100).unwrap();
    assert!(matches!(
        delay(Heard::new(&a, RATE).unwrap(), other),
        Err(HearingError::Rate { .. })
    ));
}
