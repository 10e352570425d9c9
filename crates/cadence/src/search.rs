//! Which cadence a roll has, if any.

use crate::pattern::{Fold, PHASES, Pattern};
use crate::stride::Stride;

/// File frames that are searched together.
pub(crate) const WINDOW: usize = 128;
/// From one window to the next.
pub(crate) const HOP: usize = 64;

/// Slowest and fastest film that is looked for, in film frames a file frame:
/// 9 f/s in a file of 60, and just below one to one.
const SLOWEST: f64 = 0.145;
const FASTEST: f64 = 0.985;
/// From one speed tried to the next: over a window less than a tenth of a film
/// frame at either end.
const GRAIN: f64 = 0.002;
/// Above this speed repeats are so few that their places must be met closer.
const CLOSE: f64 = 0.9;
const CLOSE_GRAIN: f64 = 0.0007;
/// Exposures tried, in shares of the file frame.
const EXPOSURES: [f64; 5] = [0.0, 0.25, 0.5, 0.75, 1.0];

/// How far the speed may wander from window to window, as a share.
const WANDER: f64 = 0.04;

/// What every window must agree on, on the average over the windows, in the
/// logarithm of what is left unexplained. Files with one film frame each mostly
/// stay below, some by little; what coding alone explains is told apart by itself
/// (see docs).
const AGREED: f32 = 0.30;

/// Part of the phases at which a film frame rests from file frame to file frame,
/// from which on it must be seen to; and the stride that it may show then.
const RESTS_LEAST: f64 = 0.12;
const RESTS_MOST: f32 = 0.48;

/// How near a speed is to one at which coding varies by itself.
const OF_CODING: f64 = 0.0025;

/// Whether coding shows this rhythm by itself: the frames between two that stand
/// by themselves are coded more coarsely, one, two, three or seven at a time, and
/// so look like blends.
fn is_of_coding(step: f64) -> bool {
    let near = |parts: f64| (step * parts - (step * parts).round()).abs() / parts < OF_CODING;
    near(3.0) || near(8.0)
}

/// How near to such a speed one that is measured over hundreds of file frames
/// must be to be it.
const OF_CODING_MEASURED: f64 = 0.0008;

/// Whether a cadence is the film's and not the coding's: where film frames rest
/// from file frame to file frame, nothing may change; and where none rests, as
/// with a shutter that is open long, the rhythm may not be one of coding.
pub(crate) fn is_believable(step: f64, exposure: f64, rests: f32) -> bool {
    if step * (1.0 + exposure) <= 1.0 - RESTS_LEAST {
        return rests < RESTS_MOST;
    }
    let near = |parts: f64| (step - (step * parts).round() / parts).abs() < OF_CODING_MEASURED;
    !near(3.0) && !near(8.0)
}

/// The same where nearly every file frame shows a film frame of its own and some of
/// the next. One-to-one files come near to it, so that below this it must be seen over
/// many turns too.
const CLOSE_AGREED: f32 = 0.6;

/// What windows must agree on where their halves need not name one speed, each by
/// themselves; and how far these may lie apart, as a share: twice a film's wandering.
/// Film of one frame each may come near a cadence by chance, but not twice the same.
const CERTAIN: f32 = 0.6;
const HALVES: f64 = 0.05;

/// Windows below this show too little to be asked.
const SEEN_LEAST: f32 = 0.5;

/// A cadence found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Cadence {
    /// Film frames a file frame.
    pub(crate) step: f64,
    /// Share of the file frame for which its shutter was open; coarse.
    pub(crate) exposure: f64,
    /// How well the windows agree.
    pub(crate) agreed: f32,
    /// Whether it must also be seen over many turns of its phase, all together.
    pub(crate) is_doubtful: bool,
}

/// Fewest lone repeats that make a cadence.
const LONE_LEAST: usize = 6;
/// How many of them must be in step, and how many of their places be taken.
const LONE_IN_STEP: f64 = 0.85;
const LONE_TAKEN: f64 = 0.4;

/// The cadence of repeats that come one at a time, far apart and evenly, as
/// when film of 24 frames stands in a file of 25.
pub(crate) fn lone_cadence(repeats: &[usize]) -> Option<Cadence> {
    if repeats.len() < LONE_LEAST {
        return None;
    }
    let mut gaps: Vec<usize> = repeats.windows(2).map(|two| two[1] - two[0]).collect();
    gaps.sort_unstable();
    let mut every = gaps[gaps.len() / 2] as f64;
    let first = repeats[0] as f64;
    let place = |repeat: usize, every: f64| ((repeat as f64 - first) / every).round();
    // The longest way with a known number of turns gives the turn best.
    for repeat in &repeats[1..] {
        let turns = place(*repeat, every);
        let off = (*repeat as f64 - first) - turns * every;
        if turns > 0.0 && off.abs() <= 1.0 {
            every += off / turns;
        }
    }
    let in_step = repeats
        .iter()
        .filter(|repeat| (**repeat as f64 - first - place(**repeat, every) * every).abs() <= 1.0)
        .count() as f64;
    let places = place(repeats[repeats.len() - 1], every) + 1.0;
    let count = repeats.len() as f64;
    let step = 1.0 - 1.0 / every;
    let is_even = in_step >= LONE_IN_STEP * count && count >= LONE_TAKEN * places;
    (is_even && (CLOSE..FASTEST).contains(&step)).then_some(Cadence {
        step,
        exposure: 0.0,
        agreed: 0.0,
        is_doubtful: false,
    })
}

