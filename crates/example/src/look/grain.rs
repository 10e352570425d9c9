//! Grain: a tile of soft noise, laid at another place in every frame.

use crate::WIDTH;
use crate::noise::{hash, unit};

/// Side of the tile, pixels; a power of two.
const SIDE: usize = 1024;
/// A line of the tile goes on by a picture's width, so that it never ends early.
const STRIDE: usize = SIDE + WIDTH as usize;
/// Standard deviation of the tile's numbers.
const TILE_SIGMA: f32 = 32.0;
/// Grain in the middle greys, standard deviation in values of 255.
const SIGMA: f32 = 5.6;

/// The tile, and how strong the grain is at each picture value.
#[derive(Debug)]
pub(crate) struct Grain {
    tile: Vec<i8>,
    strength: [i16; 256],
}

impl Grain {
    pub(crate) fn new() -> Self {
        Self {
            tile: soft_noise(),
            strength: strengths(),
        }
    }

    /// Where the tile lies on a frame, and whether it is turned over.
    pub(crate) fn lie(number: (u8, u32)) -> (usize, usize) {
        let seed = hash(u64::from(number.0) << 40 | u64::from(number.1) << 4 | 3);
        (seed as usize % SIDE, (seed >> 20) as usize % SIDE)
    }

    /// Lays grain on line `y` of a frame: RGBA in, RGB out.
    ///
    /// No sum here can leave 16 bits; wrapping arithmetic is for speed.
    pub(crate) fn lay(&self, lie: (usize, usize), y: usize, from: &[u8], out: &mut [u8]) {
        let row = (lie.1 + y) % SIDE;
        let tile = &self.tile[row * STRIDE + lie.0..][..WIDTH as usize];
        let pixels = out.chunks_exact_mut(3).zip(from.chunks_exact(4)).zip(tile);
        for ((out, rgba), tile) in pixels {
            let [r, g, b] = [rgba[0], rgba[1], rgba[2]].map(u16::from);
            let luma = r.wrapping_add(g).wrapping_add(g).wrapping_add(b) >> 2;
            let strength = self.strength[usize::from(luma & 255)];
            let speck = i16::from(*tile).wrapping_mul(strength) >> 8;
            for (to, from) in out.iter_mut().zip(rgba) {
                *to = i16::from(*from).wrapping_add(speck).clamp(0, 255) as u8;
            }
        }
    }
}

/// Strongest in the middle greys, weak in black and in burnt white.
fn strengths() -> [i16; 256] {
    let mut table = [0; 256];
    for (value, strength) in table.iter_mut().enumerate() {
        let part = value as f32 / 255.0;
        let weight = 0.42 + 0.58 * (4.0 * part * (1.0 - part)).powf(0.7);
        *strength = (SIGMA * weight * 256.0 / TILE_SIGMA).round() as i16;
    }
    table
}

/// Bell-shaped noise, softened a little so that grains are wider than a pixel.
fn soft_noise() -> Vec<i8> {
    let count = SIDE * SIDE;
    let raw: Vec<f32> = (0..count as u64)
        .map(|i| unit(51, i) + unit(52, i) + unit(53, i) + unit(54, i) - 2.0)
        .collect();
    let at = |x: usize, y: usize| raw[(y % SIDE) * SIDE + x % SIDE];
    let mut soft = vec![0.0_f32; count];
    for (index, value) in soft.iter_mut().enumerate() {
        let (x, y) = (index % SIDE + SIDE, index / SIDE + SIDE);
        let cross = at(x - 1, y) + at(x + 1, y) + at(x, y - 1) + at(x, y + 1);
        let corner = at(x - 1, y - 1) + at(x + 1, y - 1) + at(x - 1, y + 1) + at(x + 1, y + 1);
        *value = at(x, y) + 0.55 * cross + 0.3 * corner;
    }
    let mean = soft.iter().sum::<f32>() / count as f32;
    let spread = (soft.iter().map(|v| (v - mean).powi(2)).sum::<f32>() / count as f32).sqrt();
    let step = |v: f32| {
        ((v - mean) / spread * TILE_SIGMA)
            .round()
            .clamp(-127.0, 127.0) as i8
    };
    (0..SIDE)
        .flat_map(|y| (0..STRIDE).map(move |x| y * SIDE + x % SIDE))
        .map(|at| step(soft[at]))
        .collect()
}
