//! What stands still in two takes: the same place, seen in part or whole?

use crate::framing::{Framing, Window};
use crate::picture::{CELLS, CELLS_HIGH, CELLS_WIDE};

/// Frames looked at for what stands still: enough that what passes is outvoted.
const LOOKS: usize = 31;
/// Points compared across a window.
const WIDE: usize = 24;
/// Points compared down.
const HIGH: usize = 18;
/// Tones wider than so many points to each side are the light of the day, and
/// the sky over the ground, which all places share.
const NEAR: usize = 3;

/// The middle of the light of each cell over the take. Unit: as the cells.
pub(crate) fn standing(cells: &[i16]) -> Vec<f32> {
    let step = (cells.len() / CELLS).div_ceil(LOOKS).max(1);
    let looks: Vec<&[i16]> = cells.chunks_exact(CELLS).step_by(step).collect();
    let mut seen = vec![0_i16; looks.len()];
    let cell = |cell: usize| {
        for (seen, look) in seen.iter_mut().zip(&looks) {
            *seen = look[cell];
        }
        let half = seen.len() / 2;
        let (_, middle, _) = seen.select_nth_unstable(half);
        f32::from(*middle)
    };
    (0..CELLS).map(cell).collect()
}

/// How alike what stands still is under a framing. Range: −1 to 1; two places
/// that have nothing in common are near 0.
pub(crate) fn sameness(first: &[f32], second: &[f32], framing: Framing) -> f32 {
    let (a, b) = (detail(first, framing.first), detail(second, framing.second));
    let dot = |a: &[f32], b: &[f32]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f32>();
    let length = (dot(&a, &a) * dot(&b, &b)).sqrt();
    if length > 0.0 {
        dot(&a, &b) / length
    } else {
        0.0
    }
}

/// A window in points, each without the mean of its neighbourhood.
fn detail(cells: &[f32], window: Window) -> Vec<f32> {
    let point = |at: usize| {
        let x = window.left + window.share * ((at % WIDE) as f32 + 0.5) / WIDE as f32;
        let y = window.top + window.share * ((at / WIDE) as f32 + 0.5) / HIGH as f32;
        between(
            cells,
            x * CELLS_WIDE as f32 - 0.5,
            y * CELLS_HIGH as f32 - 0.5,
        )
    };
    let points: Vec<f32> = (0..WIDE * HIGH).map(point).collect();
    let without = |at: usize| {
        let (column, row) = (at % WIDE, at / WIDE);
        let (mut sum, mut count) = (0.0, 0.0);
        for r in row.saturating_sub(NEAR)..(row + NEAR + 1).min(HIGH) {
            for c in column.saturating_sub(NEAR)..(column + NEAR + 1).min(WIDE) {
                sum += points[r * WIDE + c];
                count += 1.0;
            }
        }
        points[at] - sum / count
    };
    (0..WIDE * HIGH).map(without).collect()
}

fn between(cells: &[f32], x: f32, y: f32) -> f32 {
    let x = x.clamp(0.0, CELLS_WIDE as f32 - 1.001);
    let y = y.clamp(0.0, CELLS_HIGH as f32 - 1.001);
    let (column, row) = (x as usize, y as usize);
    let line = |row: usize| {
        let [left, right] = [0, 1].map(|n| cells[row * CELLS_WIDE + column + n]);
        left + x.fract() * (right - left)
    };
    let (upper, lower) = (line(row), line(row + 1));
    upper + y.fract() * (lower - upper)
}
