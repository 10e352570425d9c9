//! Unmixed film frames against the film, through real coding.

use onestrand_cadence::{FilmFrame, Layer, Standing, unmix, unmix_picture};
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

/// What unmixing a film frame gained.
#[derive(Debug, Clone, Copy)]
struct Gain {
    moves: bool,
    /// Decibels nearer the film than the best file frame, part by part; nothing
    /// where that was kept.
    by_parts: Option<f64>,
    /// The same with one set of weights for the whole picture.
    whole: Option<f64>,
}

/// What was gained on every blended film frame.
fn gains(roll: &Roll, transfer: &Transfer, coding: &str) -> Vec<Gain> {
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
    let blended = outcome.frames.iter().filter(|frame| {
        let is_blended = frame.standing == Standing::Blended;
        assert!(is_blended || (frame.unmix.is_empty() && frame.recipe.is_none()));
        is_blended
    });
    blended
        .map(|frame| {
            let film = levels(&roll.frame(frame.number));
            let best = psnr(picture(frame.shown_by.expect("it is shown")), &film);
            let scene = roll.scene(frame.number).expect("it is on the roll");
            Gain {
                moves: matches!(scene, Scene::Walk | Scene::Pan(_)),
                by_parts: by_parts(frame, &picture).map(|mixed| psnr(&mixed, &film) - best),
                whole: whole(frame, &picture).map(|mixed| psnr(&mixed, &film) - best),
            }
        })
        .collect()
}

fn by_parts<'a>(frame: &FilmFrame, picture: &dyn Fn(u64) -> &'a [u8]) -> Option<Vec<u8>> {
    let recipe = frame.recipe.as_ref()?;
    let layer = Layer {
        pictures: recipe.file_frames().iter().map(|k| picture(*k)).collect(),
        width: SIZE.0,
    };
    let layers = unmix_picture(recipe, &[layer]).expect("pictures of one size");
    layers.map(|mut layers| layers.remove(0))
}

fn whole<'a>(frame: &FilmFrame, picture: &dyn Fn(u64) -> &'a [u8]) -> Option<Vec<u8>> {
    let parts = frame.unmix.iter().map(|(k, weight)| (picture(*k), *weight));
    let parts: Vec<(&[u8], f32)> = parts.collect();
    (!parts.is_empty()).then(|| unmix(&parts).expect("pictures of one size"))
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
fn moving_and_least(gains: &[Gain], of: fn(&Gain) -> Option<f64>) -> (Vec<f64>, f64) {
    let moving = gains.iter().filter(|gain| gain.moves);
    let mut moving: Vec<f64> = moving.filter_map(of).collect();
    moving.sort_unstable_by(f64::total_cmp);
    let least = gains.iter().filter_map(of).fold(f64::MAX, f64::min);
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

/// A transfer of another drawn roll, coded, and how many of its moving blended
/// film frames at least are put together.
struct Trial {
    transfer: Transfer,
    coding: &'static str,
    least: usize,
}

#[test]
fn unmixed_frames_of_prores_and_fine_h264_are_three_decibels_nearer_the_film() {
    let trial = |transfer: fn() -> Transfer, coding, least| Trial {
        transfer: transfer(),
        coding,
        least,
    };
    for Trial {
        transfer,
        coding,
        least: fewest,
    } in [
        trial(off_the_wall, PRORES, 25),
        trial(wandering, PRORES, 70),
        trial(half_open, PRORES, 70),
        // Where H.264 left the best file frame nearly clean, little pays.
        trial(off_the_wall, H264_18, 1),
        trial(wandering, H264_18, 40),
        trial(half_open, H264_18, 40),
    ] {
        let gains = gains(&roll(), &transfer, coding);
        let (moving, least) = moving_and_least(&gains, |gain| gain.by_parts);
        let all = gains.iter().filter(|gain| gain.moves).count();
        let what = format!("{coding} {:?}: {} of {all}", transfer.film, moving.len());
        assert!(moving.len() >= fewest, "{what}");
        let median = moving[moving.len() / 2];
        assert!(median >= 3.0 && least >= -0.5, "{what}: {median}, {least}");
        let (_, least) = moving_and_least(&gains, |gain| gain.whole);
        assert!(least >= -0.5, "one set of weights: {what}: {least}");
    }
}

#[test]
fn where_coding_left_little_to_unmix_nothing_gets_half_a_decibel_worse() {
    for (transfer, coding) in [
        (off_the_wall(), H264_28),
        (wandering(), H264_28),
        (half_open(), H264_28),
        (half_open(), MJPEG),
    ] {
        let gains = gains(&roll(), &transfer, coding);
        for of in [|gain: &Gain| gain.by_parts, |gain: &Gain| gain.whole] {
            let (moving, least) = moving_and_least(&gains, of);
            let what = format!("{coding} {:?}: {}", transfer.film, moving.len());
            let median = moving.get(moving.len() / 2).copied().unwrap_or(0.0);
            assert!(least >= -0.5 && median >= 0.0, "{what}: {median}, {least}");
        }
    }
}
