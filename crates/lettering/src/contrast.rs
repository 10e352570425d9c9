//! How well the letters stand out where they stand.

use crate::light;
use crate::remedies;
use crate::{Layer, laid_over};

/// The ratio wanted of letters that are large enough for the last row.
///
/// WCAG 2.2 (success criterion 1.4.3) asks 4.5 of small letters on a screen one sits
/// before and 3 of large ones. Letters on a card are large; but a projected picture
/// has stray light on its blacks, from the lens, the film and the room. We take 4.5:
/// then 3 is still left when 17 % of the light of white lies over everything,
/// (1 + 0.05 + 0.175) / (0.183 + 0.05 + 0.175) = 3.0 with the black of 0.183 that
/// stands at 4.5 beside white.
const WANTED: f64 = 4.5;
/// The ratio wanted of smaller letters: WCAG 2.2, 1.4.6 (enhanced).
const WANTED_SMALL: f64 = 7.0;
/// Below this capital height letters are small. Unit: parts of the picture height;
/// 20′ at the last row, see `setting`.
const SMALL: f64 = 0.032;

/// A place of a picture. Unit: pixels from the top left.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Place {
    /// Left edge.
    pub x: u32,
    /// Top edge.
    pub y: u32,
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
}

/// What would make the letters stand out enough; each was tried and measured.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Remedy {
    /// Let the words stand low, or at the top when negative: from the ink as it
    /// stands to the edge of the safe area. Unit: parts of the picture height.
    Move {
        /// How far down.
        down: f64,
    },
    /// Letters of the other colour: black for white, white for black.
    DarkLetters,
    /// A plate behind the words.
    Plate,
    /// Make the ground darker. Unit: stops.
    Darken {
        /// By how much.
        stops: f64,
    },
}

/// How light the letters are beside what is around them.
#[derive(Debug, Clone, PartialEq)]
pub struct Contrast {
    /// The worst ratio of any place where letters stand. Range: 1 to 21.
    pub ratio: f64,
    /// The ratio of the place in the middle of all, from best to worst.
    pub typical: f64,
    /// Where the worst is.
    pub worst: Place,
    /// The ratio wanted.
    pub wanted: f64,
    /// Whether the worst place is good enough.
    pub enough: bool,
    /// What would be enough, the least trouble first; empty when it is enough.
    pub remedies: Vec<Remedy>,
}

/// Measures the letters against what is around them, outline, shadow and plate
/// counted, in squares about one and a half capitals wide: the mean light of the
/// letter's core against the mean light of a rim around the letter, as the ratio of
/// WCAG 2, (L1 + 0.05) / (L2 + 0.05). The worst square counts. Where it is not
/// enough, remedies are tried: moving the words, letters of the other colour, a
/// plate, a darker ground.
///
/// A layer without letters stands out as well as can be: 21.
///
/// # Panics
/// When the ground has not the size of the layer.
#[must_use]
pub fn contrast(ground_rgb: &[u8], layer: &Layer, size: (u32, u32)) -> Contrast {
    assert_eq!(
        size,
        (layer.width, layer.height),
        "the layer is as large as the picture"
    );
    let measured = measured(&laid_over(ground_rgb, layer, 1.0, 1.0), layer);
    let is_small = f64::from(layer.capital) < SMALL * f64::from(layer.height);
    let wanted = if is_small { WANTED_SMALL } else { WANTED };
    let enough = measured.ratio >= wanted;
    Contrast {
        ratio: measured.ratio,
        typical: measured.typical,
        worst: measured.worst,
        wanted,
        enough,
        remedies: if enough {
            Vec::new()
        } else {
            remedies::tried(ground_rgb, layer, wanted)
        },
    }
}

/// What was measured of a picture with its letters on it.
pub(crate) struct Measured {
    pub(crate) ratio: f64,
    typical: f64,
    worst: Place,
}

/// The ratio of WCAG 2.
fn ratio_of(one: f32, other: f32) -> f64 {
    f64::from((one.max(other) + 0.05) / (one.min(other) + 0.05))
}

/// Sums over one square.
#[derive(Debug, Clone, Copy, Default)]
struct Square {
    core: f32,
    cores: u32,
    rim: f32,
    rims: u32,
}

