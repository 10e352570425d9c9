//! A smooth line through places that are numbered along it.

/// A polynomial of up to the third degree for x and one for y.
#[derive(Debug, Clone)]
pub(super) struct Curve {
    middle: f64,
    scale: f64,
    x: [f64; 4],
    y: [f64; 4],
}

impl Curve {
    /// The line with the least squares through numbered places.
    pub(super) fn through(places: &[(i32, f32, f32)]) -> Option<Self> {
        let first = places.iter().map(|p| p.0).min()?;
        let last = places.iter().map(|p| p.0).max()?;
        let middle = f64::midpoint(f64::from(first), f64::from(last));
        let scale = (f64::from(last - first) / 2.0).max(1.0);
        let degree = match places.len() {
            0..=1 => return None,
            2..=4 => 1,
            5..=7 => 2,
            _ => 3,
        };
        let terms = degree + 1;
        let mut sums = [[0.0; 6]; 4];
        for &(number, x, y) in places {
            let t = (f64::from(number) - middle) / scale;
            let powers = [1.0, t, t * t, t * t * t];
            for row in 0..terms {
                for column in 0..terms {
                    sums[row][column] += powers[row] * powers[column];
                }
                sums[row][4] += powers[row] * f64::from(x);
                sums[row][5] += powers[row] * f64::from(y);
            }
        }
        let (x, y) = solved(&mut sums, terms)?;
        Some(Self {
            middle,
            scale,
            x,
            y,
        })
    }

    /// Where a number lies.
    pub(super) fn at(&self, number: f32) -> (f32, f32) {
        let t = (f64::from(number) - self.middle) / self.scale;
        let of = |c: &[f64; 4]| (c[0] + t * (c[1] + t * (c[2] + t * c[3]))) as f32;
        (of(&self.x), of(&self.y))
    }

    /// The way from it to the next.
    pub(super) fn step(&self, number: f32) -> (f32, f32) {
        let t = (f64::from(number) - self.middle) / self.scale;
        let of = |c: &[f64; 4]| ((c[1] + t * (2.0 * c[2] + t * 3.0 * c[3])) / self.scale) as f32;
        (of(&self.x), of(&self.y))
    }
}

/// Gauss, with the largest first.
fn solved(sums: &mut [[f64; 6]; 4], terms: usize) -> Option<([f64; 4], [f64; 4])> {
    for column in 0..terms {
        let larger =
            |a: &usize, b: &usize| sums[*a][column].abs().total_cmp(&sums[*b][column].abs());
        let best = (column..terms).max_by(larger)?;
        sums.swap(column, best);
        if sums[column][column].abs() < 1e-9 {
            return None;
        }
        for row in 0..terms {
            if row == column {
                continue;
            }
            let factor = sums[row][column] / sums[column][column];
            let taken = sums[column];
            for (left, taken) in sums[row].iter_mut().zip(taken) {
                *left -= factor * taken;
            }
        }
    }
    let mut of = ([0.0; 4], [0.0; 4]);
    for (term, row) in sums.iter().enumerate().take(terms) {
        of.0[term] = row[4] / row[term];
        of.1[term] = row[5] / row[term];
    }
    Some(of)
}
