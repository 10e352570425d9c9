//! What the stock itself looks like: its unexposed border, its grain; and fog on it.

use crate::gate::Measured;
use crate::median::{median, middle, quantile};
use crate::scan_picture::{Grey, ScanPicture};

/// Below this the scan is black and says nothing of the border's tone. Unit: levels.
const CLIPPED: f32 = 3.0;
/// Fog must lighten the border by so much. Unit: levels.
const LEAST_FOG: f32 = 7.0;

/// The stock as a shot shows it.
#[derive(Debug, Clone, PartialEq)]
pub struct StockSeen {
    /// Red, green and blue of the unexposed border, in levels of the scan; nothing where the
    /// scan is too black there to tell.
    pub border: Option<[f32; 3]>,
    /// How far each may be off (one standard deviation).
    pub border_error: f32,
    /// How strong the grain is where nothing is shown, as a natural logarithm of levels.
    pub grain: Option<f32>,
}

/// Light that came in from the side, at the ends of a shot.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct FogSeen {
    /// So much lighter than the rest is the border at the first frames. Unit: levels.
    pub head: f32,
    /// The same at the last frames.
    pub tail: f32,
}

impl FogSeen {
    /// Whether the shot begins in fog, as a roll does.
    #[must_use]
    pub fn at_head(self) -> bool {
        self.head >= LEAST_FOG && self.head > 2.0 * self.tail
    }

    /// Whether the shot ends in fog.
    #[must_use]
    pub fn at_tail(self) -> bool {
        self.tail >= LEAST_FOG && self.tail > 2.0 * self.head
    }
}

/// The tones of the border in each frame, red, green and blue.
fn border_tones(pictures: &[ScanPicture], gate: &Measured) -> Vec<[f32; 3]> {
    pictures
        .iter()
        .map(|picture| frame_tone(picture, gate))
        .collect()
}

/// The middle tone of the film just beside the picture, left and right of it.
fn frame_tone(picture: &ScanPicture, gate: &Measured) -> [f32; 3] {
    let [left, right, top, bottom] = gate.edges;
    let off = ((right - left) * 0.008).max(5.0);
    let mut tones: [Vec<f32>; 3] = Default::default();
    for (edge, step) in [(left, -1.0_f32), (right, 1.0)] {
        for depth in 0..4 {
            let x = edge + step * (off + depth as f32);
            if x < 0.0 || x >= picture.width() as f32 {
                continue;
            }
            for y in (top as usize..bottom as usize).step_by(3) {
                let rgb = picture.rgb(x as usize, y.min(picture.height() - 1));
                tones
                    .iter_mut()
                    .zip(rgb)
                    .for_each(|(tone, level)| tone.push(level));
            }
        }
    }
    tones.map(|mut tone| quantile(&mut tone, 0.4))
}

/// The stock and the fog of a shot, whose frames are in order.
pub(crate) fn stock(
    pictures: &[ScanPicture],
    frames: &[Grey],
    gate: &Measured,
) -> (StockSeen, FogSeen) {
    let tones = border_tones(pictures, gate);
    let channel = |c: usize| tones.iter().map(|t| t[c]).collect::<Vec<f32>>();
    // What fog lightens is not the stock: the darker half of the frames is.
    let border = [0, 1, 2].map(|c| quantile(&mut channel(c), 0.3));
    let spread = [0, 1, 2].map(|c| middle(&mut channel(c)).1);
    let is_seen = border.iter().copied().fold(0.0, f32::max) >= CLIPPED;
    let grains: Vec<Option<f32>> = frames.iter().map(|f| grain(f, gate)).collect();
    let mut grains: Vec<f32> = grains.into_iter().flatten().collect();
    let seen = StockSeen {
        border: is_seen.then_some(border),
        border_error: 0.4
            + spread.iter().copied().fold(0.0, f32::max) / (tones.len() as f32).sqrt(),
        grain: (grains.len() >= 3).then(|| median(&mut grains)),
    };
    (seen, fog(&tones, border))
}

/// How much lighter the border is at the first and last frames than in the darker ones.
fn fog(tones: &[[f32; 3]], border: [f32; 3]) -> FogSeen {
    let over = |tone: &[f32; 3]| {
        let sum: f32 = tone.iter().zip(border).map(|(t, b)| t - b).sum();
        sum / 3.0
    };
    FogSeen {
        head: tones.first().map_or(0.0, over).max(0.0),
        tail: tones.last().map_or(0.0, over).max(0.0),
    }
}

/// The spread of the light in the evenest parts of a frame, which is grain.
fn grain(frame: &Grey, gate: &Measured) -> Option<f32> {
    const PART: usize = 8;
    let [left, right, top, bottom] = gate.edges.map(|e| e.max(0.0) as usize);
    let mut spreads = Vec::new();
    for y in (top + 8..bottom.saturating_sub(16)).step_by(PART) {
        for x in (left + 8..right.saturating_sub(16)).step_by(PART) {
            spreads.extend(spread_of(frame, x, y, PART));
        }
    }
    if spreads.len() < 40 {
        return None;
    }
    Some(quantile(&mut spreads, 0.15).max(0.05).ln())
}

/// How the light of a part differs from one pixel to the one below and beside it, which
/// slopes hardly touch; nothing where it is too dark or too light.
fn spread_of(frame: &Grey, x: usize, y: usize, part: usize) -> Option<f32> {
    let (mut sum, mut squares) = (0.0, 0.0);
    for row in y..y + part {
        for column in x..x + part {
            let here = frame.at(column, row);
            let mixed = here - frame.at(column + 1, row) - frame.at(column, row + 1)
                + frame.at(column + 1, row + 1);
            sum += here;
            squares += mixed * mixed;
        }
    }
    let count = (part * part) as f32;
    (55.0..205.0)
        .contains(&(sum / count))
        .then(|| (squares / count / 4.0).sqrt())
}
