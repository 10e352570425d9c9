//! What is told of rolls on which nothing was planted.

use crate::drawn::RollPlan;
use crate::reading::read;
use onestrand_signs::SignLimits;

#[test]
fn ordinary_rolls_have_at_most_one_and_a_half_signs_in_a_thousand_frames() {
    let (mut frames, mut told) = (0, Vec::new());
    for seed in 21..27 {
        let roll = read(RollPlan::ordinary(seed, 8));
        frames += roll.record.frames();
        told.extend(roll.record.signs(&roll.takes, &SignLimits::default()));
    }
    assert!(frames > 4000);
    let rate = told.len() as f32 * 1000.0 / frames as f32;
    assert!(rate <= 1.5, "{rate}: {told:?}");
}
