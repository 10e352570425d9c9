//! Unmixed film frames against the film, through real coding.

use onestrand_cadence::{Standing, unmix};
use onestrand_telecine::{Coding, Look, Projection, Roll, Scene, Transfer, levels};

use super::coded::{H264_18, H264_28, MJPEG, PRORES, grey, planes, write};
use super::score::{find_in, settings};

const SIZE: (usize, usize) = (320, 240);
const PIXELS: usize = SIZE.0 * SIZE.1;

/// Signal to noise in decibels.
fn psnr(picture: &[u8], film: &[u8]) -> f64 {
    let squares = picture
        .iter()
        .zip(film)
        .map(|(a, b)| f64::from(a.abs_diff(*b)).powi(2));
    let error = squares.sum::<f64>() / film.len() as f64;
    10.0 * (255.0 * 255.0 / error.max(1e-3)).log10()
}

/// Decibels gained by every film frame that was unmixed, with its scene.
fn gains(roll: &Roll, transfer: &Transfer, coding: &str) -> Vec<(Scene, f64)> {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("copy.mov");
    let still = Coding { noise: 0.0 };
    let frames = Projection::new(roll, transfer, still).map(|frame| frame.levels);
    write(&path, frames, SIZE, transfer.file, coding);
    let truth = transfer.truth(roll.frames());
    let outcome = find_in(planes(&path).into_iter(), truth, settings(transfer.file));
    assert_eq!(outcome.frames.len() as u32, roll.frames(), "{coding}");
    let file = grey(&path);
    let picture = |k: u64| &file[k as usize * PIXELS..(k as usize + 1) * PIXELS];
    let unmixed = outcome.frames.iter().filter(|frame| {
        assert!(frame.unmix.is_empty() || frame.standing == Standing::Blended);
        !frame.unmix.is_empty()
    });
    unmixed
        .map(|frame| {
            let film = levels(&roll.frame(frame.number));
            let parts: Vec<(&[u8], f32)> = frame
                .unmix
                .iter()
                .map(|(k, weight)| (picture(*k), *weight))
                .collect();
            let mixed = unmix(&parts).expect("pictures of one size");
            let best = picture(frame.shown_by.expect("it is shown"));
            let scene = roll.scene(frame.number).expect("it is on the roll");
            (scene, psnr(&mixed, &film) - psnr(best, &film))
        })
        .collect()
}

/// Walkers, a pan and a still scene, with full-size grain.
fn roll() -> Roll {
    let look = Look {
        grain: 4.0,
        ..Look::FAIR
    };
    let scenes = [
        (Scene::Walk, 140),
        (Scene::Pan(0.008), 100),
        (Scene::Still, 60),
    ];
    Roll::new(SIZE, look, 11, &scenes)
}

/// Gains on frames that move, rising, and the least of all.
fn moving_and_least(transfer: &Transfer, coding: &str) -> (Vec<f64>, f64) {
    let gains = gains(&roll(), transfer, coding);
    let is_moving = |gain: &&(Scene, f64)| matches!(gain.0, Scene::Walk | Scene::Pan(_));
    let mut moving: Vec<f64> = gains.iter().filter(is_moving).map(|gain| gain.1).collect();
    moving.sort_unstable_by(f64::total_cmp);
    let least = gains.iter().map(|gain| gain.1).fold(f64::MAX, f64::min);
    (moving, least)
}

fn off_the_wall() -> Transfer {
    Transfer::clean((441, 25), (30_000, 1001)).exposed(1.0)
}

fn wandering() -> Transfer {
    Transfer::clean((18, 1), (25, 1))
        .exposed(1.0)
        .drifting(0.01, 900.0)
}

fn half_open() -> Transfer {
    Transfer::clean((20, 1), (24, 1)).exposed(0.7)
}

#[test]
fn unmixed_frames_of_prores_and_fine_h264_are_three_decibels_nearer_the_film() {
    for (transfer, coding) in [
        (off_the_wall(), PRORES),
        (wandering(), PRORES),
        (half_open(), PRORES),
        (wandering(), H264_18),
        (half_open(), H264_18),
    ] {
        let (moving, least) = moving_and_least(&transfer, coding);
        let median = moving[moving.len() / 2];
        let what = format!(
            "{coding} {:?}: median {median:.2}, least {least:.2}",
            transfer.film
        );
        assert!(moving.len() >= 40, "{what}: {}", moving.len());
        assert!(median >= 3.0 && least >= -0.5, "{what}");
    }
}

#[test]
fn where_coding_left_little_to_unmix_nothing_gets_half_a_decibel_worse() {
    for (transfer, coding) in [
        (off_the_wall(), H264_18),
        (wandering(), H264_28),
        (half_open(), MJPEG),
    ] {
        let (moving, least) = moving_and_least(&transfer, coding);
        let median = moving.get(moving.len() / 2).copied().unwrap_or(0.0);
        // Worth something still, but not three decibels.
        assert!(
            least >= -0.5 && median >= 0.0,
            "{coding}: {median:.2}, {least:.2}"
        );
    }
}
