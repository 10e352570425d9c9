//! A film frame from file frames that blend it with its neighbours.

use crate::shown::Shown;

/// Most file frames that are put together.
const FILE_FRAMES: usize = 8;
/// What all film frames here have in common may be anything: its variance in
/// shares of what sets each apart.
const SHARED: f64 = 1e4;
/// Unmixing is worth it when it leaves less than this of the error of the best
/// file frame.
pub(crate) const WORTH: f64 = 0.45;
/// How far the shares of a blend may be off, by the phase.
const SHARE_SPREAD: f64 = 0.04;
/// Weights below add nothing but work.
const SMALL: f64 = 0.01;
/// Most ways of adding up file frames so that no film frame is left, by which
/// the noise of a picture is measured.
const SILENT: usize = 4;
/// What is left of a vector that adds nothing new, squared.
const NOTHING_NEW: f64 = 1e-3;

/// How strongly film frames differ where a set of weights is used: the variance
/// by which each is set apart, over that of the noise of coding.
pub(crate) const GRADES: [f64; 7] = [0.5, 2.0, 8.0, 32.0, 128.0, 512.0, 8192.0];

/// How a blended film frame is put together of pictures of the file: weights
/// for parts where neighbouring film frames hardly differ, which are there to
/// take away the noise of coding, up to weights for parts where they differ much,
/// which are there to take away the neighbours. See [`crate::unmix_picture`].
#[derive(Debug, Clone, PartialEq)]
pub struct Recipe {
    /// The file frames whose pictures are needed.
    pub(crate) file_frames: Vec<u64>,
    /// Which of them shows the film frame best.
    pub(crate) best: usize,
    /// What share of each is each film frame; of all of them the one wanted.
    pub(crate) rows: Vec<Vec<f64>>,
    pub(crate) place: usize,
    /// A set of weights for each grade; each sums to 1.
    pub(crate) weights: Vec<Vec<f64>>,
    /// Sums of file frames in which no film frame is left, of length 1.
    pub(crate) silent: Vec<Vec<f64>>,
}

impl Recipe {
    /// The file frames whose pictures are needed, in order.
    #[must_use]
    pub fn file_frames(&self) -> &[u64] {
        &self.file_frames
    }

    /// By the shares that file frames have of film frames.
    pub(crate) fn of(
        file_frames: Vec<u64>,
        rows: Vec<Vec<f64>>,
        place: usize,
        best: usize,
    ) -> Option<Self> {
        let graded = GRADES
            .iter()
            .map(|grade| weights(&rows, place, 1.0 / grade));
        Some(Self {
            weights: graded.collect::<Option<_>>()?,
            file_frames,
            best,
            silent: silent(&rows),
            rows,
            place,
        })
    }

    /// The file frame that shows the film frame best.
    #[must_use]
    pub fn best(&self) -> u64 {
        self.file_frames.get(self.best).copied().unwrap_or(0)
    }

    /// What weights leave of the film: the part of each neighbour that is left and
    /// of the wanted one that is missing, squared.
    pub(crate) fn mixed(&self, weights: &[f64]) -> f64 {
        let turns = self.rows.iter().map(Vec::len).max().unwrap_or(0);
        let left = (0..turns).map(|turn| {
            let seen: f64 = weights
                .iter()
                .zip(&self.rows)
                .map(|(w, row)| w * at(row, turn))
                .sum();
            let wanted = if turn == self.place { 1.0 } else { 0.0 };
            (seen - wanted).powi(2)
        });
        left.sum()
    }

    /// The same with what shares that are a little off leave.
    pub(crate) fn left(&self, weights: &[f64]) -> f64 {
        let doubt = weights
            .iter()
            .zip(&self.rows)
            .map(|(w, row)| w * w * off(row));
        self.mixed(weights) + doubt.sum::<f64>()
    }

    /// The best file frame alone.
    pub(crate) fn alone(&self) -> Vec<f64> {
        let one = |at| if at == self.best { 1.0 } else { 0.0 };
        (0..self.file_frames.len()).map(one).collect()
    }

