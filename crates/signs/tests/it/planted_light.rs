//! Steps of light planted between takes, in points: twelve are a stop.

use crate::drawn::{Camera, Fault, RollPlan};
use crate::reading::read;
use onestrand_signs::RollLight;
use std::ops::Range;

/// As many frames as a question looks at on each side of a join.
const BESIDE: u32 = 9;

fn step(light: &RollLight, before: &Range<u32>, after: &Range<u32>) -> Option<f32> {
    let out = light.over(before.end - BESIDE..before.end)?;
    let into = light.over(after.start + 3..after.start + 3 + BESIDE)?;
    out.step_to(&into)
}

/// Two takes of one set-up, one with light planted, on many rolls: told within three
/// quarters of a point, and hardly ever not told.
#[test]
fn planted_points_are_told() {
    let (mut told, mut asked, mut worst) = (0, 0, 0.0_f32);
    for (at, points) in (0_u64..).zip([-18, -12, -8, -6, -3, 0, 3, 6, 8, 12]) {
        for seed in [900 + at, 930 + at, 960 + at] {
            let plan = RollPlan::new(seed, &[(Camera::Stands, 48), (Camera::StandsOn, 48)])
                .with(Fault::Stops(points as f32 / 12.0), 48..96);
            let roll = read(plan);
            asked += 1;
            let Some(found) = step(&roll.record.light(), &(0..48), &(48..96)) else {
                continue;
            };
            told += 1;
            let off = (found - points as f32).abs();
            worst = worst.max(off);
        }
    }
    assert!(told + 2 >= asked, "{told} of {asked}");
    assert!(worst <= 0.75, "{worst}");
}

/// Two places that have nothing in common are not compared, however light.
#[test]
fn other_places_are_not_compared() {
    let mut told = Vec::new();
    for seed in 1000..1030 {
        let takes = [(Camera::Stands, 40), (Camera::Stands, 40)];
        let roll = read(RollPlan::new(seed, &takes));
        told.extend(step(&roll.record.light(), &(0..40), &(40..80)));
    }
    assert!(told.len() <= 1, "{told:?}");
}
