//! The camera gate: where the picture ends and the frame line begins.

use tiny_skia::Pixmap;

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

    /// Film exposed through the gate: RGBA, a whole frame.
    ///
    /// `corner`: the frame's left and top on the table; lines beyond the table
    /// are left dark, which only the frame line covers. Values up to 255 times
    /// 256 stay within 65,280: wrapping arithmetic, for speed, never wraps.
    pub(crate) fn expose(
        &self,
        table: &Pixmap,
        corner: (i32, i32),
        curve: &[[u8; 256]; 3],
    ) -> Vec<u8> {
        let wide = WIDTH as usize;
        let mut film = vec![FRAME_LINE; wide * HEIGHT as usize * 4];
        let lines = film
            .chunks_exact_mut(wide * 4)
            .zip(self.pass.chunks_exact(wide));
        for (y, (line, pass)) in lines.enumerate() {
            let row = y as i32 + corner.1;
            if !(0..table.height() as i32).contains(&row) {
                continue;
            }
            let start = (row as usize * table.width() as usize + corner.0.max(0) as usize) * 4;
            let seen = &table.data()[start..start + wide * 4];
            let pixels = line.chunks_exact_mut(4).zip(seen.chunks_exact(4)).zip(pass);
            for ((new, old), pass) in pixels {
                let shut = 256_u16
                    .wrapping_sub(*pass)
                    .wrapping_mul(u16::from(FRAME_LINE))
                    >> 8;
                for ((new, old), curve) in new.iter_mut().zip(old).zip(curve) {
                    let light = u16::from(curve[usize::from(*old)]).wrapping_mul(*pass) >> 8;
                    *new = light.wrapping_add(shut) as u8;
                }
            }
        }
        film
    }

    /// Film no picture was taken on: nearly black, a little warm.
    pub(crate) fn unexposed(&self) -> Vec<u8> {
        let shade = |pass: &u16| {
            if *pass > 128 {
                [26, 18, 14, 255]
            } else {
                [FRAME_LINE, FRAME_LINE, FRAME_LINE, 255]
            }
        };
        self.pass.iter().flat_map(shade).collect()
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
