//! The colour of an atmosphere from instant to instant: its level in each band.

use super::{BEAT_DB, EVENT, LONGER, LoopWish};
use crate::spectra::{Bands, Spectra};
use crate::{Heard, middle};

/// Most instants that are compared, each with each.
const MOST: f64 = 1_500.0;

/// Levels in thirds of an octave, in dB, one row an instant.
pub(super) struct Colours {
    rows: Vec<Vec<f32>>,
    /// Unit: seconds from instant to instant.
    every: f64,
    /// By how much the loudest band of each instant stands above its own middle.
    out: Vec<f32>,
}

impl Colours {
    pub(super) fn of(heard: Heard<'_>) -> Self {
        let every = (heard.seconds() / MOST).max(0.1);
        let count = (heard.seconds() / every).floor().max(1.0) as usize;
        let rows: Vec<Vec<f32>> = levels(heard, every, count);
        let out = standing_out(&rows);
        Self { rows, every, out }
    }

    /// How many instants a time lasts, at least one.
    pub(super) fn instants(&self, seconds: f64) -> usize {
        (seconds / self.every).round().max(1.0) as usize
    }

    fn at(&self, seconds: f64) -> usize {
        ((seconds / self.every) as usize).min(self.rows.len().saturating_sub(1))
    }

    /// How much the colour changes from each half second to the next.
    pub(super) fn changes(&self) -> Vec<f64> {
        let wide = self.instants(0.3);
        (0..self.rows.len())
            .map(|at| {
                if at < wide || at + wide > self.rows.len() {
                    return 0.0;
                }
                let before = mean_row(&self.rows[at - wide..at]);
                let after = mean_row(&self.rows[at..at + wide]);
                f64::from(apart(&before, &after))
            })
            .collect()
    }

    /// How far the ends of a loop differ, read round the seam. Unit: dB.
    pub(super) fn apart_at(&self, from: f64, to: f64, fade: f64) -> f64 {
        let reach = self.instants(fade);
        let round = |middle: usize| {
            let near = middle.saturating_sub(reach)..(middle + reach).min(self.rows.len());
            mean_row(&self.rows[near])
        };
        f64::from(apart(&round(self.at(from)), &round(self.at(to))))
    }

    /// How far the loudest event between two times stands out. Unit: dB.
    pub(super) fn stands_out(&self, from: f64, to: f64) -> f64 {
        let stretch = &self.out[self.at(from)..=self.at(to).max(self.at(from))];
        f64::from(stretch.iter().copied().fold(0.0, f32::max))
    }

    /// The best beginning and end of a loop. Unit: seconds.
    pub(super) fn best_pair(&self, wish: LoopWish) -> Option<(f64, f64)> {
        let reach = self.instants(wish.fade);
        let smooth: Vec<Vec<f32>> = (0..self.rows.len())
            .map(|at| {
                let near = at.saturating_sub(reach)..(at + reach).min(self.rows.len());
                mean_row(&self.rows[near])
            })
            .collect();
        let least = (wish.least / self.every).ceil() as usize;
        // The fade needs sound before `from`, and as much is read after `to`.
        let first = (wish.fade / self.every).ceil() as usize + 1;
        let last = self.rows.len().saturating_sub(2);
        let mut best: Option<(f64, usize, usize)> = None;
        for from in first..=last.saturating_sub(least).max(first) {
            let mut loudest = self.out[from - first..(from + least).min(last)]
                .iter()
                .copied()
                .fold(0.0, f32::max);
            for to in from + least..=last {
                loudest = loudest.max(self.out[to]);
                let event = (f64::from(loudest) - BEAT_DB).max(0.0);
                let length = ((to - from) as f64 / least.max(1) as f64).log2();
                let cost =
                    f64::from(apart(&smooth[from], &smooth[to])) + EVENT * event - LONGER * length;
                if best.is_none_or(|best| cost < best.0) {
                    best = Some((cost, from, to));
                }
            }
        }
        best.map(|(_, from, to)| (from as f64 * self.every, to as f64 * self.every))
    }
}

/// The level of each band at each instant, a mean of some spectra each.
fn levels(heard: Heard<'_>, every: f64, count: usize) -> Vec<Vec<f32>> {
    let length = ((0.04 * heard.rate()) as usize).next_power_of_two();
    let bands = Bands::new(heard.rate(), length, 3.0, 60.0, 14_000.0);
    let mut spectra = Spectra::new(length);
    let mut power = vec![0.0; spectra.bins()];
    let mut row = vec![0.0; bands.count()];
    let looks = ((every / 0.025) as usize).clamp(1, 8);
    (0..count)
        .map(|at| {
            let mut sums = vec![0.0_f32; bands.count()];
            for look in 0..looks {
                let time = (at as f64 + (look as f64 + 0.5) / looks as f64) * every;
                spectra.power_at(heard, (time * heard.rate()) as isize, &mut power);
                bands.of(&power, &mut row);
                for (sum, value) in sums.iter_mut().zip(&row) {
                    *sum += value / looks as f32;
                }
            }
            sums.iter()
                .map(|sum| 10.0 * (sum + 1e-12).log10())
                .collect()
        })
        .collect()
}

fn standing_out(rows: &[Vec<f32>]) -> Vec<f32> {
    let bands = rows.first().map_or(0, Vec::len);
    let usual: Vec<f64> = (0..bands)
        .map(|band| {
            let levels: Vec<f64> = rows.iter().map(|row| f64::from(row[band])).collect();
            middle::median(&levels)
        })
        .collect();
    rows.iter()
        .map(|row| {
            let above: Vec<f32> = row
                .iter()
                .zip(&usual)
                .map(|(level, usual)| level - *usual as f32)
                .collect();
            // An octave together: a single third of noise leaps by itself.
            let octaves = above
                .windows(3)
                .map(|three| three.iter().sum::<f32>() / 3.0);
            octaves.fold(0.0, f32::max)
        })
        .collect()
}

fn mean_row(rows: &[Vec<f32>]) -> Vec<f32> {
    let mut mean = rows.first().cloned().unwrap_or_default();
    for row in rows.iter().skip(1) {
        for (sum, value) in mean.iter_mut().zip(row) {
            *sum += value;
        }
    }
    let count = rows.len().max(1) as f32;
    mean.iter().map(|sum| sum / count).collect()
}

/// Root mean square of the differences of all bands. Unit: dB.
fn apart(a: &[f32], b: &[f32]) -> f32 {
    let sum: f32 = a.iter().zip(b).map(|(a, b)| (a - b) * (a - b)).sum();
    (sum / a.len().max(1) as f32).sqrt()
}
