//! Stray light on the outer turns of a roll.

use crate::log::FogSpan;
use crate::noise::{hash, unit, wander};
use crate::{FRAMES_PER_ROLL, HEIGHT, WIDTH};

/// Coarse grid the light is worked out on; drawn smoothly between.
const CELL: usize = 16;
const COLUMNS: usize = WIDTH as usize / CELL + 2;
const ROWS: usize = HEIGHT as usize / CELL + 2;
/// Most light in the frame line: the printed number must stay readable.
const LINE_LIMIT: f32 = 0.42;

/// Lets light in on a frame of a fogged end.
pub(crate) fn leak(film: &mut [u8], span: &FogSpan, frame: u32) {
    let grid = light(span, frame);
    let bar = (HEIGHT as f32 * crate::edge_code::BAR as f32) as usize;
    for y in 0..HEIGHT as usize {
        let in_line = y < bar || y >= HEIGHT as usize - bar;
        let limit = if in_line { LINE_LIMIT } else { 1.0 };
        let (row, fy) = (y / CELL, (y % CELL) as f32 / CELL as f32);
        let line = &mut film[y * WIDTH as usize * 4..][..WIDTH as usize * 4];
        for (x, pixel) in line.chunks_exact_mut(4).enumerate() {
            let (column, fx) = (x / CELL, (x % CELL) as f32 / CELL as f32);
            let at = row * COLUMNS + column;
            let top = grid[at] + (grid[at + 1] - grid[at]) * fx;
            let low = grid[at + COLUMNS] + (grid[at + COLUMNS + 1] - grid[at + COLUMNS]) * fx;
            add(pixel, ((top + (low - top) * fy) * limit).clamp(0.0, limit));
        }
    }
}

/// Light makes the film red first, then orange, then white.
fn add(pixel: &mut [u8], light: f32) {
    let dyes = [
        light * 1.9,
        light * light * 1.35 + light * 0.12,
        light.powi(4) * 0.95 + light * 0.03,
    ];
    for (value, dye) in pixel.iter_mut().zip(dyes) {
        let old = f32::from(*value);
        *value = (old + (246.0 - old) * dye.clamp(0.0, 1.0)).clamp(0.0, 250.0) as u8;
    }
}

/// How far a frame lies from the inner end of its fog (0) to the outer (1).
fn depth(span: &FogSpan, frame: u32) -> f32 {
    let length = (span.span_out - span.span_in).max(2) as f32;
    let part = (frame - span.span_in) as f32 / (length - 1.0);
    if span.span_out == FRAMES_PER_ROLL {
        part
    } else {
        1.0 - part
    }
}

/// Light at each cell: tongues from both edges of the film, worse outwards.
fn light(span: &FogSpan, frame: u32) -> Vec<f32> {
    let seed = hash(u64::from(span.roll) << 32 | u64::from(span.span_in));
    let out = depth(span, frame);
    let base = 0.30 + 0.55 * out * out;
    let at = frame as f32;
    let mut tongues = Vec::new();
    for index in 0..7_u64 {
        let right = index % 2 == 0;
        let middle = unit(seed, index) + 0.25 * wander(seed ^ index, at / 10.0);
        let long =
            0.25 + 0.35 * unit(seed + 1, index) + 0.25 * wander(seed ^ (index + 50), at / 8.0);
        tongues.push((
            right,
            middle,
            long * (0.45 + out),
            0.12 + 0.16 * unit(seed + 2, index),
        ));
    }
    let breath = 0.1 * wander(seed ^ 99, at / 6.0);
    let mut grid = vec![0.0; COLUMNS * ROWS];
    for (index, cell) in grid.iter_mut().enumerate() {
        let x = (index % COLUMNS) as f32 / (COLUMNS - 2) as f32;
        let y = (index / COLUMNS) as f32 / (ROWS - 2) as f32;
        let mut sum = base + breath;
        for (right, middle, long, wide) in &tongues {
            let inward = if *right { 1.0 - x } else { x };
            let off = (y - middle) / wide;
            sum += 0.55 * (-off * off).exp() * (-(inward / long.max(0.08)).powi(2)).exp();
        }
        *cell = sum;
    }
    grid
}
