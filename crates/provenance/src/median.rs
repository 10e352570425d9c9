//! Middle values, which a few wrong ones do not move.

/// The value below which this share of them lies, 0 where there are none.
pub(crate) fn quantile(values: &mut [f32], share: f32) -> f32 {
    if values.is_empty() {
        return 0.0;
    }
    let at = ((values.len() - 1) as f32 * share.clamp(0.0, 1.0)).round() as usize;
    let (_, value, _) = values.select_nth_unstable_by(at, f32::total_cmp);
    *value
}

/// The value in the middle, 0 where there are none.
pub(crate) fn median(values: &mut [f32]) -> f32 {
    quantile(values, 0.5)
}

/// The value in the middle and how far the others lie from it, as the spread of a normal
/// distribution would.
pub(crate) fn middle(values: &mut [f32]) -> (f32, f32) {
    let middle = median(values);
    let mut off: Vec<f32> = values.iter().map(|v| (v - middle).abs()).collect();
    (middle, 1.4826 * median(&mut off))
}
