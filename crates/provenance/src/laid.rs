//! Two outlines laid over each other.

use crate::gate::{GateOutline, PLACES, Side};

/// Differences of two outlines, as far as shift, size and turn do not make up for them.
pub(crate) struct Laid {
    /// Difference and its variance, in thousandths of the picture's width.
    pub(crate) rests: Vec<(f32, f32)>,
    /// What is to be added to the second, place by place, to lie over the first.
    pub(crate) moved: [f32; 4],
}

/// Fewest places both must show.
const LEAST: usize = 60;
/// Rests larger than so many standard deviations count for less: a hair is no outline.
const USUAL: f32 = 2.5;

/// What shift across, shift down, size and turn do to a place of a side.
fn slopes(outline: &GateOutline, side: Side, place: usize, at: f32) -> [f32; 4] {
    let along = outline.along(side, place) / 500.0;
    if side.is_upright() {
        [1.0, 0.0, at / 500.0, -along]
    } else {
        [0.0, 1.0, at / 500.0, along]
    }
}

/// Lays the second outline over the first; nothing where they have too little in common.
pub(crate) fn lay(first: &GateOutline, second: &GateOutline, floor: f32) -> Option<Laid> {
    let mut rows = Vec::new();
    for side in Side::ALL {
        for place in 0..PLACES {
            let i = side.index();
            let (Some(a), Some(b)) = (first.edge[i][place], second.edge[i][place]) else {
                continue;
            };
            let variance = a.1 * a.1 + b.1 * b.1 + 2.0 * floor * floor;
            rows.push((slopes(second, side, place, b.0), a.0 - b.0, variance));
        }
    }
    if rows.len() < LEAST {
        return None;
    }
    let mut moved = [0.0; 4];
    for _round in 0..4 {
        let weighed = rows.iter().map(|&(slopes, off, variance)| {
            let rest = off - dot(slopes, moved);
            let far = rest.abs() / variance.sqrt();
            (slopes, off, (USUAL / far.max(USUAL)) / variance)
        });
        moved = solved(weighed)?;
    }
    let rests = rows
        .iter()
        .map(|&(slopes, off, v)| (off - dot(slopes, moved), v));
    Some(Laid {
        rests: rests.collect(),
        moved,
    })
}

fn dot(a: [f32; 4], b: [f32; 4]) -> f32 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// Least squares for four unknowns.
fn solved(rows: impl Iterator<Item = ([f32; 4], f32, f32)>) -> Option<[f32; 4]> {
    let mut sums = [[0.0_f64; 5]; 4];
    for (slopes, off, weight) in rows {
        for i in 0..4 {
            let weighed = f64::from(slopes[i]) * f64::from(weight);
            for j in 0..4 {
                sums[i][j] += weighed * f64::from(slopes[j]);
            }
            sums[i][4] += weighed * f64::from(off);
        }
    }
    for i in 0..4 {
        let pivot = sums[i];
        if pivot[i].abs() < 1e-9 {
            return None;
        }
        for (j, row) in sums.iter_mut().enumerate() {
            if i != j {
                let by = row[i] / pivot[i];
                row.iter_mut().zip(pivot).for_each(|(a, b)| *a -= by * b);
            }
        }
    }
    Some([0, 1, 2, 3].map(|i| (sums[i][4] / sums[i][i]) as f32))
}

/// The mean of several outlines of one gate, laid over the first of them.
pub(crate) fn mean(outlines: &[&GateOutline], floor: f32) -> Option<GateOutline> {
    let first = *outlines.first()?;
    let mut mean = first.clone();
    let mut sums = [[(0.0_f32, 0.0_f32); PLACES]; 4];
    for outline in outlines {
        let moved = lay(first, outline, floor).map(|laid| laid.moved);
        for (side, sums) in Side::ALL.into_iter().zip(&mut sums) {
            for (place, sum) in sums.iter_mut().enumerate() {
                let seen = outline.edge[side.index()][place];
                let (Some(moved), Some((at, error))) = (moved, seen) else {
                    continue;
                };
                let at = at + dot(slopes(outline, side, place, at), moved);
                let weight = 1.0 / (error * error + floor * floor);
                *sum = (sum.0 + at * weight, sum.1 + weight);
            }
        }
    }
    let of = |(sum, weight): (f32, f32)| (sum / weight, (1.0 / weight).sqrt());
    for (edge, sums) in mean.edge.iter_mut().zip(sums) {
        // The floor is added again wherever outlines are compared.
        *edge = sums.map(|sum| (sum.1 > 0.0).then(|| of(sum)));
    }
    Some(mean)
}
