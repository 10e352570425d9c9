//! Loops of atmosphere.

use onestrand_hearing::{Heard, HearingError, LoopWish, best_seam};

use crate::made::{RATE, knock, lay, noise, rms};

const WISH: LoopWish = LoopWish {
    least: 6.0,
    fade: 0.5,
};

/// Water: noise whose top falls off, swelling slowly.
fn water(seconds: f64, seed: u64) -> Vec<f32> {
    let mut low = 0.0;
    noise(seconds, 0.2, seed)
        .iter()
        .enumerate()
        .map(|(at, sample)| {
            low += 0.08 * (sample - low);
            let time = at as f64 / f64::from(RATE);
            low * (1.0 + 0.2 * (time * 0.9).sin()) as f32
        })
        .collect()
}

#[test]
fn the_loop_has_its_length_and_keeps_its_level_over_the_seam() {
    let sound = water(20.0, 1);
    let heard = Heard::new(&sound, RATE).unwrap();
    let seam = best_seam(heard, WISH).unwrap();
    let made = seam.carry_out(heard);
    assert_eq!(made.len(), seam.to - seam.from);
    assert!(made.len() as f64 >= 6.0 * f64::from(RATE));
    assert!(seam.from >= seam.fade && seam.to <= sound.len());
    // The sample after the last is the first: no step at the turn.
    assert!((made[made.len() - 1] - sound[seam.from - 1]).abs() < 1e-3);
    assert_eq!(made[0].to_bits(), sound[seam.from].to_bits());
    let in_fade = rms(&made[made.len() - seam.fade * 3 / 4..made.len() - seam.fade / 4]);
    let before = rms(&made[made.len() - 3 * seam.fade..made.len() - seam.fade]);
    let step = 20.0 * (in_fade / before).log10();
    assert!(step.abs() < 1.5, "{step} dB at the seam");
    assert!(seam.times_usual < 2.0 && !seam.has_a_beat(), "{seam:?}");
}

/// A duck at 4 s and a shout at 17 s are left out of the loop.
#[test]
fn loud_single_events_stay_outside() {
    let mut sound = water(24.0, 2);
    for at in [4.0, 17.5] {
        lay(
            &mut sound,
            (at * f64::from(RATE)) as usize,
            &knock(60.0, 9),
            1.0,
        );
    }
    let seam = best_seam(Heard::new(&sound, RATE).unwrap(), WISH).unwrap();
    let (from, to) = (
        seam.from as f64 / f64::from(RATE),
        seam.to as f64 / f64::from(RATE),
    );
    assert!(from > 4.0 && to < 17.5, "{from} to {to}");
    assert!(!seam.has_a_beat(), "{seam:?}");
}

/// A level that creeps: a seam of the two ends would be heard, and is said to be.
#[test]
fn a_creeping_level_is_measured_and_a_worse_seam_is_told_from_a_better() {
    let sound: Vec<f32> = water(20.0, 3)
        .iter()
        .enumerate()
        .map(|(at, sample)| sample * (at as f32 / 960_000.0 * 2.0).exp())
        .collect();
    let heard = Heard::new(&sound, RATE).unwrap();
    let seam = best_seam(
        heard,
        LoopWish {
            least: 17.0,
            fade: 0.1,
        },
    )
    .unwrap();
    assert!(seam.times_usual > 2.0 && seam.has_a_beat(), "{seam:?}");
    let short = best_seam(
        heard,
        LoopWish {
            least: 3.0,
            fade: 1.0,
        },
    )
    .unwrap();
    assert!(short.off_db < seam.off_db, "{short:?} {seam:?}");
}

#[test]
fn wishes_that_cannot_be() {
    let sound = water(5.0, 4);
    let heard = Heard::new(&sound, RATE).unwrap();
    assert!(matches!(
        best_seam(heard, WISH),
        Err(HearingError::NoLoop { .. })
    ));
    let wish = LoopWish {
        least: 2.0,
        fade: 1.5,
    };
    assert!(matches!(
        best_seam(heard, wish),
        Err(HearingError::OutOfRange { .. })
    ));
}
