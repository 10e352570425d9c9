//! A film cut in the camera, replayed step by step on film that remembers each light.

use onestrand_film::{FramePos, Frames};
use onestrand_plan::{CameraLimits, CameraStep, InCamera, ScreenShot, in_camera};
use proptest::prelude::*;

fn frames(count: u32) -> Frames {
    Frames::new(count).expect("in range")
}

fn shot(at: usize, length: u32, dissolve: u32) -> ScreenShot {
    ScreenShot {
        name: format!("s{at}"),
        frames: frames(length),
        dissolve: frames(dissolve),
        line: Some(at as u64 + 1),
    }
}

/// Each frame of each roll with the shots it saw, and how much light of each in parts of
/// the whole: a fade of n frames lets i of n + 1 parts through at its frame i.
fn replay(film: &InCamera) -> Vec<Vec<Vec<(String, f64)>>> {
    let mut rolls: Vec<Vec<Vec<(String, f64)>>> = Vec::new();
    let mut counter = FramePos::ZERO;
    for step in &film.steps {
        match step {
            CameraStep::Load { roll } => {
                rolls.push(Vec::new());
                assert_eq!(rolls.len(), *roll);
                counter = FramePos::ZERO;
            }
            CameraStep::WindBack { frames, to } => {
                assert_eq!(to.index() + frames.count(), counter.index());
                counter = *to;
            }
            CameraStep::Expose {
                shot,
                frames,
                fade_in,
                fade_out,
            } => {
                assert_eq!(
                    frames.begin(),
                    counter,
                    "the counter stands where the shot begins"
                );
                let roll = rolls.last_mut().expect("a roll is in");
                let length = frames.len().count();
                roll.resize(roll.len().max(frames.end().index() as usize), Vec::new());
                for at in 0..length {
                    let part = |faded: u32, from: u32| f64::from(from + 1) / f64::from(faded + 1);
                    let mut light = 1.0;
                    if at < fade_in.count() {
                        light = part(fade_in.count(), at);
                    }
                    if length - at <= fade_out.count() {
                        light = part(fade_out.count(), length - at - 1);
                    }
                    roll[(counter.index() + at) as usize].push((shot.clone(), light));
                }
                counter = frames.end();
            }
        }
    }
    rolls
}

proptest! {
    #[test]
    fn every_frame_gets_the_light_of_one(
        parts in prop::collection::vec((20_u32..60, 0_u32..11), 1..12),
        load in 100_u32..400,
    ) {
        let last = parts.len() - 1;
        let shots: Vec<ScreenShot> = parts
            .iter()
            .enumerate()
            .map(|(at, (length, dissolve))| shot(at, *length, if at == last { 0 } else { *dissolve }))
            .collect();
        let camera = CameraLimits { load: frames(load), wind_back: frames(10) };
        let Ok(film) = in_camera(&shots, &camera) else {
            // Only shots joined by dissolves that no roll holds are refused here.
            prop_assert!(parts.iter().map(|(length, _)| length).sum::<u32>() > load);
            return Ok(());
        };
        let rolls = replay(&film);
        prop_assert_eq!(rolls.len(), film.rolls.len());
        let mut order: Vec<String> = Vec::new();
        for (roll, used) in rolls.iter().zip(&film.rolls) {
            prop_assert_eq!(roll.len() as u32, used.count());
            prop_assert!(used.count() <= load);
            for seen in roll {
                prop_assert!(seen.len() == 1 || seen.len() == 2);
                let light: f64 = seen.iter().map(|(_, light)| light).sum();
                prop_assert!((light - 1.0).abs() < 1e-9, "light of {}", light);
                for (shot, _) in seen {
                    if !order.contains(shot) {
                        order.push(shot.clone());
                    }
                }
            }
        }
        let named: Vec<String> = shots.iter().map(|s| s.name.clone()).collect();
        prop_assert_eq!(order, named);
        let sum: u32 = shots.iter().map(|s| s.frames.count() - s.dissolve.count()).sum();
        prop_assert_eq!(film.frames().count(), sum);
    }
}

#[test]
fn all_that_a_camera_cannot_do_is_told_at_once() {
    let shots = [
        shot(0, 100, 95),
        shot(1, 80, 20),
        shot(2, 0, 0),
        shot(3, 500, 10),
    ];
    let camera = CameraLimits {
        load: frames(400),
        wind_back: frames(90),
    };
    let refused = in_camera(&shots, &camera).expect_err("wrong");
    let said: Vec<String> = refused.problems().iter().map(ToString::to_string).collect();
    assert_eq!(
        said,
        [
            "line 1, shot s0: a dissolve of 95 frames is longer than the 90 that the camera winds back",
            "line 2, shot s1: its 80 frames have no room for dissolves of 115 together; each frame can be laid over once",
            "line 3, shot s2: has no length; give it its seconds",
            "line 4, shot s3: nothing follows it to dissolve into; end with a cut",
            "line 4, shot s3: 490 frames from here to the next cut are more than the load of 400; put a cut between",
        ]
    );
    assert_eq!(
        in_camera(&[], &camera).expect_err("none").problems().len(),
        1
    );
}
