//! How much a reading counts that does not fit.

use crate::points::LOG_EXPOSURE_PER_POINT;

/// Times the scene is solved again.
pub(crate) const STEPS: usize = 30;
/// A reading that counts less than this is told as off.
pub(crate) const OFF: f64 = 0.3;
/// Below this no scatter is believed: a patch cannot be read better than to a tenth of a
/// point. Unit: log10 exposure.
pub(crate) const READING_NOISE: f64 = 0.1 * LOG_EXPOSURE_PER_POINT;

/// Least that a reading counts, so that nothing falls apart.
const LEAST: f64 = 1e-4;
/// Least scatter that the weights are measured by: a reading within a point or two is
/// never thrown out. Unit: log10 exposure.
const LEAST_SCALE: f64 = 0.5 * LOG_EXPOSURE_PER_POINT;
/// Tukey's biweight: nothing beyond this many scales counts. Source: P. J. Huber, Robust
/// Statistics, 1981; 95 % efficient on normal scatter.
const TUKEY: f64 = 4.685;

/// Weights for the sizes of what is left over. The first half of the steps goes by the
/// sum of sizes (which half of the readings cannot spoil), the rest by the biweight.
pub(crate) fn weights(sizes: &[f64], spare: usize, step: usize) -> Vec<f64> {
    if step < STEPS / 2 {
        return sizes
            .iter()
            .map(|size| LEAST_SCALE / size.max(LEAST_SCALE / 10.0))
            .collect();
    }
    let scale = scale(sizes, spare);
    let one = |size: &f64| {
        let far = size / (TUKEY * scale);
        let weight = if far < 1.0 {
            (1.0 - far * far).powi(2)
        } else {
            0.0
        };
        weight.max(LEAST)
    };
    sizes.iter().map(one).collect()
}

/// The usual size, from the middle one; what is fitted away by the unknowns is given back.
fn scale(sizes: &[f64], spare: usize) -> f64 {
    let mut sorted = sizes.to_vec();
    sorted.sort_by(f64::total_cmp);
    let middle = sorted.get(sorted.len() / 2).copied().unwrap_or(0.0);
    let fitted = (sizes.len() as f64 / spare.max(1) as f64).sqrt();
    (1.4826 * middle * fitted).max(LEAST_SCALE)
}
