//! How alike every frame of one take is to every frame of another, in what moves.

use crate::lattice::Lattice;
use crate::tracks::{FIELDS, Track};

/// Likeness of all pairs of frames: rows of the first take, columns of the second.
pub(crate) struct Likeness {
    rows: usize,
    columns: usize,
    values: Vec<f32>,
}

/// What two frames that move must share before it speaks for them: fields that
/// move by chance are as alike as this now and then.
pub(crate) const CHANCE: f32 = 0.35;

impl Likeness {
    /// Above 0 where both move alike, below where they move otherwise or only
    /// one moves, 0 where neither does. Range: −1.35 to 0.65 a measure.
    pub(crate) fn of(pairs: &[(&Track, &Track)]) -> Self {
        let (rows, columns) = pairs
            .first()
            .map_or((0, 0), |(a, b)| (a.moving.len(), b.moving.len()));
        let mut values = vec![0.0; rows * columns];
        for (a, b) in pairs {
            for (row, line) in values.chunks_exact_mut(columns.max(1)).enumerate() {
                let (here, moving) = (&a.directions[row], a.moving[row]);
                for (column, value) in line.iter_mut().enumerate() {
                    let there = &b.directions[column];
                    let most = moving.max(b.moving[column]);
                    *value += dot(here, there) - CHANCE * most;
                }
            }
        }
        let share = 1.0 / pairs.len().max(1) as f32;
        values.iter_mut().for_each(|v| *v *= share);
        Self {
            rows,
            columns,
            values,
        }
    }

    /// The lattice of ways through it about a pace, a row as far on as `stride`
    /// columns; a pair of full likeness counts for `weight`.
    pub(crate) fn lattice(&self, pace: f32, stride: usize, weight: f32) -> Lattice {
        let evidence = |row, column| weight * self.at(row, column);
        Lattice::new((self.rows, self.columns), (pace, stride), evidence)
    }

    /// Of a row, and a place between two columns.
    fn at(&self, row: usize, column: f32) -> f32 {
        let line = &self.values[row * self.columns..][..self.columns];
        let whole = (column.max(0.0) as usize).min(self.columns - 1);
        let next = (whole + 1).min(self.columns - 1);
        let part = column - whole as f32;
        line[whole] + part * (line[next] - line[whole])
    }
}

fn dot(a: &[f32; FIELDS], b: &[f32; FIELDS]) -> f32 {
    // Eight sums side by side: the processor adds them at once.
    let mut sums = [0.0_f32; 8];
    for (a, b) in a.chunks_exact(8).zip(b.chunks_exact(8)) {
        for n in 0..8 {
            sums[n] += a[n] * b[n];
        }
    }
    sums.iter().sum()
}
