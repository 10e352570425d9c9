//! Which boundaries between film frames are passed from file frame to file frame.

use crate::pattern::amplitude;
use crate::shown::Shown;

/// The part of a picture that shows a turn or a later one.
fn beyond(shown: &Shown, turn: i64) -> f32 {
    shown.turns().filter(|(t, _)| *t >= turn).map(|t| t.1).sum()
}

/// The boundaries that are passed from one file frame to another, with what part of the
/// picture changes at each.
pub(crate) fn passed(last: &Shown, here: &Shown) -> Vec<(i64, f32)> {
    let turns = last.first..=here.first + 2;
    turns
        .map(|turn| (turn, beyond(here, turn) - beyond(last, turn)))
        .filter(|(_, weight)| *weight > 0.02)
        .collect()
}

/// The size of a step that passes boundaries, in film frames; if nothing changes at one
/// of them, those beside it are neighbours.
pub(crate) fn size(weights: &[(i64, f32)], gone: Option<i64>) -> f32 {
    let Some((first, _)) = weights.first() else {
        return 0.0;
    };
    let of = |turn: i64| weights.iter().find(|w| w.0 == turn).map_or(0.0, |w| w.1);
    let moved = |turn: i64| turn + i64::from(gone.is_some_and(|gone| turn >= gone));
    amplitude(|at| of(moved(first + at as i64))).powi(2)
}
