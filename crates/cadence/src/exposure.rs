//! How long the shutter of the file's camera was open.

use crate::pattern::{Explained, Fold, PHASES, Pattern};
use crate::stride::Stride;

/// Exposures told apart, in shares of the file frame.
const GRAIN: f64 = 0.05;
/// Exposures that leave so many times the least unexplained are alike; so many
/// of the shortest are moments.
const ALIKE: f32 = 1.04;
const MOMENTS: usize = 3;
/// From here on it was open all the time.
const WHOLE: f64 = 0.92;

/// What is measured of a cadence over all that is known.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Measured {
    /// Share of the file frame for which its shutter was open.
    pub(crate) exposure: f64,
    /// How much of what varies it explains, 0 to 1.
    pub(crate) fit: f32,
    /// The stride where film frames rest, in the half of the roll that shows
    /// most; without bound where none rests.
    pub(crate) rests: f32,
    /// How much of what varies it explains, of strides and of bends.
    pub(crate) explained: [Explained; 2],
    /// How often the phase turned.
    pub(crate) turns: f64,
}

/// Turns of the phase from which on they are taken for many.
const TURNS: f64 = 16.0;
/// What a cadence that is seen over many turns explains at least of strides and bends:
/// real clips and drawn film of one frame each reach 0.25 of the one or 0.15 of the
/// other, FFmpeg's moving test picture 0.24 of either, drawn blends 0.36 of bends and
/// more. A test picture that changes once a second explains as much, but by another
/// shape: so most of what the phase explains must be the pattern's own.
const EXPLAINED: [f32; 2] = [0.1, 0.3];
const ITS_OWN: f32 = 0.75;

impl Measured {
    /// Whether the cadence is seen over many turns of its phase, all together.
    pub(crate) fn is_seen_over_turns(&self) -> bool {
        let is_explained = |(kind, least): (&Explained, f32)| {
            kind.by_pattern >= least && kind.by_pattern >= ITS_OWN * kind.by_phase
        };
        self.turns >= TURNS && self.explained.iter().zip(EXPLAINED).all(is_explained)
    }
}

/// The exposure that explains strides best when they are laid over each other
/// by the phase of their positions.
pub(crate) fn measure(positions: &[f64], strides: &[Stride], step: f64) -> Measured {
    let mut usual: Vec<f32> = strides.iter().map(|stride| stride.usual).collect();
    usual.sort_unstable_by(f32::total_cmp);
    let middle = usual.get(usual.len() / 2).copied().unwrap_or(0.0);
    let (mut fold, mut lively) = (Fold::new(), Fold::new());
    for (position, stride) in positions.iter().zip(strides) {
        fold.add(*position, stride);
        if stride.usual >= middle {
            lively.add(*position, stride);
        }
    }
    let best_shift = |exposure: f64| {
        let pattern = Pattern::new(step, exposure * step);
        let fits = (0..PHASES).map(|shift| (fold.fit(&pattern, shift), shift));
        fits.fold(
            (0.0, 0),
            |best, fit| if fit.0 > best.0 { fit } else { best },
        )
    };
    let tried = (0..=(1.0 / GRAIN) as u32).map(|at| GRAIN * f64::from(at));
    let fits: Vec<(f64, f32)> = tried
        .map(|exposure| (exposure, best_shift(exposure).0))
        .collect();
    let most = fits.iter().map(|fit| fit.1).fold(0.0, f32::max);
    // Where the phases are few, a moment and longer exposures look alike.
    let alike = |fit: &&(f64, f32)| 1.0 - fit.1 <= ALIKE * (1.0 - most) + 0.003;
    let momentary = fits.iter().take(MOMENTS).find(alike);
    let longest = || fits.iter().find(|fit| fit.1 >= most);
    let best = momentary.or_else(longest).map_or(0.0, |fit| fit.0);
    let exposure = if best >= WHOLE { 1.0 } else { best };
    let pattern = Pattern::new(step, exposure * step);
    let shift = best_shift(exposure).1;
    let passed = match positions {
        [first, .., last] => last - first,
        _ => 0.0,
    };
    Measured {
        exposure,
        fit: most,
        rests: lively.rests(&pattern, shift),
        explained: fold.explained(&pattern, shift),
        // Film frames and file frames fall apart by one a turn.
        turns: positions.len() as f64 - passed,
    }
}
