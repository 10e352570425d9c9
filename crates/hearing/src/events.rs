//! Events that were seen laid to onsets that were heard, when neither list is
//! whole.

use crate::HearingError;
use crate::tone::in_range;

/// Events laid to onsets.
#[derive(Debug, Clone, PartialEq)]
pub struct EventsLaid {
    /// An onset lies this much after its event; below 0 before. Unit: seconds.
    pub seconds: f64,
    /// Which event is which onset, by their places in the lists from 0.
    pub pairs: Vec<(usize, usize)>,
    /// Root mean square of what is left between the pairs. Unit: milliseconds.
    pub off_ms: f64,
}

/// Lays events to onsets so that most of them meet: some events may be silent,
/// some sounds unseen.
///
/// Unit: seconds, each list forward. `within`: how far from its event an onset
/// may lie and still be of it, from 0.001 to 1. Of two places with as many pairs
/// the one with less left between them is taken.
///
/// # Errors
/// [`HearingError::OutOfRange`], [`HearingError::NotForward`], or
/// [`HearingError::NothingInCommon`] when fewer than two events meet an onset.
///
/// ```
/// # use onestrand_hearing::lay_events;
/// let laid = lay_events(&[1.0, 2.0, 4.5], &[0.2, 3.31, 4.30, 6.0, 6.81], 0.04)?;
/// assert_eq!(laid.pairs, [(0, 1), (1, 2), (2, 4)]);
/// assert!((laid.seconds - 2.307).abs() < 0.001);
/// assert!(lay_events(&[1.0, 2.0], &[1.0, 3.7], 0.04).is_err());
/// # Ok::<(), onestrand_hearing::HearingError>(())
/// ```
pub fn lay_events(events: &[f64], onsets: &[f64], within: f64) -> Result<EventsLaid, HearingError> {
    in_range("how far apart they may lie", within, 0.001, 1.0)?;
    for (what, list) in [("events", events), ("onsets", onsets)] {
        in_range("how many there are", list.len() as f64, 2.0, 20_000.0)?;
        if let Some(at) = (1..list.len()).find(|&at| list[at].is_nan() || list[at] <= list[at - 1])
        {
            return Err(HearingError::NotForward { what, at });
        }
    }
    let mut best: Option<EventsLaid> = None;
    // At the best place at least one pair lies closer than the rest: near it.
    for start in most_agreed(events, onsets, within) {
        let mut place = start;
        for _ in 0..4 {
            let laid = laid_at(events, onsets, place, within);
            place = laid.seconds;
            let better = best.as_ref().is_none_or(|best| {
                let (more, same) = (laid.pairs.len(), best.pairs.len());
                more > same || (more == same && laid.off_ms < best.off_ms)
            });
            if better {
                best = Some(laid);
            }
        }
    }
    best.filter(|laid| laid.pairs.len() >= 2)
        .ok_or(HearingError::NothingInCommon)
}

/// Places at which the most pairs agree, as middles of the fullest stretches of
/// all differences.
fn most_agreed(events: &[f64], onsets: &[f64], within: f64) -> Vec<f64> {
    let mut all: Vec<f64> = events
        .iter()
        .flat_map(|event| onsets.iter().map(move |onset| onset - event))
        .collect();
    all.sort_by(f64::total_cmp);
    let mut from = 0;
    let mut stretches: Vec<(usize, f64)> = Vec::new();
    for to in 0..all.len() {
        while all[to] - all[from] > within {
            from += 1;
        }
        stretches.push((to - from + 1, 0.5 * (all[to] + all[from])));
    }
    stretches.sort_by(|a, b| b.0.cmp(&a.0).then(a.1.total_cmp(&b.1)));
    stretches.truncate(64);
    stretches.into_iter().map(|stretch| stretch.1).collect()
}

/// Each event with the nearest onset that is still free, the place then set to
/// the mean.
fn laid_at(events: &[f64], onsets: &[f64], place: f64, within: f64) -> EventsLaid {
    let mut pairs: Vec<(usize, usize)> = Vec::new();
    let (mut event, mut onset) = (0, 0);
    while event < events.len() && onset < onsets.len() {
        let off = onsets[onset] - events[event] - place;
        if off < -within {
            onset += 1;
        } else if off > within {
            event += 1;
        } else {
            let next = onsets
                .get(onset + 1)
                .map(|next| next - events[event] - place);
            if next.is_some_and(|next| next.abs() < off.abs()) {
                onset += 1;
                continue;
            }
            pairs.push((event, onset));
            event += 1;
            onset += 1;
        }
    }
    let count = pairs.len().max(1) as f64;
    let gap = |&(event, onset): &(usize, usize)| onsets[onset] - events[event];
    let mean = pairs.iter().map(gap).sum::<f64>() / count;
    let left: f64 = pairs.iter().map(|pair| (gap(pair) - mean).powi(2)).sum();
    EventsLaid {
        seconds: if pairs.is_empty() { place } else { mean },
        pairs,
        off_ms: 1000.0 * (left / count).sqrt(),
    }
}
