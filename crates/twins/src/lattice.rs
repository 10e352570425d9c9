//! The way through all pairs of frames that is most alike: dynamic time warping
//! in which both ends may be anywhere, with how sure each place of it is.

use std::ops::Range;

/// Places are this far apart: a step aside is a quarter slower or quicker. Unit:
/// what a way at pace 1 goes on by from row to row.
const PLACE: f32 = 0.25;

/// Evidence that a row (a frame of the one take) and a place (a moment of the
/// other) are the same moment, in logarithms of a chance.
///
/// Places are counted from a straight line of a given speed through the corner,
/// so a way that keeps the speed stays on one place, and a step to the next
/// place is a little hurry or delay.
#[derive(Debug, Clone)]
pub(crate) struct Lattice {
    /// Unit: columns a row.
    speed: f32,
    /// Unit: columns.
    place: f32,
    rows: Vec<LatticeRow>,
}

#[derive(Debug, Clone)]
struct LatticeRow {
    /// The first place that lies within the other take.
    first: i32,
    evidence: Vec<f32>,
}

impl LatticeRow {
    fn get(&self, place: i32) -> Option<usize> {
        let at = usize::try_from(place - self.first).ok()?;
        (at < self.evidence.len()).then_some(at)
    }
}

/// A way through a lattice.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Way {
    /// Its first row.
    pub(crate) first: usize,
    /// The column of each of its rows.
    pub(crate) columns: Vec<f32>,
    /// All its evidence, hurry and delay taken off.
    pub(crate) evidence: f32,
}

impl Way {
    pub(crate) fn rows(&self) -> Range<usize> {
        self.first..self.first + self.columns.len()
    }
}

impl Lattice {
    /// Asks `evidence` for every row and every column within the other take, for
    /// ways about `pace`. A row is as far on as `stride` columns.
    pub(crate) fn new(
        (rows, columns): (usize, usize),
        (pace, stride): (f32, usize),
        evidence: impl Fn(usize, f32) -> f32,
    ) -> Self {
        let last = columns as f32 - 1.0;
        let (speed, step) = (pace * stride as f32, PLACE * stride as f32);
        let row = |row: usize| {
            let line = speed * row as f32;
            let first = ((-line) / step).ceil() as i32;
            let end = ((last - line) / step).floor() as i32 + 1;
            let places = first..end.max(first);
            let column = |place: i32| (line + step * place as f32).clamp(0.0, last);
            LatticeRow {
                first,
                evidence: places.map(|place| evidence(row, column(place))).collect(),
            }
        };
        Self {
            speed,
            place: step,
            rows: (0..rows).map(row).collect(),
        }
    }

    fn column(&self, row: usize, place: i32) -> f32 {
        self.speed * row as f32 + self.place * place as f32
    }

    /// The way with the most evidence; each step aside costs `bend`. Nothing
    /// where no pair of frames speaks for itself.
    pub(crate) fn best_way(&self, bend: f32) -> Option<Way> {
        let mut best = (0.0_f32, 0, 0);
        let mut sums: Vec<f32> = Vec::new();
        let mut came: Vec<Vec<i8>> = Vec::with_capacity(self.rows.len());
        for (at, row) in self.rows.iter().enumerate() {
            let before = at.checked_sub(1).map(|b| &self.rows[b]);
            let mut from = vec![START; row.evidence.len()];
            let mut here = row.evidence.clone();
            for (n, sum) in here.iter_mut().enumerate() {
                let place = row.first + n as i32;
                let mut most = 0.0;
                for step in ORDER {
                    let old = before.and_then(|b| b.get(place - i32::from(step)));
                    let Some(old) = old else { continue };
                    let reached = sums[old] - bend * f32::from(step.abs());
                    if reached > most {
                        (most, from[n]) = (reached, step);
                    }
                }
                *sum += most;
                if *sum > best.0 {
                    best = (*sum, at, place);
                }
            }
            (sums, _) = (here, came.push(from));
        }
        (best.0 > 0.0).then(|| self.way_back(best, &came))
    }

