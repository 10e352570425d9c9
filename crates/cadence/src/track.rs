//! Following the phase of a cadence along the roll.

use std::collections::VecDeque;

use crate::pattern::{Fold, PHASES, Pattern};
use crate::stride::Stride;

/// File frames that are looked at together.
pub(crate) const WINDOW: usize = 96;
/// From one window to the next. Unit: file frames.
pub(crate) const HOP: usize = 32;

/// Speeds tried on either side of the middle one, and the step between them as
/// a share: 5.2 % either way.
const SPEEDS_AROUND: usize = 26;
const SPEEDS: usize = 2 * SPEEDS_AROUND + 1;
const SPEED_GRAIN: f64 = 0.002;
/// The step where repeats are so few that their places must be met closer.
const CLOSE: f64 = 0.9;
const CLOSE_GRAIN: f64 = 0.0007;
/// Most steps by which the speed changes from window to window.
const SPEED_TURN: usize = 5;
/// What a change of speed by one such step costs, in nats, growing with its square.
const TURN_COST: f32 = 0.25;
/// What it costs when the phase comes a bin early or late.
const JITTER_COST: f32 = 1.0;
/// What it costs when the phase jumps.
const SLIP_COST: f32 = 25.0;
/// Bins that a phase must be off what was expected to have jumped: a path that later
/// windows draw elsewhere may be off by less.
const JUMP_LEAST: i64 = 5;
/// Windows share their frames with their neighbours.
const SHARE: f32 = HOP as f32 / WINDOW as f32;

const STATES: usize = SPEEDS * PHASES;

/// Where the cadence stands in the middle of a window.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Anchor {
    /// The file frame.
    pub(crate) at: usize,
    /// Where within a film frame its exposure begins, 0 to 1.
    pub(crate) phase: f64,
    /// Film frames a file frame there.
    pub(crate) step: f64,
    /// Whether the phase jumped on the way from the window before.
    pub(crate) is_slip: bool,
    /// How much the window explains, in nats.
    pub(crate) weight: f32,
}

#[derive(Debug)]
struct Window {
    /// Logarithm of the likelihood of each state from this window alone.
    own: Vec<f32>,
    /// The state before from which each state is reached best.
    from: Vec<u16>,
}

/// The best path through phase and speed (Viterbi), window by window.
#[derive(Debug)]
pub(crate) struct Tracker {
    speeds: Vec<f64>,
    patterns: Vec<Pattern>,
    scores: Vec<f32>,
    /// Windows whose states are not settled yet.
    windows: VecDeque<Window>,
    /// Number of the first of them.
    first: usize,
    settled: Option<usize>,
}

impl Tracker {
    /// Follows a cadence near `step` film frames a file frame, seen with an
    /// exposure in shares of the file frame.
    pub(crate) fn new(step: f64, exposure: f64) -> Self {
        let around = SPEEDS_AROUND as f64;
        let grain = if step < CLOSE {
            SPEED_GRAIN
        } else {
            CLOSE_GRAIN
        };
        let speeds: Vec<f64> = (0..SPEEDS)
            .map(|at| step * (1.0 + grain * (at as f64 - around)))
            .collect();
        Self {
            patterns: speeds
                .iter()
                .map(|s| Pattern::new(*s, exposure * s))
                .collect(),
            speeds,
            scores: vec![0.0; STATES],
            windows: VecDeque::new(),
            first: 0,
            settled: None,
        }
    }

    /// Takes the window around file frame `HOP` times the number of windows so
    /// far; `strides` are `WINDOW` long.
    pub(crate) fn push(&mut self, strides: &[Stride]) {
        let own = self.likelihoods(strides);
        let number = self.first + self.windows.len();
        let mut scores = vec![f32::MIN; STATES];
        let mut from = vec![0_u16; STATES];
        if number == 0 {
            scores.copy_from_slice(&own);
        } else {
            let before = self.best();
            for speed in 0..SPEEDS {
                self.reach((number, before), speed, &mut scores, &mut from);
            }
            for (score, own) in scores.iter_mut().zip(&own) {
                *score += own;
            }
        }
        let best = scores.iter().copied().fold(f32::MIN, f32::max);
        // Only differences count; kept small, they keep their last digits.
        scores.iter_mut().for_each(|score| *score -= best);
        self.scores = scores;
        self.windows.push_back(Window { own, from });
    }

