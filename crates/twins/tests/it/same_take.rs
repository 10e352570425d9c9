//! What must hold of every map: equal takes, shifted takes, order, both ways.

use crate::drawn::{retaken, take, walkers};
use crate::retake::Retake;
use num_rational::Ratio;
use onestrand_film::FramePos;
use onestrand_twins::{TakeMovement, TimeMap, lay_beside};
use proptest::prelude::*;

fn laid(here: &TakeMovement, there: &TakeMovement) -> TimeMap {
    lay_beside(here, there).expect("figures that go about are known again")
}

fn frames_of(map: &TimeMap) -> impl Iterator<Item = FramePos> {
    let range = map.found_over().expect("a found map");
    let frames = range.begin().index()..range.end().index();
    frames.map(|frame| FramePos::new(frame).expect("a frame"))
}

#[test]
fn a_take_beside_itself_is_itself() {
    let planes = walkers(3, 150);
    let map = laid(&take(40, &planes), &take(900, &planes));
    assert_eq!(map.pace(), Ratio::from(1));
    assert!(frames_of(&map).count() > 140);
    for frame in frames_of(&map) {
        let there = map.there(frame).expect("in range").frame;
        assert_eq!(there, Ratio::from(i64::from(frame.index()) + 860));
    }
}

/// Longer than a take ever is; on every second frame, and the shift still told.
#[test]
fn long_takes_are_laid_in_bounded_memory() {
    let planes = walkers(8, 2000);
    let map = laid(&take(0, &planes), &take(0, &planes[31..]));
    let mut frames = 0;
    for frame in frames_of(&map) {
        let there = map.there(frame).expect("in range");
        let off = there.decimal() - (f64::from(frame.index()) - 31.0);
        // Where the other begins there is nothing to compare with.
        let room = if frame.index() < 40 { 1.5 } else { 0.5 };
        assert!(off.abs() <= room, "{off} at {frame}");
        frames += 1;
    }
    assert!(frames > 1900, "{frames} frames");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 6, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_same_film_from_another_frame_on_is_shifted_exactly(
        seed in 0_u64..500, late in 0_usize..60, early in 0_usize..60,
    ) {
        let planes = walkers(seed, 200);
        let here = take(100, &planes[late..]);
        let there = take(100, &planes[..200 - early]);
        let map = laid(&here, &there);
        prop_assert_eq!(map.pace(), Ratio::from(1));
        for frame in frames_of(&map) {
            let there = map.there(frame).expect("in range").frame;
            prop_assert_eq!(there, Ratio::from(i64::from(frame.index()) + late as i64));
        }
    }

    #[test]
    fn maps_go_forward_and_agree_both_ways(seed in 0_u64..500, tenths in 0_u32..5) {
        let planes = walkers(seed, 170);
        let speed = 0.9 + 0.05 * tenths as f32;
        let here = retaken(&planes, &Retake { seed, ..Retake::PLAIN }, 0);
        let other = Retake { speed, wavers: 1.0, start: 12.0, exposure: 0.5, seed: seed + 1, ..Retake::PLAIN };
        let there = retaken(&planes, &other, 3000);
        let (map, back) = (laid(&here, &there), laid(&there, &here).reversed());
        let mut before = None;
        let mut both = 0;
        for frame in frames_of(&map) {
            let there = map.there(frame).expect("in range");
            // No faster than the fastest pace and a step aside.
            if let Some(before) = before.replace(there.frame) {
                let step = there.frame - before;
                prop_assert!(step > Ratio::new(1, 2) && step < Ratio::new(3, 2), "{step} at {frame}");
            }
            if let Some(other) = back.there(frame) {
                let apart = (there.decimal() - other.decimal()).abs();
                let known = there.uncertain.hypot(other.uncertain);
                prop_assert!(apart <= 3.0 * known, "{apart} at {frame}, known to {known}");
                both += 1;
            }
        }
        prop_assert!(both > 100, "only {both} frames in both");
    }
}
