//! Runs of frames whose values are on one side of a limit.

use std::ops::Range;

/// What makes a run.
#[derive(Debug, Clone, Copy)]
pub(crate) struct RunRule {
    /// A run has a value of at least this.
    pub(crate) enter: f32,
    /// And goes on as long as values are at least this.
    pub(crate) stay: f32,
    /// Frames below that it may leap over.
    pub(crate) gap: usize,
    /// Fewest frames.
    pub(crate) shortest: usize,
}

/// The runs of `values`, whose first belongs to frame `first`. What is not a
/// number is below every limit.
pub(crate) fn runs(values: &[f32], first: usize, rule: RunRule) -> Vec<Range<usize>> {
    let mut found: Vec<Range<usize>> = Vec::new();
    let mut open: Option<Range<usize>> = None;
    for (place, &value) in values.iter().enumerate() {
        if value >= rule.stay {
            match &mut open {
                Some(run) if place <= run.end + rule.gap => run.end = place + 1,
                _ => {
                    found.extend(open.take());
                    open = Some(place..place + 1);
                }
            }
        }
    }
    found.extend(open);
    found.retain(|run| {
        run.len() >= rule.shortest && values[run.clone()].iter().any(|value| *value >= rule.enter)
    });
    found
        .into_iter()
        .map(|run| run.start + first..run.end + first)
        .collect()
}

/// The middle value of `values`; not a number when there are none.
pub(crate) fn middle(values: impl IntoIterator<Item = f32>) -> f32 {
    share(values, 0.5)
}

/// The value that `share` of the values do not exceed.
pub(crate) fn share(values: impl IntoIterator<Item = f32>, share: f32) -> f32 {
    let mut values: Vec<f32> = values.into_iter().filter(|value| !value.is_nan()).collect();
    values.sort_by(f32::total_cmp);
    if values.is_empty() {
        return f32::NAN;
    }
    values[((values.len() - 1) as f32 * share).round() as usize]
}

/// Each value replaced by the middle one of those up to `reach` away.
pub(crate) fn middles(values: &[f32], reach: usize) -> Vec<f32> {
    (0..values.len())
        .map(|place| {
            let from = place.saturating_sub(reach);
            let until = (place + reach + 1).min(values.len());
            middle(values[from..until].iter().copied())
        })
        .collect()
}

/// The place of the greatest value in a span, numbered as the values are.
pub(crate) fn greatest(span: Range<usize>, value: impl Fn(usize) -> f32) -> Option<usize> {
    span.filter(|&at| !value(at).is_nan())
        .max_by(|&a, &b| value(a).total_cmp(&value(b)))
}

#[cfg(test)]
mod tests {
    use super::*;

    const RULE: RunRule = RunRule {
        enter: 3.0,
        stay: 2.0,
        gap: 1,
        shortest: 2,
    };

    #[test]
    fn a_run_needs_one_high_value_and_leaps_over_a_short_gap() {
        let values = [0.0, 2.0, 3.0, 0.0, 2.5, 0.0, 0.0, 2.0, 2.0, f32::NAN];
        assert_eq!(runs(&values, 10, RULE), vec![11..15]);
    }

    #[test]
    fn a_short_run_is_none() {
        assert!(runs(&[0.0, 9.0, 0.0], 0, RULE).is_empty());
    }

    #[test]
    fn the_middle_leaves_out_what_is_no_number() {
        assert!((middle([3.0, f32::NAN, 1.0, 2.0]) - 2.0).abs() < 1e-6);
        assert!(middle([]).is_nan());
    }
}
