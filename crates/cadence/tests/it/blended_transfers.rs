//! Film frames blended by an open shutter, at speeds that wander.

use onestrand_cadence::{Standing, Transfer as Kind};
use onestrand_telecine::{Look, Roll, Scene, Transfer};

use super::score::{CODING, Outcome, find, mixed_roll};

fn transfers() -> Vec<Transfer> {
    let of = |film, file, exposure, drift, phase| {
        Transfer::clean(film, file)
            .exposed(exposure)
            .drifting(drift, 1800.0)
            .from_phase(phase)
    };
    vec![
        of((18, 1), (25, 1), 1.0, 0.02, 0.3),
        of((441, 25), (30_000, 1001), 1.0, 0.0, 0.0),
        of((18, 1), (30_000, 1001), 1.0, 0.03, 0.6),
        of((16, 1), (25, 1), 0.6, 0.02, 0.1),
        of((50, 3), (25, 1), 0.8, 0.01, 0.5),
        of((20, 1), (24, 1), 1.0, 0.01, 0.8),
        of((24, 1), (25, 1), 1.0, 0.0, 0.2),
        of((24, 1), (30, 1), 0.4, 0.02, 0.7),
        of((9, 1), (25, 1), 1.0, 0.03, 0.4),
        of((18, 1), (50, 1), 1.0, 0.03, 0.9),
        of((24, 1), (60_000, 1001), 0.5, 0.02, 0.0),
        of((14, 1), (60, 1), 1.0, 0.03, 0.2),
        of((29, 1), (50, 1), 0.9, 0.02, 0.6),
    ]
}

#[test]
fn blends_at_wandering_speeds_are_counted_and_placed() {
    let (mut all, mut misplaced) = (0, 0);
    for (seed, transfer) in (200..).zip(transfers()) {
        let roll = mixed_roll(Look::FAIR, seed);
        let outcome = find(&roll, &transfer, CODING);
        let frames = outcome.frames.len();
        let off = outcome.misplaced();
        assert!(frames.abs_diff(800) <= 1, "{transfer:?}: {frames}");
        assert!(off.len() <= 4, "{transfer:?}: {off:?}");
        assert_eq!(outcome.found.transfer, Kind::Blended, "{transfer:?}");
        assert!(
            outcome.found.faults.is_empty(),
            "{transfer:?}: {:?}",
            outcome.found.faults
        );
        all += frames;
        misplaced += off.len();
    }
    assert!(misplaced * 1000 <= all, "{misplaced} of {all}");
}

/// The roll of story 3: 3,600 frames copied off the wall.
fn off_the_wall(exposure: f64) -> Outcome {
    let scenes: Vec<(Scene, u32)> = (0..9)
        .flat_map(|turn| {
            [
                (Scene::Walk, 180),
                (Scene::Pan(0.006), 100),
                (Scene::Still, 80 + turn * 10),
            ]
        })
        .collect();
    let frames: u32 = scenes.iter().map(|scene| scene.1).sum();
    let rest = [(Scene::Title, 3600 - frames)];
    let roll = Roll::new(
        (192, 144),
        Look::FAIR,
        3,
        &[scenes.as_slice(), &rest].concat(),
    );
    let transfer = Transfer::clean((441, 25), (30_000, 1001)).exposed(exposure);
    find(&roll, &transfer, CODING)
}

#[test]
fn story_3_a_roll_copied_off_the_wall_at_29_97() {
    let outcome = off_the_wall(1.0);
    assert_eq!(outcome.truth.len(), 6116);
    assert_eq!(outcome.frames.len(), 3600);
    let speed = outcome.found.film_speed.expect("the rate is known");
    assert_eq!(speed.to_string(), "441/25");
    let (clean, blended) = (
        outcome.count(Standing::Clean),
        outcome.count(Standing::Blended),
    );
    assert!(
        clean.abs_diff(2517) <= 1 && blended.abs_diff(1083) <= 1,
        "{clean} {blended}"
    );
    let file_blends = outcome.found.blended_file_frames;
    assert!(file_blends.abs_diff(3599) <= 1, "{file_blends}");
}

#[test]
fn story_3_at_a_sixtieth_of_a_second_all_would_have_been_clean() {
    let outcome = off_the_wall(29.97 / 60.0);
    assert_eq!(outcome.frames.len(), 3600);
    assert_eq!(outcome.count(Standing::Clean), 3600);
}

#[test]
fn blends_that_come_and_go_once_in_25_file_frames_are_seen_over_many_turns() {
    for (seed, (exposure, drift)) in (220..).zip([(1.0, 0.0), (1.0, 0.01), (0.75, 0.0)]) {
        let roll = mixed_roll(Look::FAIR, seed);
        let transfer = Transfer::clean((24, 1), (25, 1))
            .exposed(exposure)
            .drifting(drift, 1800.0)
            .from_phase(0.3);
        let outcome = find(&roll, &transfer, CODING);
        let frames = outcome.frames.len();
        let off = outcome.misplaced();
        assert_eq!(outcome.found.transfer, Kind::Blended, "{transfer:?}");
        assert!(frames.abs_diff(800) <= 1, "{transfer:?}: {frames}");
        assert!(off.len() <= 4, "{transfer:?}: {off:?}");
    }
}
