//! Dust and fibres that lay on the film when it was scanned: never two frames
//! alike.

use crate::edge_code::BAR;
use crate::noise::{hash, signed, unit};
use crate::{HEIGHT, WIDTH};

/// One frame in so many carries specks; one in so many a fibre.
const SPECKS_ONE_IN: u64 = 3;
const FIBRE_ONE_IN: u64 = 31;

/// Lays dust on a frame.
pub(crate) fn scatter(film: &mut [u8], number: (u8, u32)) {
    let seed = hash(hash(u64::from(number.0) << 32 | u64::from(number.1)) ^ 0xD057);
    if seed.is_multiple_of(SPECKS_ONE_IN) {
        for speck in 0..1 + (seed >> 8) % 4 {
            let (x, y) = place(seed, speck);
            let r = 0.8 + 1.9 * unit(seed ^ 1, speck).powi(3);
            blot(film, x, y, r, 0.75);
        }
    }
    if (seed >> 20).is_multiple_of(FIBRE_ONE_IN) {
        fibre(film, seed);
    }
}

/// A place inside the gate, away from the printed number.
fn place(seed: u64, index: u64) -> (f32, f32) {
    let bar = HEIGHT as f32 * BAR as f32 + 4.0;
    let x = 6.0 + unit(seed, index) * (WIDTH as f32 - 12.0);
    let y = bar + unit(seed ^ 7, index) * (HEIGHT as f32 - 2.0 * bar);
    (x, y)
}

fn fibre(film: &mut [u8], seed: u64) {
    let (mut x, mut y) = place(seed, 40);
    let mut heading = unit(seed, 41) * core::f32::consts::TAU;
    let bend = signed(seed, 42) * 0.06;
    for step in 0..22 + (seed >> 30) % 30 {
        blot(film, x, y, 0.75, 0.6);
        heading += bend + 0.08 * signed(seed ^ 9, step);
        x += heading.cos();
        y = (y + heading.sin()).clamp(16.0, HEIGHT as f32 - 18.0);
    }
}

/// Darkens a small round place.
fn blot(film: &mut [u8], x: f32, y: f32, r: f32, cover: f32) {
    let reach = r.ceil() as i32 + 1;
    for dy in -reach..=reach {
        for dx in -reach..=reach {
            let (px, py) = (x as i32 + dx, y as i32 + dy);
            if px < 0 || py < 0 || px >= WIDTH as i32 || py >= HEIGHT as i32 {
                continue;
            }
            let off = ((px as f32 + 0.5 - x).powi(2) + (py as f32 + 0.5 - y).powi(2)).sqrt();
            let dark = cover * (r + 0.5 - off).clamp(0.0, 1.0);
            let at = (py as usize * WIDTH as usize + px as usize) * 4;
            for value in &mut film[at..at + 3] {
                *value = (f32::from(*value) * (1.0 - dark)) as u8;
            }
        }
    }
}
