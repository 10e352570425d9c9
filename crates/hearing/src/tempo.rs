//! How fast a music goes.

use realfft::RealFftPlanner;
use realfft::num_complex::Complex;

use crate::rises::A_SECOND;

/// Slowest and fastest beat that is looked for. Unit: beats a minute.
pub(crate) const SLOWEST: f64 = 40.0;
pub(crate) const FASTEST: f64 = 240.0;

/// The beat that feet fall into when a music allows several, and how far from it
/// one goes: D. Moelants, Preferred tempo reconsidered, 2002, found 120 to 130;
/// the width in octaves is our own.
const LIKED: f64 = 115.0;
const OCTAVES: f64 = 0.9;

/// How a curve of rises repeats: for each lag in instants how alike it is to
/// itself, 1 at nought.
pub(crate) struct Repeats(Vec<f64>);

impl Repeats {
    pub(crate) fn of(rises: &[f64]) -> Self {
        let mean = crate::middle::mean(rises);
        let centred: Vec<f64> = rises.iter().map(|rise| rise - mean).collect();
        let length = (2 * centred.len()).next_power_of_two().max(2);
        let mut planner = RealFftPlanner::<f64>::new();
        let forward = planner.plan_fft_forward(length);
        let backward = planner.plan_fft_inverse(length);
        let mut padded = vec![0.0; length];
        padded[..centred.len()].copy_from_slice(&centred);
        let mut bins = forward.make_output_vec();
        let there = forward.process(&mut padded, &mut bins);
        for bin in &mut bins {
            *bin = Complex::new(bin.norm_sqr(), 0.0);
        }
        let back = backward.process(&mut bins, &mut padded);
        debug_assert!(there.is_ok() && back.is_ok(), "the buffers are its own");
        let whole = padded[0].max(1e-30);
        // Fewer pairs at long lags: each lag as if all pairs were there.
        let fair = |lag: usize| centred.len() as f64 / (centred.len() - lag).max(1) as f64;
        let lags = 0..centred.len() * 4 / 5;
        Self(lags.map(|lag| padded[lag] / whole * fair(lag)).collect())
    }

    /// At a lag between instants.
    fn at(&self, lag: f64) -> f64 {
        let (below, part) = (lag.floor() as usize, lag.fract());
        let value = |at: usize| self.0.get(at).copied().unwrap_or(0.0);
        value(below) * (1.0 - part) + value(below + 1) * part
    }

    /// How well beats of this many instants fit: the mean over one to eight of
    /// them, as far as the sound is long, for a beat that is one carries on.
    pub(crate) fn comb(&self, lag: f64) -> f64 {
        let most = (self.0.len() as f64 / lag).min(8.0).floor().max(1.0) as u32;
        let sum: f64 = (1..=most)
            .map(|times| self.at(lag * f64::from(times)))
            .sum();
        sum / f64::from(most)
    }
}

/// Instants from beat to beat.
pub(crate) fn lag_of(bpm: f64) -> f64 {
    A_SECOND * 60.0 / bpm
}

/// A tempo, and how well it fits.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Candidate {
    pub(crate) bpm: f64,
    pub(crate) worth: f64,
}

/// The tempos that fit best, best first, none within 6 % of a better one.
///
/// Tempos stand half a per cent apart at first, then each is climbed to its top.
pub(crate) fn candidates(repeats: &Repeats, slowest: f64, fastest: f64) -> Vec<Candidate> {
    let steps = ((fastest / slowest).ln() / 0.005).ceil() as usize;
    let grid: Vec<Candidate> = (0..=steps)
        .map(|at| slowest * (0.005 * at as f64).exp())
        .map(|bpm| Candidate {
            bpm,
            worth: worth(repeats, bpm),
        })
        .collect();
    let is_top = |at: usize| {
        let near = &grid[at.saturating_sub(1)..(at + 2).min(grid.len())];
        near.iter().all(|other| other.worth <= grid[at].worth)
    };
    let mut tops: Vec<Candidate> = (0..grid.len())
        .filter(|&at| is_top(at) && grid[at].worth > 0.0)
        .map(|at| climb(repeats, grid[at]))
        .collect();
    tops.sort_by(|a, b| b.worth.total_cmp(&a.worth));
    let mut kept: Vec<Candidate> = Vec::new();
    for top in tops {
        if kept
            .iter()
            .all(|better| (better.bpm / top.bpm).ln().abs() > 0.06)
        {
            kept.push(top);
        }
    }
    kept.truncate(5);
    kept
}

fn worth(repeats: &Repeats, bpm: f64) -> f64 {
    let away = (bpm / LIKED).log2() / OCTAVES;
    repeats.comb(lag_of(bpm)) * (-0.5 * away * away).exp()
}

fn climb(repeats: &Repeats, from: Candidate) -> Candidate {
    let near = (-25..=25).map(|at| from.bpm * (1.0 + 0.0002 * f64::from(at)));
    near.map(|bpm| Candidate {
        bpm,
        worth: worth(repeats, bpm),
    })
    .fold(
        from,
        |best, one| if one.worth > best.worth { one } else { best },
    )
}
