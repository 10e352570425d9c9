//! The most frames that keep their order: the longest increasing subsequence.

use super::matched::Run;

/// For each run, in the order of the old version, whether it keeps its order in
/// the new one. The runs that do hold the most frames possible.
///
/// Two runs stand in the same order with all their frames or with none, so that
/// the heaviest increasing subsequence of the runs is the longest one of the
/// frames. Time: O(n log n).
///
/// Source: the usual increasing-subsequence method with a tree of prefix
/// maxima; common practice.
pub(super) fn held(runs: &[Run]) -> Vec<bool> {
    let mut places: Vec<u32> = runs.iter().map(|r| r.new).collect();
    places.sort_unstable();
    let mut best = Maxima::new(runs.len());
    let mut before: Vec<Option<usize>> = Vec::with_capacity(runs.len());
    let mut weights: Vec<u64> = Vec::with_capacity(runs.len());
    for (at, run) in runs.iter().enumerate() {
        let place = places.partition_point(|p| *p < run.new);
        let (weight, last) = best.up_to(place);
        before.push(last);
        weights.push(weight + u64::from(run.frames));
        best.put(place, (weights[at], Some(at)));
    }
    let mut keeps = vec![false; runs.len()];
    let mut at = best.up_to(runs.len()).1;
    while let Some(run) = at {
        keeps[run] = true;
        at = before[run];
    }
    keeps
}

/// A tree over places that knows the heaviest of all before a place.
struct Maxima(Vec<(u64, Option<usize>)>);

impl Maxima {
    fn new(places: usize) -> Self {
        Self(vec![(0, None); places + 1])
    }

    /// The heaviest before a place.
    fn up_to(&self, place: usize) -> (u64, Option<usize>) {
        let mut at = place;
        let mut best = (0, None);
        while at > 0 {
            best = best.max(self.0[at]);
            at &= at - 1;
        }
        best
    }

    fn put(&mut self, place: usize, weight: (u64, Option<usize>)) {
        let mut at = place + 1;
        while at < self.0.len() {
            self.0[at] = self.0[at].max(weight);
            at += at & at.wrapping_neg();
        }
    }
}
