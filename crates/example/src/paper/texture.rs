//! The fibre of the papers: one tile for every colour, made once.

use tiny_skia::{Pixmap, PremultipliedColorU8};

use super::Paper;
use crate::noise::{signed, unit};

/// Side of a tile, pixels.
const SIDE: usize = 256;

/// All papers with their fibre, ready to be laid.
#[derive(Debug)]
pub(crate) struct Papers {
    tiles: Vec<Pixmap>,
}

impl Papers {
    pub(crate) fn new() -> Self {
        let fibre = fibre_map();
        let tiles = Paper::ALL
            .iter()
            .enumerate()
            .map(|(index, paper)| {
                debug_assert_eq!(
                    *paper as usize, index,
                    "papers are in the order of their number"
                );
                tile(*paper, &fibre, index * 71)
            })
            .collect();
        Self { tiles }
    }

    pub(crate) fn tile(&self, paper: Paper) -> &Pixmap {
        &self.tiles[paper as usize]
    }
}

/// Lightness of the fibre at each place, about -1 to 1.
fn fibre_map() -> Vec<f32> {
    let mut map = vec![0.0_f32; SIDE * SIDE];
    for (index, value) in map.iter_mut().enumerate() {
        let (x, y) = (index % SIDE, index / SIDE);
        // Tooth of the paper, and slow clouds that repeat with the tile.
        let tooth = signed(11, index as u64) * 0.35;
        let cloud = cloudy(x, y, 32) * 0.45 + cloudy(x, y, 8) * 0.3;
        *value = tooth + cloud;
    }
    for strand in 0..420_u64 {
        draw_fibre(&mut map, strand);
    }
    map
}

/// Smooth noise of a given cell that joins at the tile's edges.
fn cloudy(x: usize, y: usize, cell: usize) -> f32 {
    let cells = SIDE / cell;
    let at = |cx: usize, cy: usize| signed(cell as u64, ((cy % cells) * cells + cx % cells) as u64);
    let (cx, cy) = (x / cell, y / cell);
    let fx = (x % cell) as f32 / cell as f32;
    let fy = (y % cell) as f32 / cell as f32;
    let (fx, fy) = (fx * fx * (3.0 - 2.0 * fx), fy * fy * (3.0 - 2.0 * fy));
    let top = at(cx, cy) + (at(cx + 1, cy) - at(cx, cy)) * fx;
    let low = at(cx, cy + 1) + (at(cx + 1, cy + 1) - at(cx, cy + 1)) * fx;
    top + (low - top) * fy
}

/// One short bent fibre, lighter or darker than the pulp.
fn draw_fibre(map: &mut [f32], strand: u64) {
    let mut x = unit(21, strand) * SIDE as f32;
    let mut y = unit(22, strand) * SIDE as f32;
    let mut heading = unit(23, strand) * core::f32::consts::TAU;
    let bend = signed(24, strand) * 0.12;
    let tone = if unit(25, strand) < 0.5 { -0.55 } else { 0.6 };
    for _ in 0..(6 + (unit(26, strand) * 16.0) as u32) {
        let at = (y as usize % SIDE) * SIDE + x as usize % SIDE;
        map[at] += tone;
        x = (x + heading.cos()).rem_euclid(SIDE as f32);
        y = (y + heading.sin()).rem_euclid(SIDE as f32);
        heading += bend;
    }
}

fn tile(paper: Paper, fibre: &[f32], shift: usize) -> Pixmap {
    let mut pix = Pixmap::new(SIDE as u32, SIDE as u32).expect("the tile has a size");
    let rgb = paper.rgb();
    for (index, pixel) in pix.pixels_mut().iter_mut().enumerate() {
        let amount = fibre[(index + shift * 257) % (SIDE * SIDE)];
        let [r, g, b] = rgb.map(|c| (f32::from(c) + amount * 6.0).clamp(0.0, 250.0) as u8);
        *pixel = PremultipliedColorU8::from_rgba(r, g, b, 255).expect("opaque colours are valid");
    }
    pix
}