    /// The evidence of the best way alone.
    pub(crate) fn best_evidence(&self, bend: f32) -> f32 {
        let mut best = 0.0_f32;
        // What was reached at each place of the row before, with a place of
        // nothing on either side.
        let (mut before, mut first) = (vec![0.0_f32; 2], 0);
        for row in &self.rows {
            let mut here = vec![0.0_f32; row.evidence.len() + 2];
            for (n, &evidence) in row.evidence.iter().enumerate() {
                // Place n of this row is that of the row before, counted from its first.
                let at = row.first - first + n as i32 + 1;
                let reached = |at: i32| {
                    let at = usize::try_from(at).ok();
                    at.and_then(|at| before.get(at)).copied().unwrap_or(0.0)
                };
                let aside = reached(at - 1).max(reached(at + 1)) - bend;
                let sum = evidence + reached(at).max(aside).max(0.0);
                here[n + 1] = sum.max(0.0);
                best = best.max(sum);
            }
            (before, first) = (here, row.first);
        }
        best
    }

    fn way_back(&self, (evidence, end, place): (f32, usize, i32), came: &[Vec<i8>]) -> Way {
        let (mut row, mut place) = (end, place);
        let mut columns = vec![self.column(row, place)];
        while let Some(at) = self.rows[row].get(place) {
            let step = came[row][at];
            if step == START {
                break;
            }
            (row, place) = (row - 1, place - i32::from(step));
            columns.push(self.column(row, place));
        }
        columns.reverse();
        Way {
            first: row,
            columns,
            evidence,
        }
    }

    /// How far off each row of a way may be, from all ways together, each
    /// counting by its evidence. Unit: columns.
    pub(crate) fn spread(&self, way: &Way, aside: f32) -> Vec<f32> {
        let forward = self.swept(aside, false);
        let back = self.swept(aside, true);
        let spread_of = |row: usize, column: f32| {
            let all = &self.rows[row];
            let (mut weight, mut square) = (0.0_f64, 0.0_f64);
            for n in 0..all.evidence.len() {
                // Evidence of the row itself is in both.
                let chance = forward[row][n] + back[row][n] - all.evidence[n];
                let chance = f64::from(chance).exp();
                let off = f64::from(self.column(row, all.first + n as i32) - column);
                weight += chance;
                square += chance * off * off;
            }
            if weight > 0.0 {
                (square / weight).sqrt() as f32
            } else {
                f32::INFINITY
            }
        };
        let rows = way.rows().zip(&way.columns);
        rows.map(|(row, &column)| spread_of(row, column)).collect()
    }

    /// Logarithm of the weight of all ways that lead to each place, from the
    /// first row on or from the last row back; the largest of a row is 0.
    fn swept(&self, aside: f32, back: bool) -> Vec<Vec<f32>> {
        let count = self.rows.len();
        let mut swept: Vec<Vec<f32>> = vec![Vec::new(); count];
        let mut weights: Vec<f64> = Vec::new();
        // The weight of a way that begins here, on the scale of the row.
        let mut begin = 1.0_f64;
        let (straight, aside) = (f64::from(1.0 - 2.0 * aside), f64::from(aside));
        let mut before: Option<usize> = None;
        for n in 0..count {
            let at = if back { count - 1 - n } else { n };
            let row = &self.rows[at];
            let old = before.map(|b| &self.rows[b]);
            let here = (0..row.evidence.len()).map(|n| {
                let place = row.first + n as i32;
                let weight = |place: i32| {
                    let found = old.and_then(|old| old.get(place));
                    found.map_or(0.0, |found| weights[found])
                };
                let led =
                    straight * weight(place) + aside * (weight(place - 1) + weight(place + 1));
                (begin + led) * f64::from(row.evidence[n]).exp()
            });
            let mut here: Vec<f64> = here.collect();
            let most = here.iter().copied().fold(begin, f64::max);
            here.iter_mut().for_each(|w| *w /= most);
            begin /= most;
            swept[at] = here.iter().map(|w| w.max(1e-300).ln() as f32).collect();
            (weights, before) = (here, Some(at));
        }
        swept
    }
}

const START: i8 = i8::MAX;
/// Straight on is tried first, so that of equals it is taken.
const ORDER: [i8; 3] = [0, -1, 1];

#[cfg(test)]
mod tests;
