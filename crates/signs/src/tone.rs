//! Black, white and the darkest places of a frame.

use crate::kept::{TILES, TILES_ACROSS, TILES_DOWN};
use crate::pyramid::{Half, Quarter};

/// Levels up to this are black, from `WHITE` on clipped.
const BLACK: u8 = 16;
const WHITE: u8 = 243;

/// Shares of the picture that are black and white. Range: 0 to 1.
pub(crate) fn black_and_white(half: &Half) -> (f32, f32) {
    let all = half.levels.len() as f32;
    let (mut black, mut white) = (0_u32, 0_u32);
    for row in half.levels.chunks_exact(Half::WIDTH) {
        let (mut dark, mut light) = (0_u8, 0_u8);
        for &level in row {
            dark = dark.wrapping_add(u8::from(level <= BLACK));
            light = light.wrapping_add(u8::from(level >= WHITE));
        }
        black += u32::from(dark);
        white += u32::from(light);
    }
    (black as f32 / all, white as f32 / all)
}

/// The level of the darkest place of each tile, gate and frame line left out.
pub(crate) fn darkest_places(quarter: &Quarter) -> [u8; TILES] {
    const BORDER: usize = 2;
    let wide = Quarter::WIDTH / TILES_ACROSS;
    let high = Quarter::HEIGHT / TILES_DOWN;
    let mut darkest = [255_u8; TILES];
    for y in BORDER..Quarter::HEIGHT - BORDER {
        let row = &quarter.levels[y * Quarter::WIDTH..][..Quarter::WIDTH];
        for x in BORDER..Quarter::WIDTH - BORDER {
            let tile = &mut darkest[y / high * TILES_ACROSS + x / wide];
            *tile = (*tile).min(row[x]);
        }
    }
    darkest
}

/// The mean level of each tile, gate and frame line left out.
pub(crate) fn mean_levels(quarter: &Quarter) -> [u8; TILES] {
    const BORDER: usize = 2;
    let wide = Quarter::WIDTH / TILES_ACROSS;
    let high = Quarter::HEIGHT / TILES_DOWN;
    let mut sums = [(0_u32, 0_u32); TILES];
    for y in BORDER..Quarter::HEIGHT - BORDER {
        let row = &quarter.levels[y * Quarter::WIDTH..][..Quarter::WIDTH];
        for x in BORDER..Quarter::WIDTH - BORDER {
            let (sum, count) = &mut sums[y / high * TILES_ACROSS + x / wide];
            *sum += u32::from(row[x]);
            *count += 1;
        }
    }
    sums.map(|(sum, count)| ((sum + count / 2) / count) as u8)
}
