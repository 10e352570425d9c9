//! How long the shutter of the file's camera was open.

use crate::pattern::{Fold, PHASES, Pattern};
use crate::stride::Stride;

/// Exposures told apart, in shares of the file frame.
const GRAIN: f64 = 0.05;
/// Exposures that leave so many times the least unexplained are alike; so many
/// of the shortest are moments.
const ALIKE: f32 = 1.04;
const MOMENTS: usize = 3;
/// From here on it was open all the time.
const WHOLE: f64 = 0.92;

/// The exposure that explains strides best when they are laid over each other
/// by the phase of their positions, and how much it explains, 0 to 1.
pub(crate) fn exposure_of(positions: &[f64], strides: &[Stride], step: f64) -> (f64, f32) {
    let mut fold = Fold::new();
    for (position, stride) in positions.iter().zip(strides) {
        fold.add(*position, stride);
    }
    let fit = |exposure: f64| {
        let pattern = Pattern::new(step, exposure * step);
        (0..PHASES)
            .map(|shift| fold.fit(&pattern, shift))
            .fold(0.0, f32::max)
    };
    let tried = (0..=(1.0 / GRAIN) as u32).map(|at| GRAIN * f64::from(at));
    let fits: Vec<(f64, f32)> = tried.map(|exposure| (exposure, fit(exposure))).collect();
    let most = fits.iter().map(|fit| fit.1).fold(0.0, f32::max);
    // Where the phases are few, a moment and longer exposures look alike.
    let alike = |fit: &&(f64, f32)| 1.0 - fit.1 <= ALIKE * (1.0 - most) + 0.003;
    let momentary = fits.iter().take(MOMENTS).find(alike);
    let longest = || fits.iter().find(|fit| fit.1 >= most);
    let best = momentary.or_else(longest).map_or(0.0, |fit| fit.0);
    let best = if best >= WHOLE { 1.0 } else { best };
    (best, most)
}
