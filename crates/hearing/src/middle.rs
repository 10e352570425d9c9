//! Middles that a few wild values do not move.

/// The value below which `share` (0 to 1) of the values lie; 0 of none.
pub(crate) fn quantile(values: &[f64], share: f64) -> f64 {
    let mut sorted = values.to_vec();
    if sorted.is_empty() {
        return 0.0;
    }
    let at = ((sorted.len() - 1) as f64 * share.clamp(0.0, 1.0)).round() as usize;
    let (_, value, _) = sorted.select_nth_unstable_by(at, f64::total_cmp);
    *value
}

/// The middle value; 0 of none.
pub(crate) fn median(values: &[f64]) -> f64 {
    quantile(values, 0.5)
}

/// The mean; 0 of none.
pub(crate) fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len().max(1) as f64
}
