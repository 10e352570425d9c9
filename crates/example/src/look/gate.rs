//! The camera gate: where the picture ends and the frame line begins.

use super::FRAME_LINE;
use crate::edge_code::BAR;
use crate::{HEIGHT, WIDTH};

/// Corner radius of the gate and the half-width of its soft edge, pixels.
const CORNER: f32 = 15.0;
const SOFT: f32 = 0.8;
/// The sides stand a little inside the scan, so that the corners are seen.
const SIDE: f32 = 3.0;
/// Light lost in the far corners of the lens, parts of the light.
const FALL_OFF: f32 = 0.16;

/// How much of the picture's value passes at each pixel, 0 to 256.
#[derive(Debug)]
pub(crate) struct Gate {
    pass: Vec<u16>,
}

impl Gate {
    pub(crate) fn new() -> Self {
        let pass = (0..WIDTH * HEIGHT)
            .map(|index| {
                let x = (index % WIDTH) as f32 + 0.5;
                let y = (index / WIDTH) as f32 + 0.5;
                (open(x, y) * lens(x, y) * 256.0).round() as u16
            })
            .collect();
        Self { pass }
    }

    /// Puts the curve of exposure and the gate on a picture (RGBA).
    pub(crate) fn expose(&self, film: &mut [u8], curve: &[[u8; 256]; 3]) {
        for (pixel, pass) in film.chunks_exact_mut(4).zip(&self.pass) {
            let shut = (256 - pass) * u16::from(FRAME_LINE) >> 8;
            for (value, curve) in pixel.iter_mut().zip(curve) {
                *value = ((u16::from(curve[usize::from(*value)]) * pass >> 8) + shut) as u8;
            }
        }
    }

    /// Film no picture was taken on: nearly black, a little warm.
    pub(crate) fn unexposed(&self, film: &mut [u8]) {
        for (pixel, pass) in film.chunks_exact_mut(4).zip(&self.pass) {
            let base = if *pass > 128 {
                [26, 18, 14, 255]
            } else {
                [FRAME_LINE, FRAME_LINE, FRAME_LINE, 255]
            };
            pixel.copy_from_slice(&base);
        }
    }
}

/// 1 inside the gate, 0 outside, soft between.
fn open(x: f32, y: f32) -> f32 {
    let (w, h) = (WIDTH as f32, HEIGHT as f32);
    let bar = h * BAR as f32;
    let (half_w, half_h) = (w / 2.0 - SIDE, h / 2.0 - bar);
    // Distance to a rectangle with round corners.
    let dx = (x - w / 2.0).abs() - (half_w - CORNER);
    let dy = (y - h / 2.0).abs() - (half_h - CORNER);
    let outside = (dx.max(0.0).powi(2) + dy.max(0.0).powi(2)).sqrt();
    let distance = outside + dx.max(dy).min(0.0) - CORNER;
    (0.5 - distance / (2.0 * SOFT)).clamp(0.0, 1.0)
}

fn lens(x: f32, y: f32) -> f32 {
    let dx = x / WIDTH as f32 - 0.5;
    let dy = y / HEIGHT as f32 - 0.5;
    let far = (dx * dx + dy * dy) / 0.5;
    1.0 - FALL_OFF * far * far
}
