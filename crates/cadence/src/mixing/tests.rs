//! Film frames put together of drawn blends.

use super::*;
use crate::recipe::recipe;
use crate::shown::Shown;

const WIDTH: usize = 37;
const HEIGHT: usize = 29;

/// Levels of film frames that are strangers on the left and alike on the right,
/// and noise of a file frame.
fn level(of: u64, at: usize) -> f64 {
    let chance = (of * 7919 + at as u64).wrapping_mul(0x9E37_79B9_7F4A_7C15) >> 40;
    chance as f64 / f64::from(1 << 24) - 0.5
}

fn film(frame: u64, at: usize) -> f64 {
    let strength = if at % WIDTH < WIDTH / 2 { 90.0 } else { 4.0 };
    128.0 + strength * level(frame, at)
}

/// File frames of half the length of film frames, every other one a blend.
fn shown() -> Vec<(u64, Shown)> {
    let one = |k: u64| {
        let first = (k * 3 / 5) as i64;
        let weights = match k * 3 % 5 {
            3 => [0.667, 0.333, 0.0],
            4 => [0.333, 0.667, 0.0],
            _ => [1.0, 0.0, 0.0],
        };
        (k, Shown { first, weights })
    };
    (0..10).map(one).collect()
}

fn file(noise: f64) -> Vec<Vec<f64>> {
    let picture = |(k, shown): &(u64, Shown)| {
        let sample = |at: usize| {
            let film: f64 = shown
                .turns()
                .map(|(turn, share)| f64::from(share) * film(turn as u64, at))
                .sum();
            film + noise * level(1000 + k, at)
        };
        (0..WIDTH * HEIGHT).map(sample).collect()
    };
    shown().iter().map(picture).collect()
}

fn error(picture: &[f64], frame: u64) -> f64 {
    let squares = picture
        .iter()
        .enumerate()
        .map(|(at, level)| (level - film(frame, at)).powi(2));
    squares.sum::<f64>() / picture.len() as f64
}

fn mixed<S: Sample + Into<f64> + PartialEq + std::fmt::Debug>(
    file: &[Vec<f64>],
    scale: f64,
    recipe: &Recipe,
) -> Option<Vec<f64>> {
    let samples: Vec<Vec<S>> = file
        .iter()
        .map(|picture| {
            picture
                .iter()
                .map(|level| S::nearest((level * scale) as f32))
                .collect()
        })
        .collect();
    let pictures = recipe
        .file_frames()
        .iter()
        .map(|k| samples[*k as usize].as_slice());
    let layer = Layer {
        pictures: pictures.collect(),
        width: WIDTH,
    };
    let layers = unmix_picture(recipe, &[layer.clone(), layer]).unwrap()?;
    assert_eq!(layers[0], layers[1]);
    Some(
        layers[0]
            .iter()
            .map(|sample| Into::<f64>::into(*sample) / scale)
            .collect(),
    )
}

#[test]
fn a_film_frame_comes_out_of_blends_in_eight_and_in_sixteen_bits() {
    // Film frame 2 is in the file frames 3 and 4, blended either time.
    let recipe = recipe(&shown(), 2, 3).unwrap();
    let file = file(2.0);
    let best = error(&file[recipe.file_frames()[recipe.best] as usize], 2);
    let eight = mixed::<u8>(&file, 1.0, &recipe).expect("it is worth it");
    let sixteen = mixed::<u16>(&file, 257.0, &recipe).expect("it is worth it");
    let (of_eight, of_sixteen) = (error(&eight, 2), error(&sixteen, 2));
    assert!(
        of_eight < best / 20.0 && of_sixteen < best / 20.0,
        "{best} {of_eight} {of_sixteen}"
    );
    let farthest = eight
        .iter()
        .zip(&sixteen)
        .map(|(a, b)| (a - b).abs())
        .fold(0.0, f64::max);
    assert!(farthest < 3.0, "{farthest}");
}

#[test]
fn where_little_differs_file_frames_are_averaged_and_noise_goes() {
    let recipe = recipe(&shown(), 2, 3).unwrap();
    let file = file(12.0);
    let mixed = mixed::<u8>(&file, 1.0, &recipe).expect("it is worth it");
    let samples: Vec<Vec<u8>> = file.iter().map(|picture| bytes(picture)).collect();
    let finest = recipe.weights[GRADES.len() - 1].iter();
    let parts: Vec<(&[u8], f32)> = finest
        .zip(recipe.file_frames())
        .map(|(weight, k)| (samples[*k as usize].as_slice(), *weight as f32))
        .collect();
    let exact = crate::unmix(&parts).unwrap();
    let right = |picture: &[f64]| {
        let squares = (0..WIDTH * HEIGHT)
            .filter(|at| at % WIDTH > 3 * WIDTH / 4)
            .map(|at| (picture[at] - film(2, at)).powi(2));
        squares.sum::<f64>()
    };
    let exact: Vec<f64> = exact.into_iter().map(f64::from).collect();
    assert!(
        right(&mixed) < 0.6 * right(&exact),
        "{} {}",
        right(&mixed),
        right(&exact)
    );
}

fn bytes(picture: &[f64]) -> Vec<u8> {
    picture
        .iter()
        .map(|level| u8::nearest(*level as f32))
        .collect()
}

#[test]
fn what_noise_hides_is_left_alone_and_pictures_must_fit() {
    let recipe = recipe(&shown(), 2, 3).unwrap();
    assert_eq!(mixed::<u8>(&file(150.0), 1.0, &recipe), None);
    let one = [0_u8; 12];
    let layer = |pictures: Vec<&'static [u8]>, width| Layer { pictures, width };
    let few = unmix_picture(&recipe, &[layer(vec![&[0; 12]; 2], 4)]);
    assert_eq!(few.unwrap_err().code(), "cadence.picture_count");
    let count = recipe.file_frames().len();
    assert!(unmix_picture(&recipe, &[layer(vec![&[0; 12]; count], 5)]).is_err());
    let mut pictures: Vec<&[u8]> = vec![&one; count];
    pictures[1] = &one[1..];
    let uneven = unmix_picture(&recipe, &[Layer { pictures, width: 4 }]);
    assert_eq!(uneven.unwrap_err().code(), "cadence.picture_size");
}