/// For each speed and exposure the logarithm of what is left unexplained, turned
/// positive.
type Window = Vec<[f32; EXPOSURES.len()]>;

/// What the windows so far say.
#[derive(Debug, Default)]
pub(crate) struct Search {
    /// Those that were asked.
    windows: Vec<Window>,
}

/// Speeds tried, rising.
fn speeds() -> Vec<f64> {
    let coarse = (0..).map(|at| SLOWEST + GRAIN * f64::from(at));
    let close = (0..).map(|at| CLOSE + CLOSE_GRAIN * f64::from(at));
    let coarse = coarse.take_while(|speed| *speed < CLOSE);
    coarse
        .chain(close.take_while(|speed| *speed < FASTEST))
        .collect()
}

impl Search {
    /// Windows that showed enough.
    pub(crate) fn windows(&self) -> usize {
        self.windows.len()
    }

    /// Asks one window.
    pub(crate) fn ask(&mut self, strides: &[Stride]) {
        let seen: f32 = strides.iter().map(|stride| stride.seen).sum();
        if seen < SEEN_LEAST * strides.len() as f32 {
            return;
        }
        let of_speed = |step: f64| {
            let fold = Fold::of(strides, step);
            let every = if step < CLOSE { 2 } else { 1 };
            EXPOSURES.map(|exposure| {
                let pattern = Pattern::new(step, exposure * step);
                let is_open = step * (1.0 + exposure) > 1.0 - RESTS_LEAST;
                if is_open && is_of_coding(step) {
                    return 0.0;
                }
                let best = (0..PHASES)
                    .step_by(every)
                    .map(|shift| (fold.fit(&pattern, shift), shift))
                    .fold(
                        (0.0, 0),
                        |best, fit| if fit.0 > best.0 { fit } else { best },
                    );
                // Where a film frame rests, nothing changes but coding.
                let is_deep = is_open || fold.rests(&pattern, best.1) < RESTS_MOST;
                if is_deep { -(1.0 - best.0).ln() } else { 0.0 }
            })
        };
        self.windows
            .push(speeds().into_iter().map(of_speed).collect());
    }

    /// The cadence on which the windows agree, or nothing when one file frame
    /// shows one film frame, as far as can be seen.
    pub(crate) fn found(&self) -> Option<Cadence> {
        let best = Self::best(&self.windows)?;
        let is_close = best.step > CLOSE && best.exposure > 0.0;
        // A single window has no halves; repeats it may tell, which are seen to rest.
        let is_alone = self.windows.len() < 2 && best.exposure == 0.0;
        let is_certain = (best.agreed >= CERTAIN && !is_close) || is_alone;
        let is_found = best.agreed >= AGREED && (is_certain || self.halves_agree());
        is_found.then_some(Cadence {
            is_doubtful: is_close && best.agreed < CLOSE_AGREED,
            ..best
        })
    }

    /// Whether the earlier and the later windows name one speed, each by themselves (or
    /// what lacks it to one to one, which shows nearly the same changes).
    fn halves_agree(&self) -> bool {
        let (early, late) = self.windows.split_at(self.windows.len() / 2);
        let (Some(early), Some(late)) = (Self::best(early), Self::best(late)) else {
            return false;
        };
        let near = |step: f64| (step - early.step).abs() < HALVES * early.step;
        early.agreed > 0.0 && (near(late.step) || near(1.0 - late.step))
    }

    /// The cadence on which most windows agree, however little.
    fn best(windows: &[Window]) -> Option<Cadence> {
        let speeds = speeds();
        let all = (0..speeds.len()).flat_map(|at| (0..EXPOSURES.len()).map(move |e| (at, e)));
        let (place, agreed) = all
            .map(|place| (place, agreed(windows, &speeds, place)))
            .max_by(|a, b| a.1.total_cmp(&b.1))?;
        Some(Cadence {
            step: speeds[place.0],
            exposure: EXPOSURES[place.1],
            agreed,
            is_doubtful: false,
        })
    }
}

/// How well windows agree on a speed that may wander a little.
fn agreed(windows: &[Window], speeds: &[f64], (at, exposure): (usize, usize)) -> f32 {
    let reach = speeds[at] * WANDER;
    let from = speeds.partition_point(|speed| *speed < speeds[at] - reach);
    let until = speeds.partition_point(|speed| *speed <= speeds[at] + reach);
    let one = |window: &Window| {
        let near = (from..until).map(|other| {
            let off = ((speeds[other] - speeds[at]).abs() / reach) as f32;
            window[other][exposure] * (1.0 - 0.15 * off)
        });
        near.fold(0.0, f32::max)
    };
    let sum: f32 = windows.iter().map(one).sum();
    sum / windows.len().max(1) as f32
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lone_repeats_make_a_cadence_only_when_they_come_evenly() {
        let even: Vec<usize> = (0..20).map(|turn| 3 + 25 * turn).collect();
        let found = lone_cadence(&even).unwrap();
        assert!((found.step - 0.96).abs() < 1e-9);
        let holes: Vec<usize> = even.iter().copied().filter(|at| at % 4 != 0).collect();
        assert!((lone_cadence(&holes).unwrap().step - 0.96).abs() < 1e-3);
        assert_eq!(lone_cadence(&[11, 18, 28, 47, 120, 133]), None);
        assert_eq!(lone_cadence(&even[..4]), None);
    }
}