/// Measures a picture that the layer (or one like it) lies on.
pub(crate) fn measured(shown: &[u8], layer: &Layer) -> Measured {
    let (width, height) = (layer.width as usize, layer.height as usize);
    let side = (layer.capital as usize * 3 / 2).clamp(6, 400);
    let across = width.div_ceil(side);
    let mut squares = vec![Square::default(); across * height.div_ceil(side)];
    let near = near_letters(layer);
    for (at, rgb) in shown.chunks_exact(3).enumerate() {
        if !near[at] {
            continue;
        }
        let square = &mut squares[at / width / side * across + at % width / side];
        match layer.letters[at] {
            150.. => {
                square.core += light::luminance(rgb);
                square.cores += 1;
            }
            0..12 => {
                square.rim += light::luminance(rgb);
                square.rims += 1;
            }
            _ => {}
        }
    }
    // A square with hardly any letter in it says nothing.
    let enough = (side * side / 40).max(4) as u32;
    let mut ratios: Vec<(f64, usize)> = squares
        .iter()
        .enumerate()
        .filter(|(_, square)| square.cores >= enough && square.rims >= enough)
        .map(|(at, square)| {
            let core = square.core / square.cores as f32;
            (ratio_of(core, square.rim / square.rims as f32), at)
        })
        .collect();
    ratios.sort_by(|a, b| a.0.total_cmp(&b.0));
    let worst = ratios.first().copied().unwrap_or((21.0, 0));
    let (left, top) = (worst.1 % across * side, worst.1 / across * side);
    Measured {
        ratio: worst.0,
        typical: ratios.get(ratios.len() / 2).map_or(21.0, |middle| middle.0),
        worst: Place {
            x: left as u32,
            y: top as u32,
            width: side.min(width - left) as u32,
            height: side.min(height - top) as u32,
        },
    }
}

/// Which pixels belong to a letter or to the rim around it, which is as wide as the
/// contour that may be drawn there: the eye reads by the edge, and WCAG 2 lets a
/// contour count as the ground of its letter.
fn near_letters(layer: &Layer) -> Vec<bool> {
    let (width, height) = (layer.width as usize, layer.height as usize);
    let reach = (layer.capital as usize * 3 / 40).max(2);
    let mut across = vec![false; width * height];
    for (letters, near) in layer
        .letters
        .chunks_exact(width)
        .zip(across.chunks_exact_mut(width))
    {
        let holds = letters.iter().map(|value| *value >= 150);
        spread(holds, width, reach, |x| near[x] = true);
    }
    let mut out = vec![false; width * height];
    for x in 0..width {
        if !(0..height).any(|y| across[y * width + x]) {
            continue;
        }
        let column = (0..height).map(|y| across[y * width + x]);
        spread(column, height, reach, |y| out[y * width + x] = true);
    }
    out
}

/// Calls once for every place of `count` that is `reach` or less away from one that
/// holds.
fn spread(
    holds: impl Iterator<Item = bool>,
    count: usize,
    reach: usize,
    mut call: impl FnMut(usize),
) {
    let mut next = 0;
    for (at, _) in holds.enumerate().filter(|(_, holds)| *holds) {
        let end = (at + reach + 1).min(count);
        for place in next.max(at.saturating_sub(reach))..end {
            call(place);
        }
        next = end;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_near_is_what_a_plain_look_around_finds() {
        let held = [7, 8, 20, 41];
        for reach in 1..9 {
            let mut called = [0; 43];
            let holds = (0..43).map(|at| held.contains(&at));
            spread(holds, 43, reach, |at| called[at] += 1);
            for (at, calls) in called.iter().enumerate() {
                let near = held.iter().any(|held| at.abs_diff(*held) <= reach);
                assert_eq!(*calls, usize::from(near), "{at} within {reach}");
            }
        }
    }

    #[test]
    fn the_margin_for_stray_light_is_as_the_constant_says() {
        let black = 1.05 / WANTED - 0.05;
        let left = (1.05 + 0.175) / (black + 0.05 + 0.175);
        assert!((black - 0.183).abs() < 0.001 && (left - 3.0).abs() < 0.01);
    }
}
