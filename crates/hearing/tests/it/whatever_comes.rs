//! Whatever sound comes, nothing panics, and what is answered lies inside it.

use onestrand_hearing::{
    Heard, LoopWish, Mains, beats, best_seam, claps, delay, hum, loop_beats, onsets, tone,
};
use proptest::prelude::*;

use crate::made::Chance;

/// Sounds that hurt: nothing, a step, one sample, full scale, far above it, tiny, chopped noise.
fn sound(kind: u8, length: usize, seed: u64) -> Vec<f32> {
    let mut chance = Chance::new(seed);
    (0..length)
        .map(|at| match kind {
            0 => 0.0,
            1 => 0.7,
            2 => f32::from(u8::from(at == length / 2)),
            3 => {
                if at % 2 == 0 {
                    1.0
                } else {
                    -1.0
                }
            }
            4 => 1e-20 * chance.normal() as f32,
            5 => 150.0 * chance.normal() as f32,
            6 => {
                if at / 700 % 3 == 0 {
                    chance.normal() as f32
                } else {
                    0.0
                }
            }
            _ => (0.1 * at as f64).sin() as f32,
        })
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn nothing_panics(kind in 0_u8..8, length in 0_usize..60_000, rate in 4_000_u32..192_000, seed in 1_u64..1_000) {
        let samples = sound(kind, length, seed);
        let heard = Heard::new(&samples, rate).unwrap();
        let inside = |seconds: f64| (0.0..=heard.seconds()).contains(&seconds);
        for found in onsets(heard).unwrap_or_default() {
            prop_assert!(inside(found.seconds) && found.strength.is_finite());
        }
        for found in claps(heard).unwrap_or_default() {
            prop_assert!(inside(found.seconds));
        }
        if let Ok(found) = beats(heard, 60.0, 180.0) {
            prop_assert!(found.seconds.iter().all(|beat| inside(*beat)) && found.bpm.is_finite());
            prop_assert!(found.seconds.windows(2).all(|pair| pair[0] < pair[1]), "{found:?}");
        }
        if let Ok((bpm, whole)) = loop_beats(heard, 60.0, 180.0) {
            prop_assert!(bpm.is_finite() && whole > 0);
        }
        if let Ok(found) = tone(heard, 440.0, 0.1) {
            prop_assert!((300.0..600.0).contains(&found.hertz), "{found:?}");
        }
        if let Ok(found) = hum(heard, Mains::Sixty, 0.05) {
            prop_assert!((50.0..70.0).contains(&found.hertz), "{found:?}");
        }
        if let Ok(found) = best_seam(heard, LoopWish { least: 1.0, fade: 0.1 }) {
            prop_assert_eq!(found.carry_out(heard).len(), found.to - found.from);
            prop_assert!(found.from >= found.fade && found.to <= samples.len());
        }
        if let Ok(found) = delay(heard, heard) {
            // What repeats itself is alike in many places, and says so.
            prop_assert!(found.seconds.abs() < 1e-3 || found.sure < 1.2, "{found:?}");
        }
    }
}

#[test]
fn what_is_no_sound_is_refused() {
    use onestrand_hearing::HearingError;
    let refused = |sample: f32| Heard::new(&[0.0, sample], 48_000).unwrap_err();
    assert_eq!(refused(f32::NAN), HearingError::NoNumber { at: 1 });
    assert_eq!(refused(f32::INFINITY), HearingError::NoNumber { at: 1 });
    assert!(matches!(refused(1e30), HearingError::OutOfRange { .. }));
}

/// A slate between words: the clap comes first, the words after it.
#[test]
fn the_clap_of_a_slate_is_the_likeliest() {
    use crate::made::{RATE, bell, knock, lay, noise};
    let mut take = noise(8.0, 0.002, 3);
    for (at, pitch) in [
        (0.6, 140.0),
        (1.1, 180.0),
        (1.7, 120.0),
        (4.0, 160.0),
        (5.2, 150.0),
    ] {
        lay(
            &mut take,
            (at * f64::from(RATE)) as usize,
            &bell(0.4, pitch),
            0.6,
        );
    }
    lay(
        &mut take,
        (2.9 * f64::from(RATE)) as usize,
        &knock(12.0, 8),
        1.2,
    );
    let found = claps(Heard::new(&take, RATE).unwrap()).unwrap();
    assert!((found[0].seconds - 2.9).abs() < 0.002, "{found:?}");
    let frame = found[0]
        .frame(
            onestrand_film::FramePos::ZERO,
            onestrand_film::Fps::EIGHTEEN,
        )
        .unwrap();
    assert_eq!(frame.index(), 52);
}
