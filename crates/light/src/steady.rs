//! Weave taken out, movement left in.

use onestrand_film::Fps;

use crate::Shift;
use crate::smooth_path::smooth;

/// What wavers so often keeps half of its size; pans and a walking hand are slower.
/// Unit: times a second.
pub const STEADY_BELOW: f64 = 1.5;

/// The most that a frame is moved, as a share of the picture's width.
pub const MOST_SHIFT: f64 = 0.02;

/// How frames are moved to stand steady.
#[derive(Debug, Clone, PartialEq)]
pub struct Steadied {
    /// For each frame how far it is to be moved: right and down, as shares of the
    /// picture's width. Range: each at most [`MOST_SHIFT`] either way.
    pub moves: Vec<[f64; 2]>,
    /// Root mean square of the weave found, right and down, as shares of the width.
    pub weave: [f64; 2],
    /// Frames whose step from the one before could not be told; they go with their
    /// neighbours.
    pub not_told: usize,
    /// Frames that wanted to be moved farther than is allowed.
    pub bounded: usize,
}

/// From the steps between frames to how far each is to be moved.
///
/// `steps[n]` leads from frame n to n + 1, so there is one less than frames; `width` is that
/// of the pictures they were measured on.
#[must_use]
pub fn steady(steps: &[Option<Shift>], width: usize, speed: Fps) -> Steadied {
    let told: Vec<Option<[f64; 2]>> = steps
        .iter()
        .map(|step| step.map(|s| [s.across / width as f64, s.down / width as f64]))
        .collect();
    let not_told = told.iter().filter(|step| step.is_none()).count();
    let ways: [Vec<f64>; 2] = std::array::from_fn(|way| {
        let path = path(&told, way);
        let smooth = smooth(&path, speed.as_f64(), STEADY_BELOW);
        path.iter().zip(&smooth).map(|(at, to)| to - at).collect()
    });
    let frames = steps.len() + 1;
    let rms = |way: &Vec<f64>| (way.iter().map(|m| m * m).sum::<f64>() / frames as f64).sqrt();
    let weave = [rms(&ways[0]), rms(&ways[1])];
    let mut bounded = 0;
    let moves = (0..frames)
        .map(|at| {
            let wanted = [ways[0][at], ways[1][at]];
            let moved = wanted.map(|m| m.clamp(-MOST_SHIFT, MOST_SHIFT));
            let is_bounded = wanted.iter().any(|m| m.abs() > MOST_SHIFT);
            bounded += usize::from(is_bounded);
            moved
        })
        .collect();
    Steadied {
        moves,
        weave,
        not_told,
        bounded,
    }
}

/// Where each frame lies, by adding up the steps; a step that is not known is the middle
/// of those around it, so that a pan goes on.
fn path(steps: &[Option<[f64; 2]>], way: usize) -> Vec<f64> {
    let mut path = vec![0.0];
    let mut at = 0.0;
    for n in 0..steps.len() {
        at += steps[n].map_or_else(|| middle_near(steps, n, way), |step| step[way]);
        path.push(at);
    }
    path
}

fn middle_near(steps: &[Option<[f64; 2]>], n: usize, way: usize) -> f64 {
    let near = &steps[n.saturating_sub(4)..(n + 5).min(steps.len())];
    let mut known: Vec<f64> = near.iter().flatten().map(|step| step[way]).collect();
    known.sort_by(f64::total_cmp);
    known.get(known.len() / 2).copied().unwrap_or(0.0)
}

#[cfg(test)]
mod tests;
