//! A film frame from file frames that blend it with its neighbours.

use crate::shown::Shown;

/// Most file frames that are put together.
const FILE_FRAMES: usize = 12;
/// What all film frames here have in common may be anything: its variance in
/// shares of what sets each apart.
const SHARED: f64 = 1e4;
/// Unmixing is worth it when it leaves less than this of the error of the best
/// file frame.
const WORTH: f64 = 0.45;
/// How far the shares of a blend may be off, by the phase.
const SHARE_SPREAD: f64 = 0.04;
/// Weights below add nothing but work.
const SMALL: f64 = 0.01;

/// The file frames and weights that give turn `wanted` with the least error
/// (the linear estimate of least mean square error), or nothing where the best
/// file frame alone is as near.
///
/// `noise` is the variance of what coding adds, in shares of the variance by
/// which film frames differ from each other.
pub(crate) fn recipe(
    shown: &[(u64, Shown)],
    wanted: i64,
    best: u64,
    noise: f64,
) -> Vec<(u64, f32)> {
    let near = nearest(shown, best);
    let low = near.iter().map(|(_, s)| s.first).min().unwrap_or(wanted);
    let rows: Vec<Vec<f64>> = near.iter().map(|(_, shown)| row(shown, low)).collect();
    let turns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let place = usize::try_from(wanted - low).unwrap_or(usize::MAX);
    if place >= turns {
        return Vec::new();
    }
    let at = |row: &[f64], turn: usize| row.get(turn).copied().unwrap_or(0.0);
    let shared = |a: &[f64], b: &[f64]| {
        let alone: f64 = a.iter().zip(b).map(|(a, b)| a * b).sum();
        alone + SHARED
    };
    let count = rows.len();
    let mut matrix: Vec<Vec<f64>> = (0..count)
        .map(|i| (0..count).map(|j| shared(&rows[i], &rows[j])).collect())
        .collect();
    // What a share off puts of one film frame in the place of another.
    let off = |row: &[f64]| {
        let is_blend = row.iter().filter(|share| **share > 0.0).count() > 1;
        if is_blend {
            2.0 * SHARE_SPREAD * SHARE_SPREAD
        } else {
            0.0
        }
    };
    let doubt: Vec<f64> = rows.iter().map(|row| noise + off(row)).collect();
    (0..count).for_each(|i| matrix[i][i] += doubt[i]);
    let target: Vec<f64> = rows.iter().map(|row| at(row, place) + SHARED).collect();
    let Some(weights) = solve(matrix, target.clone()) else {
        return Vec::new();
    };
    // Weights that sum to 1 keep the light; what they leave of each film frame
    // and what they take up of the noise are the error.
    let sum: f64 = weights.iter().sum();
    let weights: Vec<f64> = weights.iter().map(|weight| weight / sum).collect();
    let mixed = |weights: &[f64]| {
        let left = (0..turns).map(|turn| {
            let seen: f64 = weights
                .iter()
                .zip(&rows)
                .map(|(w, row)| w * at(row, turn))
                .sum();
            let wanted = if turn == place { 1.0 } else { 0.0 };
            (seen - wanted).powi(2)
        });
        left.sum::<f64>()
    };
    let error =
        |weights: &[f64]| mixed(weights) + noise * weights.iter().map(|w| w * w).sum::<f64>();
    let single: Vec<f64> = near
        .iter()
        .map(|(k, _)| if *k == best { 1.0 } else { 0.0 })
        .collect();
    // Less noise at the price of a blend more is no film frame.
    if error(&weights) > WORTH * error(&single) || mixed(&weights) > mixed(&single) {
        return Vec::new();
    }
    let kept: Vec<(u64, f64)> = near
        .iter()
        .zip(weights)
        .filter(|(_, weight)| weight.abs() > SMALL)
        .map(|((k, _), weight)| (*k, weight))
        .collect();
    let sum: f64 = kept.iter().map(|k| k.1).sum();
    kept.into_iter()
        .map(|(k, weight)| (k, (weight / sum) as f32))
        .collect()
}

/// The file frames around the best one.
fn nearest(shown: &[(u64, Shown)], best: u64) -> &[(u64, Shown)] {
    let Some(middle) = shown.iter().position(|(k, _)| *k == best) else {
        return &[];
    };
    let from = middle.saturating_sub(FILE_FRAMES / 2);
    &shown[from..(middle + FILE_FRAMES / 2).min(shown.len())]
}

fn row(shown: &Shown, low: i64) -> Vec<f64> {
    let lead = (shown.first - low) as usize;
    let weights = shown.weights.iter().map(|weight| f64::from(*weight));
    std::iter::repeat_n(0.0, lead).chain(weights).collect()
}

/// Solves a system with a matrix that is symmetric and positive (Gauss, with
/// the largest of a column first).
fn solve(mut matrix: Vec<Vec<f64>>, mut right: Vec<f64>) -> Option<Vec<f64>> {
    let count = right.len();
    for column in 0..count {
        let pivot = (column..count).max_by(|a, b| {
            matrix[*a][column]
                .abs()
                .total_cmp(&matrix[*b][column].abs())
        })?;
        matrix.swap(column, pivot);
        right.swap(column, pivot);
        if matrix[column][column].abs() < 1e-12 {
            return None;
        }
        for below in column + 1..count {
            let share = matrix[below][column] / matrix[column][column];
            let (above, rest) = matrix.split_at_mut(below);
            let pair = rest[0].iter_mut().zip(&above[column]);
            pair.skip(column)
                .for_each(|(under, over)| *under -= share * over);
            right[below] -= share * right[column];
        }
    }
    for column in (0..count).rev() {
        let rest: f64 = (column + 1..count)
            .map(|along| matrix[column][along] * right[along])
            .sum();
        right[column] = (right[column] - rest) / matrix[column][column];
    }
    Some(right)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(first: i64, weights: [f32; 3]) -> Shown {
        Shown { first, weights }
    }

    /// Clean neighbours on both sides, the wanted frame in two blends.
    fn two_blends() -> Vec<(u64, Shown)> {
        vec![
            (0, shown(0, [1.0, 0.0, 0.0])),
            (1, shown(0, [0.2, 0.8, 0.0])),
            (2, shown(1, [0.7, 0.3, 0.0])),
            (3, shown(2, [1.0, 0.0, 0.0])),
        ]
    }

    #[test]
    fn a_frame_between_clean_neighbours_comes_out_alone() {
        let shown = two_blends();
        let recipe = recipe(&shown, 1, 1, 1e-4);
        let mut seen = [0.0_f32; 3];
        for (k, weight) in &recipe {
            for (turn, share) in shown[*k as usize].1.turns() {
                seen[turn as usize] += weight * share;
            }
        }
        assert!(
            (seen[1] - 1.0).abs() < 0.02 && seen[0].abs() < 0.02 && seen[2].abs() < 0.02,
            "{seen:?}"
        );
    }

    #[test]
    fn where_noise_outweighs_the_film_the_best_frame_is_kept() {
        assert!(recipe(&two_blends(), 1, 1, 5.0).is_empty());
    }
}
