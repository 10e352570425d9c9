//! From many measurements to the figures that are printed.

use std::time::{Duration, Instant};

/// Measurements of one thing, in rising order.
#[derive(Debug)]
pub(crate) struct Figures(Vec<f64>);

impl Figures {
    /// From measurements in any order and unit; at least one.
    pub(crate) fn of(measured: impl IntoIterator<Item = f64>) -> Self {
        let mut sorted: Vec<f64> = measured.into_iter().collect();
        sorted.sort_by(f64::total_cmp);
        Self(sorted)
    }

    /// The middle one; of an even number the mean of the middle two; not a
    /// number when nothing was measured.
    pub(crate) fn median(&self) -> f64 {
        let count = self.0.len();
        let at = |place: usize| self.0.get(place).copied().unwrap_or(f64::NAN);
        f64::midpoint(at(count.saturating_sub(1) / 2), at(count / 2))
    }

    /// The least of them that at least 99 of 100 do not exceed (nearest rank).
    pub(crate) fn ninety_ninth(&self) -> f64 {
        let rank = (self.0.len() * 99).div_ceil(100);
        self.0
            .get(rank.saturating_sub(1))
            .copied()
            .unwrap_or(f64::NAN)
    }

    /// The least.
    pub(crate) fn best(&self) -> f64 {
        self.0.first().copied().unwrap_or(f64::NAN)
    }

    /// The greatest.
    pub(crate) fn worst(&self) -> f64 {
        self.0.last().copied().unwrap_or(f64::NAN)
    }
}

/// How long each of some repetitions takes, in seconds.
///
/// # Errors
/// The first that `work` reports.
pub(crate) fn seconds_each<E>(
    times: u32,
    mut work: impl FnMut(u32) -> Result<(), E>,
) -> Result<Figures, E> {
    let mut all = Vec::new();
    for turn in 0..times {
        let began = Instant::now();
        work(turn)?;
        all.push(began.elapsed());
    }
    Ok(Figures::of(all.iter().map(Duration::as_secs_f64)))
}

/// A time in the unit that reads best: `12.3 µs`, `4.56 ms`, `1.20 s`.
pub(crate) fn time(seconds: f64) -> String {
    if seconds < 1e-3 {
        format!("{:.1} µs", seconds * 1e6)
    } else if seconds < 0.1 {
        format!("{:.2} ms", seconds * 1e3)
    } else if seconds < 1.0 {
        format!("{:.0} ms", seconds * 1e3)
    } else {
        format!("{seconds:.2} s")
    }
}

/// A ratio: `1.234`.
pub(crate) fn ratio(value: f64) -> String {
    format!("{value:.3}")
}

/// Memory in millions of bytes: `123 MB`.
pub(crate) fn megabytes(bytes: f64) -> String {
    format!("{:.0} MB", bytes / 1e6)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn same(found: f64, wanted: f64) {
        assert!((found - wanted).abs() < 1e-12, "{found} is not {wanted}");
    }

    #[test]
    fn the_median_does_not_care_for_order_or_outliers() {
        same(Figures::of([9000.0, 1.0, 3.0]).median(), 3.0);
        same(Figures::of([4.0, 1.0, 2.0, 3.0]).median(), 2.5);
        same(Figures::of([7.0]).median(), 7.0);
        assert!(Figures::of([]).median().is_nan());
    }

    #[test]
    fn the_ninety_ninth_leaves_one_of_a_hundred_above() {
        let hundred = Figures::of((1..=100).map(f64::from));
        same(hundred.ninety_ninth(), 99.0);
        same(Figures::of((1..=101).map(f64::from)).ninety_ninth(), 100.0);
        same(hundred.best(), 1.0);
        same(hundred.worst(), 100.0);
    }

    #[test]
    fn every_repetition_is_timed_and_the_first_failure_ends_it() {
        let mut turns = Vec::new();
        let done = seconds_each(3, |turn| {
            turns.push(turn);
            Ok::<(), ()>(())
        });
        assert_eq!(
            (turns.as_slice(), done.map(|f| f.0.len())),
            (&[0, 1, 2][..], Ok(3))
        );
        let failed = seconds_each(3, |turn| if turn == 1 { Err(turn) } else { Ok(()) });
        assert_eq!(failed.map(|f| f.0), Err(1));
    }

    #[test]
    fn times_are_told_in_the_unit_that_reads_best() {
        let told = [1.234e-5, 4.5678e-3, 0.4, 1.2].map(time);
        assert_eq!(told, ["12.3 µs", "4.57 ms", "400 ms", "1.20 s"]);
    }
}
