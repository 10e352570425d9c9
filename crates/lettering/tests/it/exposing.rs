//! Lettering laid over a ground.

use onestrand_lettering::{Design, laid_over};

use crate::{card, grey};

const SIZE: (u32, u32) = (200, 150);

#[test]
fn light_is_mixed_not_numbers() {
    let layer = card("MMMM", Design::Plain).draw(SIZE.0, SIZE.1, 0.0);
    let whole = laid_over(&grey(0, SIZE), &layer, 1.0, 1.0);
    let half = laid_over(&grey(0, SIZE), &layer, 1.0, 0.5);
    // Half of the light of level 252 (0.974 of white) is level 186 by IEC 61966-2-1:
    // 1.055 × 0.487^(1/2.4) − 0.055 = 0.727; a mean of the numbers would be 126.
    let at = whole
        .iter()
        .position(|v| *v == 252)
        .expect("the middle of a letter");
    assert_eq!(half[at], 185 + u8::from(half[at] == 186));
}

#[test]
fn a_fade_is_a_row_of_calls() {
    let layer = card("Boat", Design::Plain).draw(SIZE.0, SIZE.1, 0.0);
    let ground = grey(120, SIZE);
    assert_eq!(laid_over(&ground, &layer, 1.0, 0.0), ground);
    let sum = |shows: f64| -> u64 {
        let picture = laid_over(&ground, &layer, 1.0, shows);
        picture.iter().map(|v| u64::from(*v)).sum()
    };
    let sums: Vec<u64> = (0..=10).map(|n| sum(f64::from(n) / 10.0)).collect();
    assert!(sums.windows(2).all(|two| two[0] < two[1]), "{sums:?}");
}

#[test]
fn a_darker_ground_is_darker_by_the_stop() {
    let layer = card("Boat", Design::Plain).draw(SIZE.0, SIZE.1, 0.0);
    let dark = laid_over(&grey(188, SIZE), &layer, 0.5, 1.0);
    // 188 is half the light of white; a stop less is a quarter: level 137.
    assert_eq!(dark[0], 137);
}
