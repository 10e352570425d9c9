//! Short spectra in a row, and bands of them.

use std::sync::Arc;

use realfft::num_complex::Complex;
use realfft::{RealFftPlanner, RealToComplex};

use crate::Heard;

/// A window that rises and falls as a raised cosine (Hann).
pub(crate) fn hann(length: usize) -> Vec<f32> {
    let turn = std::f64::consts::TAU / length.max(1) as f64;
    (0..length)
        .map(|at| (0.5 - 0.5 * (turn * at as f64).cos()) as f32)
        .collect()
}

/// Turns windowed pieces into the power of their bins.
pub(crate) struct Spectra {
    window: Vec<f32>,
    transform: Arc<dyn RealToComplex<f32>>,
    piece: Vec<f32>,
    bins: Vec<Complex<f32>>,
    scratch: Vec<Complex<f32>>,
}

impl Spectra {
    /// Spectra of pieces of `length` samples.
    pub(crate) fn new(length: usize) -> Self {
        let transform = RealFftPlanner::new().plan_fft_forward(length);
        Self {
            window: hann(length),
            piece: transform.make_input_vec(),
            bins: transform.make_output_vec(),
            scratch: transform.make_scratch_vec(),
            transform,
        }
    }

    /// The power of each bin of the piece whose middle lies at sample `middle`;
    /// outside of the sound is silence.
    pub(crate) fn power_at(&mut self, heard: Heard<'_>, middle: isize, into: &mut [f32]) {
        let samples = heard.samples();
        let start = middle - (self.window.len() / 2) as isize;
        for (at, (value, weight)) in self.piece.iter_mut().zip(&self.window).enumerate() {
            let from = start + at as isize;
            let sample = usize::try_from(from)
                .ok()
                .and_then(|from| samples.get(from));
            *value = sample.copied().unwrap_or(0.0) * weight;
        }
        let done =
            self.transform
                .process_with_scratch(&mut self.piece, &mut self.bins, &mut self.scratch);
        debug_assert!(done.is_ok(), "the buffers are the transform's own");
        for (power, bin) in into.iter_mut().zip(&self.bins) {
            *power = bin.norm_sqr();
        }
    }

    /// How many bins a spectrum has.
    pub(crate) fn bins(&self) -> usize {
        self.bins.len()
    }
}

/// Bands of equal width in pitch, each the bins from one place to another.
#[derive(Debug, Clone)]
pub(crate) struct Bands(Vec<(usize, usize)>);

impl Bands {
    /// `per_octave` bands an octave from `lowest` to `highest` hertz, of spectra
    /// of `length` samples. Low bands narrower than a bin are put together.
    pub(crate) fn new(
        rate: f64,
        length: usize,
        per_octave: f64,
        lowest: f64,
        highest: f64,
    ) -> Self {
        let bin = rate / length as f64;
        let top = highest.min(rate / 2.0);
        let mut edges = Vec::new();
        let mut edge = lowest;
        while edge <= top {
            edges.push((edge / bin).round().max(1.0) as usize);
            edge *= 2f64.powf(1.0 / per_octave);
        }
        edges.dedup();
        Self(edges.windows(2).map(|pair| (pair[0], pair[1])).collect())
    }

    /// How many bands there are.
    pub(crate) fn count(&self) -> usize {
        self.0.len()
    }

    /// The mean power of each band.
    pub(crate) fn of(&self, power: &[f32], into: &mut [f32]) {
        for (band, &(from, to)) in into.iter_mut().zip(&self.0) {
            let bins = power.get(from..to.min(power.len())).unwrap_or_default();
            *band = bins.iter().sum::<f32>() / bins.len().max(1) as f32;
        }
    }
}
