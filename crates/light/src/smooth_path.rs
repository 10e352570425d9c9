//! A path drawn through by a smoother one.

/// Draws a smooth path through points: least squares against the third difference
/// (E. T. Whittaker, 1923), so that anything that speeds up evenly, a pan with its start
/// included, is not changed at all; and the ends need no points beyond them.
///
/// What wavers `half_at` times a second keeps half of its size, slower things more: the
/// share kept is 1 / (1 + (sin(π f / s) / sin(π h / s))⁶).
///
/// Unit of `half_at` and `speed`: per second. A path of fewer than four points is left.
pub(crate) fn smooth(path: &[f64], speed: f64, half_at: f64) -> Vec<f64> {
    if path.len() < 4 {
        return path.to_vec();
    }
    let turn = (std::f64::consts::PI * (half_at / speed).clamp(0.0, 0.5)).sin();
    let stiffness = (2.0 * turn).powi(-6);
    Bands::new(path.len(), stiffness).solve(path)
}

/// Third differences: −1, 3, −3, 1.
const DIFFERENCE: [f64; 4] = [-1.0, 3.0, -3.0, 1.0];
/// Diagonals below the middle one.
const BELOW: usize = 3;

/// I + λ `DᵀD`, its middle diagonal and the three below, as factors L·Lᵀ.
struct Bands {
    /// `rows[i][k]` stands at row i, column i − k.
    rows: Vec<[f64; BELOW + 1]>,
}

impl Bands {
    fn new(size: usize, stiffness: f64) -> Self {
        let mut rows = vec![[0.0; BELOW + 1]; size];
        for row in &mut rows {
            row[0] = 1.0;
        }
        for start in 0..size - BELOW {
            for (i, a) in DIFFERENCE.iter().enumerate() {
                for (j, b) in DIFFERENCE[..=i].iter().enumerate() {
                    rows[start + i][i - j] += stiffness * a * b;
                }
            }
        }
        let mut bands = Self { rows };
        bands.factor();
        bands
    }

    /// Cholesky's factors in place; the matrix is one plus a square, so it is positive.
    fn factor(&mut self) {
        for i in 0..self.rows.len() {
            for k in (0..=BELOW.min(i)).rev() {
                let j = i - k;
                let mut sum = self.rows[i][k];
                for m in k + 1..=BELOW.min(i) {
                    // Column i − m is below row j by m − k.
                    sum -= self.rows[i][m] * self.rows[j][m - k];
                }
                self.rows[i][k] = if k == 0 {
                    sum.sqrt()
                } else {
                    sum / self.rows[j][0]
                };
            }
        }
    }

    fn solve(&self, right: &[f64]) -> Vec<f64> {
        let mut out = right.to_vec();
        for i in 0..out.len() {
            let known: f64 = (1..=BELOW.min(i))
                .map(|k| self.rows[i][k] * out[i - k])
                .sum();
            out[i] = (out[i] - known) / self.rows[i][0];
        }
        for i in (0..out.len()).rev() {
            let above = (1..=BELOW).filter(|k| i + k < out.len());
            let known: f64 = above.map(|k| self.rows[i + k][k] * out[i + k]).sum();
            out[i] = (out[i] - known) / self.rows[i][0];
        }
        out
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// An even acceleration is a solution of the equations as it stands.
    #[test]
    fn a_pan_that_speeds_up_is_left_alone() {
        let pan: Vec<f64> = (0..60)
            .map(|n| f64::from(n * n) * 0.02 - f64::from(n))
            .collect();
        let smooth = smooth(&pan, 18.0, 1.5);
        for (found, was) in smooth.iter().zip(&pan) {
            assert!((found - was).abs() < 1e-6, "{found} {was}");
        }
    }

    /// Against the share that the formula gives, in the middle of a long path.
    #[test]
    fn waves_keep_their_share() {
        for (per_second, speed) in [
            (0.5, 18.0),
            (1.5, 18.0),
            (3.0, 18.0),
            (1.5, 24.0),
            (9.0, 18.0),
        ] {
            let turn = |f: f64| (std::f64::consts::PI * f / speed).sin();
            let share = 1.0 / (1.0 + (turn(per_second) / turn(1.5)).powi(6));
            let wave = |n: usize| (std::f64::consts::TAU * per_second / speed * n as f64).cos();
            let path: Vec<f64> = (0..720).map(wave).collect();
            let smooth = smooth(&path, speed, 1.5);
            for n in 300..420 {
                assert!(
                    (smooth[n] - share * path[n]).abs() < 0.003,
                    "{per_second} {n}"
                );
            }
        }
    }

    /// Against the plain equations solved by another's routine.
    #[test]
    fn bands_solve_the_whole_matrix() {
        let path = [1.0, 4.0, -2.0, 0.5, 3.0, 3.0, -1.0];
        let size = path.len();
        let mut whole = nalgebra::DMatrix::<f64>::identity(size, size);
        let mut d = nalgebra::DMatrix::<f64>::zeros(size - 3, size);
        for row in 0..size - 3 {
            for (k, value) in DIFFERENCE.iter().enumerate() {
                d[(row, row + k)] = *value;
            }
        }
        whole += d.transpose() * &d * 7.0;
        let right = nalgebra::DVector::from_row_slice(&path);
        let wanted = whole.lu().solve(&right).expect("positive");
        let found = Bands::new(size, 7.0).solve(&path);
        for (found, wanted) in found.iter().zip(wanted.iter()) {
            assert!((found - wanted).abs() < 1e-10, "{found} {wanted}");
        }
    }
}