    /// Weights for a picture as a whole whose noise is so large, in shares of the
    /// variance by which film frames differ; nothing where the best file frame is
    /// as near.
    pub(crate) fn whole(&self, noise: f64) -> Vec<(u64, f32)> {
        let Some(weights) = weights(&self.rows, self.place, noise) else {
            return Vec::new();
        };
        let noisy = |weights: &[f64]| noise * weights.iter().map(|w| w * w).sum::<f64>();
        let single = self.alone();
        let error = |weights: &[f64]| self.mixed(weights) + noisy(weights);
        // Less noise at the price of a blend more is no film frame.
        if error(&weights) > WORTH * error(&single) || self.mixed(&weights) > self.mixed(&single) {
            return Vec::new();
        }
        let kept: Vec<(u64, f64)> = self
            .file_frames
            .iter()
            .zip(weights)
            .filter(|(_, weight)| weight.abs() > SMALL)
            .map(|(k, weight)| (*k, weight))
            .collect();
        let sum: f64 = kept.iter().map(|k| k.1).sum();
        kept.into_iter()
            .map(|(k, weight)| (k, (weight / sum) as f32))
            .collect()
    }
}

/// How turn `wanted` is put together of file frames, each with what it shows;
/// `best` shows it best.
pub(crate) fn recipe(shown: &[(u64, Shown)], wanted: i64, best: u64) -> Option<Recipe> {
    let near = nearest(shown, best);
    let low = near.iter().map(|(_, s)| s.first).min()?;
    let rows: Vec<Vec<f64>> = near.iter().map(|(_, shown)| row(shown, low)).collect();
    let place = usize::try_from(wanted - low).ok()?;
    let best = near.iter().position(|(k, _)| *k == best)?;
    let file_frames = near.iter().map(|(k, _)| *k).collect();
    Recipe::of(file_frames, rows, place, best)
}

/// Weights with the least error (the linear estimate of least mean square error),
/// made to sum to 1, which keeps the light.
///
/// `noise` is the variance of what coding adds, in shares of the variance by
/// which film frames differ from each other.
fn weights(rows: &[Vec<f64>], place: usize, noise: f64) -> Option<Vec<f64>> {
    let shared = |a: &[f64], b: &[f64]| {
        let alone: f64 = a.iter().zip(b).map(|(a, b)| a * b).sum();
        alone + SHARED
    };
    let count = rows.len();
    let mut matrix: Vec<Vec<f64>> = (0..count)
        .map(|i| (0..count).map(|j| shared(&rows[i], &rows[j])).collect())
        .collect();
    (0..count).for_each(|i| matrix[i][i] += noise + off(&rows[i]));
    let target: Vec<f64> = rows.iter().map(|row| at(row, place) + SHARED).collect();
    let weights = solve(matrix, target)?;
    let sum: f64 = weights.iter().sum();
    Some(weights.into_iter().map(|weight| weight / sum).collect())
}

/// What a share that is off puts of one film frame in the place of another,
/// squared.
fn off(row: &[f64]) -> f64 {
    let is_blend = row.iter().filter(|share| **share > 0.0).count() > 1;
    if is_blend {
        2.0 * SHARE_SPREAD * SHARE_SPREAD
    } else {
        0.0
    }
}

fn at(row: &[f64], turn: usize) -> f64 {
    row.get(turn).copied().unwrap_or(0.0)
}

/// Ways of adding up file frames that leave nothing of any film frame: vectors
/// of length 1 that stand square on the shares and on each other.
fn silent(rows: &[Vec<f64>]) -> Vec<Vec<f64>> {
    let count = rows.len();
    let turns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let mut basis: Vec<Vec<f64>> = Vec::new();
    let square_on = |basis: &[Vec<f64>], mut vector: Vec<f64>| {
        // Twice, so that rounding leaves nothing.
        for one in basis.iter().chain(basis) {
            let shared: f64 = one.iter().zip(&vector).map(|(a, b)| a * b).sum();
            vector
                .iter_mut()
                .zip(one)
                .for_each(|(v, o)| *v -= shared * o);
        }
        let square: f64 = vector.iter().map(|v| v * v).sum();
        (square > NOTHING_NEW).then(|| {
            vector
                .iter()
                .map(|v| v / square.sqrt())
                .collect::<Vec<f64>>()
        })
    };
    for turn in 0..turns {
        let share = rows.iter().map(|row| at(row, turn)).collect();
        basis.extend(square_on(&basis, share));
    }
    let known = basis.len();
    // Those in the middle first: what the ends show is shown by few.
    let mut order: Vec<usize> = (0..count).collect();
    order.sort_by_key(|at| at.abs_diff(count / 2));
    for file_frame in order {
        if basis.len() == known + SILENT {
            break;
        }
        let one = (0..count)
            .map(|at| f64::from(u8::from(at == file_frame)))
            .collect();
        basis.extend(square_on(&basis, one));
    }
    basis.split_off(known)
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
        let recipe = recipe(&shown, 1, 1).unwrap().whole(1e-4);
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
        let recipe = recipe(&two_blends(), 1, 1).unwrap();
        assert!(recipe.whole(5.0).is_empty());
    }
}
