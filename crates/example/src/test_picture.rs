//! A moving, numbered test picture of any size, for tests of other crates.

use crate::edge_code;
use crate::error::ExampleError;
use crate::noise::hash;

/// Paints a colourful moving test picture that carries its roll and frame.
///
/// `out` gets RGB24, `width` × `height` × 3 bytes. Every frame differs from its
/// neighbours: a disc runs across a field of coloured bands, a hand goes round
/// once in 36 frames. The number is read back by
/// [`edge_code::read_edge_code_rgb`]. Roll: 0 to 15; frame: 0 to 16,383.
///
/// # Errors
/// [`ExampleError::WrongSize`] when the size is odd or under 320×240;
/// [`ExampleError::WrongRoom`] when `out` has another length.
pub fn numbered_picture(
    width: u32,
    height: u32,
    roll: u8,
    frame: u32,
    out: &mut [u8],
) -> Result<(), ExampleError> {
    if width < 320 || height < 240 || !width.is_multiple_of(2) || !height.is_multiple_of(2) {
        return Err(ExampleError::WrongSize { width, height });
    }
    let needed = width as usize * height as usize * 3;
    if out.len() != needed {
        return Err(ExampleError::WrongRoom {
            width,
            height,
            needed,
            given: out.len(),
        });
    }
    let bar = (f64::from(height) * edge_code::BAR).round() as u32;
    let picture = Moving::new(width, height, roll, frame);
    for (y, line) in out.chunks_exact_mut(width as usize * 3).enumerate() {
        let y = y as u32;
        if y < bar || y >= height - bar {
            line.fill(10);
            continue;
        }
        for (x, pixel) in line.chunks_exact_mut(3).enumerate() {
            pixel.copy_from_slice(&picture.pixel(x as u32, y));
        }
    }
    edge_code::print(out, 3, (width, height), (roll, frame), [228; 3]);
    Ok(())
}

/// What moves in one frame, in whole pixels so that every machine agrees.
struct Moving {
    band: i32,
    shift: i32,
    disc: (i32, i32, i32),
    hand: (i32, i32),
    centre: (i32, i32),
    seed: u64,
}

impl Moving {
    fn new(width: u32, height: u32, roll: u8, frame: u32) -> Self {
        let (w, h) = (width as i32, height as i32);
        let radius = h / 9;
        // There and back again, so that the disc never jumps.
        let run = w - 2 * radius;
        let step = (frame as i32 * (w / 80).max(2)) % (2 * run);
        let x = radius + if step < run { step } else { 2 * run - step };
        let turn = f64::from(frame % 36) * core::f64::consts::TAU / 36.0;
        let reach = f64::from(h) / 4.0;
        Self {
            band: (w / 8).max(1),
            shift: frame as i32 * 2,
            disc: (x, h / 2, radius),
            hand: ((turn.sin() * reach) as i32, (-turn.cos() * reach) as i32),
            centre: (w / 4, h / 3),
            seed: u64::from(roll) << 32,
        }
    }

    fn pixel(&self, x: u32, y: u32) -> [u8; 3] {
        let (x, y) = (x as i32, y as i32);
        let (dx, dy) = (x - self.disc.0, y - self.disc.1);
        if dx * dx + dy * dy < self.disc.2 * self.disc.2 {
            return [222, 164, 58];
        }
        if self.on_hand(x - self.centre.0, y - self.centre.1) {
            return [150, 40, 50];
        }
        let colour = hash(self.seed | ((x + self.shift) / self.band) as u64);
        let shade = 40 + (y & 63) as u8;
        [
            shade + (colour & 127) as u8,
            shade + (colour >> 8 & 127) as u8,
            shade + (colour >> 16 & 127) as u8,
        ]
    }

    /// Whether a place lies within three pixels of the turning hand.
    fn on_hand(&self, x: i32, y: i32) -> bool {
        let (hx, hy) = self.hand;
        let length2 = hx * hx + hy * hy;
        let along = x * hx + y * hy;
        let across = i64::from(x * hy - y * hx);
        along > 0 && along < length2 && across * across < 9 * i64::from(length2)
    }
}
