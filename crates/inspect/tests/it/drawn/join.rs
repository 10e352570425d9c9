//! What the bench leaves where two pieces of film are joined.

use super::noise::Noise;
use onestrand_inspect::{PLANE_HEIGHT, PLANE_WIDTH};

/// The traces of a join, as a scan of the whole frame shows them.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Join {
    /// The film sits low or high in the gate for two frames, then the machine
    /// has it again; the frame line comes into the picture. Unit: pixels.
    Rack(f32),
    /// The edges of a tape across the frame before and the frame after, some
    /// pixels from the join, and the tape's own slight veil between.
    Tape(u32),
    /// The edge of the overlap, dark or light, in the first frame after.
    Overlap { row: u32, dark: bool },
}

impl Join {
    pub(super) fn new(noise: &mut Noise) -> Self {
        match noise.below(3) {
            0 => {
                let far = 6.0 + 14.0 * noise.unit();
                Self::Rack(if noise.below(2) == 0 { far } else { -far })
            }
            1 => Self::Tape(8 + noise.below(24)),
            _ => Self::Overlap {
                row: 2 + noise.below(10),
                dark: noise.below(2) == 0,
            },
        }
    }

    /// Lays the trace on a frame; `after` counts from the join: −1 is the last
    /// frame before, 0 the first after.
    pub(super) fn lay_on(self, light: &mut [f32], after: i64) {
        match (self, after) {
            (Self::Rack(far), 0) => slid(light, far),
            (Self::Rack(far), 1) => slid(light, far * 0.45),
            (Self::Tape(rows), -1) => {
                let edge = PLANE_HEIGHT - rows as usize;
                veil(light, edge..PLANE_HEIGHT);
                line(light, edge, 1.35);
            }
            (Self::Tape(rows), 0) => {
                veil(light, 0..rows as usize);
                line(light, rows as usize, 1.35);
            }
            (Self::Overlap { row, dark }, 0) => {
                line(light, row as usize, if dark { 0.25 } else { 2.2 });
            }
            _ => {}
        }
    }
}

/// A bar two rows high across the whole frame.
fn line(light: &mut [f32], row: usize, times: f32) {
    for value in light[row.saturating_sub(1) * PLANE_WIDTH..(row + 1) * PLANE_WIDTH].iter_mut() {
        *value = (*value + 0.02) * times;
    }
}

/// Tape takes a little of the light.
fn veil(light: &mut [f32], rows: std::ops::Range<usize>) {
    for value in light[rows.start * PLANE_WIDTH..rows.end * PLANE_WIDTH].iter_mut() {
        *value *= 0.93;
    }
}

/// The frame moved down by so many pixels; what comes in is the frame line.
fn slid(light: &mut [f32], down: f32) {
    let was = light.to_vec();
    for y in 0..PLANE_HEIGHT {
        let from = y as f32 - down;
        let upper = from.floor();
        let part = from - upper;
        for x in 0..PLANE_WIDTH {
            let at = |row: f32| {
                let inside = (0.0..PLANE_HEIGHT as f32).contains(&row);
                if inside {
                    was[row as usize * PLANE_WIDTH + x]
                } else {
                    0.01
                }
            };
            light[y * PLANE_WIDTH + x] = at(upper) * (1.0 - part) + at(upper + 1.0) * part;
        }
    }
}
