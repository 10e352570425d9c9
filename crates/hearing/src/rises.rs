//! How much a sound rises from instant to instant, over all pitches: the curve
//! that attacks and beats are read from.

use crate::spectra::{Bands, Spectra};
use crate::{Heard, middle};

/// Instants a second of the curve.
pub(crate) const A_SECOND: f64 = 200.0;

/// Longest piece of sound one spectrum sees. Unit: seconds.
const PIECE: f64 = 0.04;

/// A rise for each instant: the sum over bands of what a band's loudness has
/// grown since a moment before, where "before" is the loudest of it and its two
/// neighbours, so that a voice that glides is not taken for a new one.
/// S. Böck and G. Widmer, Maximum filter vibrato suppression for onset
/// detection, `DAFx` 2013; the figures here are our own.
pub(crate) struct Rises {
    /// All bands.
    pub(crate) all: Vec<f64>,
    /// Bands below 200 Hz: where bass and drum strike.
    pub(crate) low: Vec<f64>,
}

/// Instants between "now" and "before".
const LAG: usize = 3;

impl Rises {
    pub(crate) fn of(heard: Heard<'_>) -> Self {
        let length = ((PIECE * heard.rate()) as usize).next_power_of_two();
        let mut spectra = Spectra::new(length);
        let bands = Bands::new(heard.rate(), length, 12.0, 40.0, 16_000.0);
        let low = Bands::new(heard.rate(), length, 12.0, 40.0, 200.0).count();
        let instants = (heard.seconds() * A_SECOND).ceil() as usize;
        let mut power = vec![0.0; spectra.bins()];
        let mut loud = vec![vec![0.0_f32; bands.count()]; instants];
        for (at, row) in loud.iter_mut().enumerate() {
            let middle = (at as f64 / A_SECOND * heard.rate()) as isize;
            spectra.power_at(heard, middle, &mut power);
            bands.of(&power, row);
        }
        loudness(&mut loud);
        let rise = |at: usize, from: usize, to: usize| -> f64 {
            let Some(before) = at.checked_sub(LAG) else {
                return 0.0;
            };
            (from..to)
                .map(|band| {
                    let near = band.saturating_sub(1)..(band + 2).min(bands.count());
                    let top = loud[before][near].iter().fold(0.0_f32, |a, &b| a.max(b));
                    f64::from((loud[at][band] - top).max(0.0))
                })
                .sum()
        };
        Self {
            all: (0..instants).map(|at| rise(at, 0, bands.count())).collect(),
            low: (0..instants).map(|at| rise(at, 0, low)).collect(),
        }
    }
}

/// Powers turned into loudness: a logarithm with a foot at 66 dB below the loud
/// parts of the sound, so that rustle in a pause counts for little.
fn loudness(rows: &mut [Vec<f32>]) {
    let sums: Vec<f64> = rows
        .iter()
        .map(|row| row.iter().map(|&power| f64::from(power)).sum())
        .collect();
    let bands = rows.first().map_or(1, Vec::len).max(1);
    let loud = middle::quantile(&sums, 0.98) / bands as f64;
    let foot = (loud * 2.5e-7).max(1e-20) as f32;
    for value in rows.iter_mut().flatten() {
        *value = (*value / foot).ln_1p();
    }
}
