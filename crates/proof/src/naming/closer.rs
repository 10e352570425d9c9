//! The warp at which a strip's frames are most like the roll's: Gauss and Newton's least
//! squares.

use super::fit::Placed;
use super::like::{Like, mean, uncovered};
use super::query::{Looked, Query};
use super::warp::{TERMS, WAYS, Warp, sketch};
use crate::rolls::RollSketches;
use crate::sketch::{FINE_CELLS, STEPS};

/// All terms of a warp.
const ALL: usize = WAYS * TERMS;
/// A step by which slopes are measured. Unit: share of the picture.
const STEP: f32 = 0.012;
/// What a term is usually, even, along and bowed: without pictures that say otherwise
/// it stays so small.
const USUAL: [f32; TERMS] = [0.06, 0.03, 0.02];
/// What is left of a cell's square, times the cells that speak as one.
const NOISE: f32 = 0.4;
/// A cell that is off by more is covered or blemished, and counts less.
const OFF: f32 = 0.8;

/// Finds the warp that fits best from the one given, in so many rounds at most.
pub(super) fn closer(
    query: &Query,
    roll: &RollSketches,
    place: &Placed,
    (from, rounds): (Warp, usize),
) -> Warp {
    let compared = Compared::of(query, roll, place);
    let (mut warp, mut like) = (from, compared.likeness(&from));
    for _ in 0..rounds {
        let Some(by) = compared.step(&warp) else {
            break;
        };
        let tried = [1.0, 0.4].into_iter().map(|share| warp.moved(&by, share));
        let better = tried
            .filter(Warp::is_likely)
            .map(|warp| (compared.likeness(&warp), warp))
            .find(|(found, _)| *found > like);
        let Some((found, moved)) = better else {
            break;
        };
        let gained = found - like;
        (warp, like) = (moved, found);
        if gained < 4e-4 {
            break;
        }
    }
    warp
}

struct Compared<'a> {
    query: &'a Query,
    /// Frame of the strip, its place along it, and the cells of the roll's, turned to
    /// lie as it does.
    frames: Vec<(usize, f32, Vec<i8>)>,
}

impl<'a> Compared<'a> {
    fn of(query: &'a Query, roll: &RollSketches, place: &Placed) -> Self {
        let one = |at: usize| {
            let frame = usize::try_from(place.frame(query.places[at])).unwrap_or(0);
            let cells = place.way.cells(roll.fine(frame.min(roll.frames() - 1)));
            (at, query.along(at), cells)
        };
        Self {
            query,
            frames: query.looked(Looked::Some).into_iter().map(one).collect(),
        }
    }

    fn each(&self, warp: &Warp) -> Vec<(Like, Vec<i8>)> {
        let one = |(at, along, cells): &(usize, f32, Vec<i8>)| {
            let seen = sketch(self.query.patch(*at), warp.at(*along));
            (Like::of(&seen, cells), seen.fine)
        };
        self.frames.iter().map(one).collect()
    }

    fn likeness(&self, warp: &Warp) -> f32 {
        let each: Vec<Like> = self.each(warp).into_iter().map(|e| e.0).collect();
        mean(&each)
    }

    /// By how much the terms must go so that the squares are least.
    fn step(&self, warp: &Warp) -> Option<[f32; ALL]> {
        let each = self.each(warp);
        let likes: Vec<Like> = each.iter().map(|e| e.0).collect();
        let mut sums = [[0.0_f64; ALL + 1]; ALL];
        for index in uncovered(&likes) {
            let (at, along, cells) = &self.frames[index];
            let (slopes, off) = self.slopes(*at, warp.at(*along), (&each[index].1, cells));
            let powers = [1.0, *along, along * along];
            let counts = likes[index].counts;
            for row in 0..ALL {
                let (way, power) = (row / TERMS, powers[row % TERMS]);
                for column in 0..ALL {
                    let both = counts * power * powers[column % TERMS];
                    sums[row][column] += f64::from(slopes[way][column / TERMS] * both);
                }
                sums[row][ALL] += f64::from(counts * off[way] * power);
            }
        }
        for (row, term) in warp.terms().enumerate() {
            let usual = f64::from(NOISE / USUAL[row % TERMS].powi(2));
            sums[row][row] += usual;
            sums[row][ALL] -= usual * f64::from(term);
        }
        solved(&mut sums)
    }

    /// Products of the slopes with each other and with what is off, over all cells.
    fn slopes(
        &self,
        at: usize,
        here: [f32; WAYS],
        (seen, wanted): (&[i8], &[i8]),
    ) -> ([[f32; WAYS]; WAYS], [f32; WAYS]) {
        let patch = self.query.patch(at);
        let moved: [Vec<i8>; WAYS] = std::array::from_fn(|way| {
            let mut there = here;
            there[way] += STEP;
            sketch(patch, there).fine
        });
        let mut slopes = [[0.0; WAYS]; WAYS];
        let mut products = [0.0; WAYS];
        for cell in 0..FINE_CELLS {
            let level = |cells: &[i8]| f32::from(cells[cell]) / STEPS;
            let now = level(seen);
            let off = level(wanted) - now;
            let counts = 1.0 / (1.0 + (off / OFF).powi(2));
            let slope: [f32; WAYS] = std::array::from_fn(|way| (level(&moved[way]) - now) / STEP);
            for way in 0..WAYS {
                for other in 0..WAYS {
                    slopes[way][other] += counts * slope[way] * slope[other];
                }
                products[way] += counts * slope[way] * off;
            }
        }
        (slopes, products)
    }
}

/// Gauss, with the largest first.
fn solved(sums: &mut [[f64; ALL + 1]; ALL]) -> Option<[f32; ALL]> {
    for column in 0..ALL {
        let larger =
            |a: &usize, b: &usize| sums[*a][column].abs().total_cmp(&sums[*b][column].abs());
        let best = (column..ALL).max_by(larger)?;
        sums.swap(column, best);
        if sums[column][column].abs() < 1e-9 {
            return None;
        }
        let taken = sums[column];
        for (row, left) in sums.iter_mut().enumerate() {
            if row == column {
                continue;
            }
            let factor = left[column] / taken[column];
            for (left, taken) in left.iter_mut().zip(taken) {
                *left -= factor * taken;
            }
        }
    }
    Some(std::array::from_fn(|row| {
        (sums[row][ALL] / sums[row][row]) as f32
    }))
}
