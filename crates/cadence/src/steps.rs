//! How far each file frame is from those before it.

use std::collections::VecDeque;

use crate::CadenceError;
use crate::motion::{Coarse, Motion};

/// Width of a measuring plane. Unit: pixels.
pub const PLANE_WIDTH: usize = 192;
/// Height of a measuring plane. Unit: pixels.
pub const PLANE_HEIGHT: usize = 144;
/// Bytes in a measuring plane, one a pixel, rows from the top, no padding.
pub const PLANE_BYTES: usize = PLANE_WIDTH * PLANE_HEIGHT;

/// What a file frame measures against the two before it.
///
/// Mean squared differences of the levels, less the square of the difference of
/// the means, so that a light that flickers from one file frame to the next
/// counts little. Unit: levels squared.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(crate) struct Step {
    /// To the frame before; 0 for the first.
    pub(crate) one: f32,
    /// To the frame before that; 0 for the first two.
    pub(crate) two: f32,
    /// To the frame before, with large differences cut down, so that dust
    /// counts little.
    pub(crate) firm: f32,
    /// The same, less what a small shift of the whole picture explains.
    pub(crate) still: f32,
    /// That shift, across and down. Unit: pixels of the plane; too small where
    /// it is more than one.
    pub(crate) shift: [f32; 2],
    /// The movement of the whole picture since the frame before.
    pub(crate) motion: Motion,
}

/// Measures frame after frame.
#[derive(Debug, Default)]
pub(crate) struct Steps {
    /// The last two planes with their means, newest first.
    last: VecDeque<(Vec<u8>, f32)>,
    coarse: Option<Coarse>,
    /// The last movement of more than nothing, from which the next is looked for.
    moved: [f32; 2],
}

impl Steps {
    pub(crate) fn push(&mut self, plane: &[u8]) -> Result<Step, CadenceError> {
        if plane.len() != PLANE_BYTES {
            return Err(CadenceError::PlaneSize { found: plane.len() });
        }
        let sum: u32 = plane.iter().map(|&level| u32::from(level)).sum();
        let mean = sum as f32 / PLANE_BYTES as f32;
        let against = |before: Option<&(Vec<u8>, f32)>| {
            before.map_or(0.0, |(old, old_mean)| {
                (squares(plane, old) - (mean - old_mean).powi(2)).max(0.0)
            })
        };
        let one = against(self.last.front());
        let firm = self
            .last
            .front()
            .map(|(old, old_mean)| firm_step(old, plane, mean - old_mean));
        let (firm, still, shift) = firm.unwrap_or_default();
        let coarse = Coarse::of(plane);
        let motion = self
            .coarse
            .as_ref()
            .map(|before| coarse.since(before, self.moved))
            .unwrap_or_default();
        if firm > REPEATS {
            self.moved = motion.by;
        }
        self.coarse = Some(coarse);
        let step = Step {
            one,
            two: against(self.last.get(1)),
            firm,
            still,
            shift,
            motion,
        };
        let spare = if self.last.len() == 2 {
            self.last.pop_back()
        } else {
            None
        };
        let mut kept = spare.map_or_else(Vec::new, |spare| spare.0);
        kept.clear();
        kept.extend_from_slice(plane);
        self.last.push_front((kept, mean));
        Ok(step)
    }
}

/// Mean squared difference of two planes.
fn squares(a: &[u8], b: &[u8]) -> f32 {
    let piece = |(a, b): (&[u8], &[u8])| {
        let squares = a.iter().zip(b).map(|(&a, &b)| {
            let off = i32::from(i16::from(a) - i16::from(b));
            off * off
        });
        i64::from(squares.sum::<i32>())
    };
    // In pieces, so that the sums stay in 32 bits, which processors do many at
    // a time.
    let total: i64 = a.chunks(2048).zip(b.chunks(2048)).map(piece).sum();
    total as f32 / PLANE_BYTES as f32
}

/// Differences below are those of repeats. Unit: levels squared.
const REPEATS: f32 = 1.0;

/// Differences are cut down to this. Unit: levels.
const CUT: i32 = 10;

/// The mean squared difference of two planes with large ones cut down, what a
/// shift leaves of it, and that shift (least squares on the slopes of their
/// mean). Every other row will do.
fn firm_step(old: &[u8], new: &[u8], lighter: f32) -> (f32, f32, [f32; 2]) {
    let lighter = lighter.round() as i16;
    let mut sums = [0.0_f64; 7];
    for y in (1..PLANE_HEIGHT - 1).step_by(2) {
        let at = |dy: usize| (y + dy - 1) * PLANE_WIDTH..(y + dy) * PLANE_WIDTH;
        let part = row_sums(
            [&old[at(0)], &old[at(1)], &old[at(2)]],
            [&new[at(0)], &new[at(1)], &new[at(2)]],
            lighter,
        );
        for (sum, part) in sums.iter_mut().zip(part) {
            *sum += f64::from(part);
        }
    }
    let [dx, dy, xx, yy, xy, squares, light] = sums;
    let det = xx * yy - xy * xy;
    let pixels = (PLANE_WIDTH - 2) as f64 * (PLANE_HEIGHT / 2 - 1) as f64;
    let firm = (squares / pixels - (light / pixels).powi(2)).max(0.0) as f32;
    if det <= 1e-6 * xx * yy {
        return (firm, firm, [0.0; 2]);
    }
    let (across, down) = ((dx * yy - dy * xy) / det, (dy * xx - dx * xy) / det);
    let moved = ((dx * across + dy * down) / pixels) as f32;
    // The slopes summed are twice those of the mean.
    let shift = [-2.0 * across as f32, -2.0 * down as f32];
    (firm, (firm - moved).max(0.0), shift)
}

/// Along the middle of three rows of both planes: difference times slope across
/// and down, and the slopes' squares and product; the difference's square.
fn row_sums(old: [&[u8]; 3], new: [&[u8]; 3], lighter: i16) -> [i32; 7] {
    const N: usize = PLANE_WIDTH;
    let take = |row: &[u8]| -> [u8; N] {
        let mut taken = [0; N];
        taken.copy_from_slice(row);
        taken
    };
    let (o, n) = (old.map(take), new.map(take));
    let mut sums = [0_i32; 7];
    let sum_at = |row: usize, x: usize| i16::from(o[row][x]) + i16::from(n[row][x]);
    for x in 1..N - 1 {
        let off = i32::from(i16::from(n[1][x]) - i16::from(o[1][x]) - lighter).clamp(-CUT, CUT);
        let across = i32::from(sum_at(1, x + 1) - sum_at(1, x - 1)) / 2;
        let down = i32::from(sum_at(2, x) - sum_at(0, x)) / 2;
        sums[0] += off * across;
        sums[1] += off * down;
        sums[2] += across * across;
        sums[3] += down * down;
        sums[4] += across * down;
        sums[5] += off * off;
        sums[6] += off;
    }
    sums
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_step_counts_what_moves_and_not_the_light() {
        let mut steps = Steps::default();
        let plane: Vec<u8> = (0..PLANE_BYTES).map(|at| (at % 100) as u8).collect();
        let lighter: Vec<u8> = plane.iter().map(|level| level + 9).collect();
        let mut moved = lighter.clone();
        moved.rotate_left(1);
        steps.push(&plane).unwrap();
        assert!(steps.push(&lighter).unwrap().one < 1e-2);
        let step = steps.push(&moved).unwrap();
        assert!(
            step.one > 50.0 && (step.one - step.two).abs() < 1e-1,
            "{step:?}"
        );
        assert!(steps.push(&plane[1..]).is_err());
    }
}
