//! How light the light box is, everywhere in a photograph.

use crate::grey::GreyPicture;

/// Tiles along the longer side.
const TILES: usize = 24;

/// The light that comes through where nothing lies on it, by tiles.
#[derive(Debug)]
pub(super) struct BoxLight {
    tile: usize,
    across: usize,
    down: usize,
    levels: Vec<f32>,
}

impl BoxLight {
    /// The brightest there is about each place, gone smoothly from one to the next.
    pub(super) fn of(photo: GreyPicture<'_>) -> Self {
        let tile = (photo.width().max(photo.height()) / TILES).max(8);
        let (across, down) = (photo.width().div_ceil(tile), photo.height().div_ceil(tile));
        let mut brightest = vec![0.0_f32; across * down];
        for (at, level) in brightest.iter_mut().enumerate() {
            *level = bright_of(photo, (at % across * tile, at / across * tile), tile);
        }
        let highest = spread(&brightest, (across, down), |around| {
            around.iter().copied().fold(0.0, f32::max)
        });
        let levels = spread(&highest, (across, down), |around| {
            around.iter().sum::<f32>() / around.len() as f32
        });
        Self {
            tile,
            across,
            down,
            levels,
        }
    }

    /// The light at a place. Unit: levels of the photograph, at least 1.
    pub(super) fn at(&self, x: f32, y: f32) -> f32 {
        let tile = self.tile as f32;
        let (fx, fy) = ((x / tile - 0.5).max(0.0), (y / tile - 0.5).max(0.0));
        let x0 = (fx as usize).min(self.across - 1);
        let y0 = (fy as usize).min(self.down - 1);
        let (x1, y1) = ((x0 + 1).min(self.across - 1), (y0 + 1).min(self.down - 1));
        let (fx, fy) = ((fx - x0 as f32).min(1.0), (fy - y0 as f32).min(1.0));
        let level = |x: usize, y: usize| self.levels[y * self.across + x];
        let top = level(x0, y0) * (1.0 - fx) + level(x1, y0) * fx;
        let bottom = level(x0, y1) * (1.0 - fx) + level(x1, y1) * fx;
        (top * (1.0 - fy) + bottom * fy).max(1.0)
    }
}

/// What two in a hundred pixels of a tile are brighter than.
fn bright_of(photo: GreyPicture<'_>, (left, top): (usize, usize), tile: usize) -> f32 {
    let mut counts = [0_usize; 256];
    let (right, bottom) = (
        (left + tile).min(photo.width()),
        (top + tile).min(photo.height()),
    );
    for y in top..bottom {
        for &level in &photo.levels()[y * photo.width() + left..y * photo.width() + right] {
            counts[usize::from(level)] += 1;
        }
    }
    let mut above = (right - left) * (bottom - top) / 50;
    for level in (0..256).rev() {
        if counts[level] > above {
            return level as f32;
        }
        above -= counts[level];
    }
    0.0
}

fn spread(levels: &[f32], (across, down): (usize, usize), of: impl Fn(&[f32]) -> f32) -> Vec<f32> {
    let mut spread = Vec::with_capacity(levels.len());
    for y in 0..down {
        for x in 0..across {
            let mut around = Vec::with_capacity(25);
            for ay in y.saturating_sub(2)..(y + 3).min(down) {
                around.extend_from_slice(
                    &levels[ay * across + x.saturating_sub(2)..ay * across + (x + 3).min(across)],
                );
            }
            spread.push(of(&around));
        }
    }
    spread
}
