//! Which film frames each file frame shows.

use crate::course::Course;
use crate::steps::Step;
use crate::stride::{Stride, seen};

/// The most film frames in one file frame: the whole time of a file frame is
/// at most one film frame long here, and a jump may add one.
const MOST: usize = 3;

/// What one file frame shows: turns of the film machine with their weights.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(crate) struct Shown {
    /// The first turn seen.
    pub(crate) first: i64,
    /// Weights from there on, summing to 1.
    pub(crate) weights: [f32; MOST],
}

impl Shown {
    /// One turn alone.
    pub(crate) fn one(turn: i64) -> Self {
        Self {
            first: turn,
            weights: [1.0, 0.0, 0.0],
        }
    }

    /// Turns with their weights, where there are any.
    pub(crate) fn turns(&self) -> impl Iterator<Item = (i64, f32)> + '_ {
        let weights = self.weights.iter().enumerate();
        weights
            .filter(|(_, weight)| **weight > 0.0)
            .map(|(at, weight)| (self.first + at as i64, *weight))
    }
}

/// The share of a film frame below which an exposure counts as a moment.
pub(crate) const MOMENT: f64 = 0.08;

/// Whether file frames show one film frame each.
pub(crate) fn is_momentary(exposure: f64, step: f64) -> bool {
    exposure * step < MOMENT
}

/// By how much the phase may be off. Unit: film frames.
const PHASE_SPREAD: f64 = 0.035;
/// A stride below is a repeat's, above a new film frame's; spread of either.
const NEW: f32 = 0.9;
const STRIDE_SPREAD: f32 = 0.25;
/// The most that one stride can say against either. Unit: nats.
const SAY_MOST: f32 = 9.0;
/// What speaks against a turn left out or gone back. Unit: nats.
const NEVER: f32 = 40.0;

/// Turns shown by file frames `from..until`, where the shutter opened for a
/// moment: the course says nearly where each film frame begins, the strides
/// say it to the file frame.
///
/// The turn of file frame `from` − 1 is `before`.
pub(crate) fn turns(
    course: &Course,
    (steps, strides): (&[Step], &[Stride]),
    (from, until): (usize, usize),
    before: Option<i64>,
) -> Vec<Shown> {
    let positions = &course.positions()[from..until];
    let says = Evidence::of(course.positions(), (steps, strides), (from, until));
    // The turn is the course's own, or one less or more: three states.
    let mut scores = [0.0_f32; 3];
    let mut back: Vec<[usize; 3]> = Vec::with_capacity(positions.len());
    let mut last: Option<i64> = None;
    for (at, position) in positions.iter().enumerate() {
        let floor = position.floor() as i64;
        let off = position - position.floor();
        let own = [off, 0.0, 1.0 - off].map(|far| (far / PHASE_SPREAD).powi(2) as f32 / 2.0);
        let jumps = course.slips().iter().any(|slip| slip.at == from + at);
        let mut reached = [0.0; 3];
        let mut source = [1; 3];
        for state in 0..3 {
            let turn = floor + state as i64 - 1;
            let against = |last: i64| says[at].against(turn - last, jumps);
            let best = match (last, before) {
                (Some(last), _) => (0..3)
                    .map(|was| (scores[was] + against(last + was as i64 - 1), was))
                    .min_by(|a, b| a.0.total_cmp(&b.0))
                    .unwrap_or((0.0, 1)),
                (None, Some(before)) => (against(before), 1),
                (None, None) => (0.0, 1),
            };
            reached[state] = best.0 + own[state];
            source[state] = best.1;
        }
        scores = reached;
        back.push(source);
        last = Some(floor);
    }
    let order = |a: &usize, b: &usize| scores[*a].total_cmp(&scores[*b]);
    let mut state = (0..3).min_by(order).unwrap_or(1);
    let mut shown = vec![Shown::default(); positions.len()];
    for (at, position) in positions.iter().enumerate().rev() {
        shown[at] = Shown::one(position.floor() as i64 + state as i64 - 1);
        state = back[at][state];
    }
    shown
}

/// What a file frame says for and against a new film frame.
#[derive(Debug, Clone, Copy)]
struct Evidence {
    /// Change without the noise of coding, 1 where a film frame has passed.
    change: f32,
    /// How much of that is to be believed, 0 to 1.
    seen: f32,
}

/// File frames on either side whose repeats show the noise of coding.
const NOISE_AROUND: usize = 32;
/// A file frame this far from any boundary is sure to repeat. Unit: film frames.
const INSIDE: f64 = 0.1;

impl Evidence {
    fn of(
        positions: &[f64],
        (steps, strides): (&[Step], &[Stride]),
        (from, until): (usize, usize),
    ) -> Vec<Self> {
        let is_repeat = |k: usize| {
            let (last, here) = (positions[k - 1], positions[k]);
            (last - INSIDE).floor() as i64 == (here + INSIDE).floor() as i64
        };
        let one = |k: usize| {
            let around = k.saturating_sub(NOISE_AROUND).max(1)..(k + NOISE_AROUND).min(until);
            let repeats: Vec<f32> = around
                .filter(|k| is_repeat(*k))
                .map(|k| steps[k].one)
                .collect();
            let noise = repeats.iter().sum::<f32>() / repeats.len().max(1) as f32;
            let usual = strides[k].usual;
            let above = (usual - noise).max(1e-6);
            Self {
                change: ((steps[k].one - noise).max(0.0) / above).sqrt(),
                seen: seen(above) * (above / usual.max(1e-6)).min(1.0),
            }
        };
        (from..until).map(one).collect()
    }

    /// What speaks against so many film frames having passed. Unit: nats.
    fn against(self, advance: i64, jumps: bool) -> f32 {
        let off = match advance {
            0 => self.change,
            1 => (NEW - self.change).max(0.0),
            2 if jumps => (NEW - self.change).max(0.0),
            _ => return NEVER,
        };
        (0.5 * (off / STRIDE_SPREAD).powi(2)).min(SAY_MOST) * self.seen
    }
}

/// Turns shown by file frames `from..until` from the course alone.
pub(crate) fn blends(course: &Course, (from, until): (usize, usize), exposure: f64) -> Vec<Shown> {
    let positions = course.positions();
    let step = |k: usize| {
        let next = positions.get(k + 1).map(|next| next - positions[k]);
        let last = k.checked_sub(1).map(|last| positions[k] - positions[last]);
        // What passes until the next file frame, so that an open shutter leaves
        // no gap; but not over a jump.
        match (last, next) {
            (Some(last), Some(next)) if !(0.0..2.0 * last).contains(&next) => last,
            (one, other) => other.or(one).unwrap_or(1.0),
        }
    };
    (from..until)
        .map(|k| open(positions[k], exposure * step(k)))
        .collect()
}

fn open(position: f64, length: f64) -> Shown {
    let first = position.floor();
    let mut weights = [0.0; MOST];
    for (at, weight) in weights.iter_mut().enumerate() {
        let turn = first + at as f64;
        let seen = (position + length).min(turn + 1.0) - position.max(turn);
        *weight = (seen / length.max(1e-9)).max(0.0) as f32;
    }
    let sum: f32 = weights.iter().sum();
    if sum <= 0.0 || length < 1e-6 {
        return Shown::one(first as i64);
    }
    Shown {
        first: first as i64,
        weights: weights.map(|weight| weight / sum),
    }
}