    /// The state that is most likely now.
    fn best(&self) -> usize {
        let order = |a: &usize, b: &usize| self.scores[*a].total_cmp(&self.scores[*b]);
        (0..STATES).max_by(order).unwrap_or(0)
    }

    fn likelihoods(&self, strides: &[Stride]) -> Vec<f32> {
        let mut own = Vec::with_capacity(STATES);
        for (step, pattern) in self.speeds.iter().zip(&self.patterns) {
            let fold = Fold::of(strides, *step);
            let frames = 0.5 * SHARE * fold.seen();
            own.extend((0..PHASES).map(|shift| -frames * (1.0 - fold.fit(pattern, shift)).ln()));
        }
        own
    }

    /// Bins by which the phase grows from the window before. Counted from the
    /// first window, so that no rounding adds up while the speed stands.
    fn advance(&self, number: usize, speed: usize) -> i64 {
        let grown = |windows: usize| {
            (self.speeds[speed] * (HOP * windows) as f64 * PHASES as f64).round() as i64
        };
        grown(number) - grown(number - 1)
    }

    fn reach(
        &self,
        (number, best): (usize, usize),
        speed: usize,
        scores: &mut [f32],
        from: &mut [u16],
    ) {
        let advance = self.advance(number, speed);
        let here = speed * PHASES;
        let low = speed.saturating_sub(SPEED_TURN);
        for before in low..(speed + SPEED_TURN + 1).min(SPEEDS) {
            let turn = before.abs_diff(speed) as f32;
            let cost = TURN_COST * turn * turn;
            // Half of the way at the speed before, half at this.
            let half = (self.speeds[before] - self.speeds[speed]) * (HOP * PHASES) as f64 / 2.0;
            let advance = advance + half.round() as i64;
            let there = before * PHASES;
            for bin in 0..PHASES {
                for jitter in -1..=1_i64 {
                    let source = (bin as i64 - advance + jitter).rem_euclid(PHASES as i64) as usize;
                    let cost = cost + if jitter == 0 { 0.0 } else { JITTER_COST };
                    let score = self.scores[there + source] - cost;
                    if score > scores[here + bin] {
                        scores[here + bin] = score;
                        from[here + bin] = (there + source) as u16;
                    }
                }
            }
        }
        // Scores are kept so that the best state before stands at 0.
        for bin in here..here + PHASES {
            if -SLIP_COST > scores[bin] {
                scores[bin] = -SLIP_COST;
                from[bin] = best as u16;
            }
        }
    }

    /// Anchors of all windows but the newest `lag`, as far as not told before.
    pub(crate) fn settle(&mut self, lag: usize) -> Vec<Anchor> {
        let count = self.windows.len().saturating_sub(lag);
        if count == 0 {
            return Vec::new();
        }
        let mut state = self.best();
        let mut path = vec![0_usize; self.windows.len()];
        for (at, window) in self.windows.iter().enumerate().rev() {
            path[at] = state;
            state = usize::from(window.from[state]);
        }
        let mut anchors = Vec::with_capacity(count);
        for state in path.into_iter().take(count) {
            let Some(window) = self.windows.pop_front() else {
                break;
            };
            anchors.push(self.anchor(&window, state));
            self.settled = Some(state);
            self.first += 1;
        }
        anchors
    }

    fn anchor(&self, window: &Window, state: usize) -> Anchor {
        let (speed, bin) = (state / PHASES, state % PHASES);
        let is_slip = self.settled.is_some_and(|before| {
            let half =
                (self.speeds[before / PHASES] - self.speeds[speed]) * (HOP * PHASES) as f64 / 2.0;
            let grown = self.advance(self.first, speed) + half.round() as i64;
            let off = (bin as i64 - (before % PHASES) as i64 - grown).rem_euclid(PHASES as i64);
            (JUMP_LEAST..=PHASES as i64 - JUMP_LEAST).contains(&off)
        });
        let own = |bin: usize| window.own[speed * PHASES + bin % PHASES];
        let (early, here, late) = (own(bin + PHASES - 1), own(bin), own(bin + 1));
        // The top of the parabola through three bins.
        let bent = 2.0 * here - early - late;
        let off = if bent > 1e-3 {
            ((late - early) / (2.0 * bent)).clamp(-0.5, 0.5)
        } else {
            0.0
        };
        Anchor {
            at: self.first * HOP,
            phase: (bin as f64 + f64::from(off)) / PHASES as f64,
            step: self.speeds[speed],
            is_slip,
            weight: here,
        }
    }
}
