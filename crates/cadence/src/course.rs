//! Where the film stands at each file frame.

use std::collections::VecDeque;

use crate::pattern::{amplitude, passed};
use crate::stride::Stride;
use crate::track::{Anchor, HOP};

/// Anchors this near to a jump are drawn away by it. Unit: anchors.
const DRAWN: usize = 2;
/// What a window must explain for a jump beside it to be believed. Unit: nats.
const BELIEVED: f32 = 5.0;
/// A jump this near to a whole file frame is one. Unit: film frames.
const NEAR: f64 = 0.08;

/// Anchors remembered, fewest that make a line, and how far each may lie off it
/// in film frames.
const REMEMBERED: usize = 200;
const EVEN_LEAST: usize = 12;
const EVEN: f64 = 0.12;

/// A jump of the phase that no cadence explains.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Slip {
    /// The first file frame after it.
    pub(crate) at: usize,
    /// By how many film frames the film is further along; negative when a file
    /// frame too many stands there.
    pub(crate) by: f64,
}

/// The film's position at the beginning of each file frame's exposure.
#[derive(Debug, Default)]
pub(crate) struct Course {
    /// Anchors not laid yet, the last laid one first.
    anchors: VecDeque<(Anchor, f64)>,
    /// Places of the last anchors laid since a jump: file frame and position.
    passed: VecDeque<(f64, f64)>,
    positions: Vec<f64>,
    slips: Vec<Slip>,
}

impl Course {
    /// Positions laid so far, from file frame 0 on.
    pub(crate) fn positions(&self) -> &[f64] {
        &self.positions
    }

    /// Jumps found so far.
    pub(crate) fn slips(&self) -> &[Slip] {
        &self.slips
    }

    /// Takes further anchors and lays positions as far as no later anchor can
    /// change them.
    pub(crate) fn take(&mut self, anchors: Vec<Anchor>, strides: &[Stride], exposure: f64) {
        for anchor in anchors {
            let position = match self.anchors.back() {
                Some((last, position)) => position + grown(last, &anchor),
                None => anchor.phase,
            };
            self.anchors.push_back((anchor, position));
        }
        while self.anchors.len() > 2 * DRAWN + 1 {
            self.lay_one(strides, exposure);
        }
    }

    /// Lays the rest, up to file frame `end`.
    pub(crate) fn finish(&mut self, end: usize, strides: &[Stride], exposure: f64) {
        while self.anchors.len() > 1 {
            self.lay_one(strides, exposure);
        }
        if let Some((last, position)) = self.anchors.front() {
            let from = last.at;
            self.positions
                .extend((from..end).map(|k| position + last.step * (k - from) as f64));
        }
        self.positions.truncate(end);
    }

    /// Lays the way from the first anchor to the second, or past a jump.
    fn lay_one(&mut self, strides: &[Stride], exposure: f64) {
        // A jump is met as soon as it is the next anchor but `DRAWN`.
        let jump = (1..=DRAWN).find(|at| self.anchors.get(*at).is_some_and(|a| a.0.is_slip));
        match jump {
            Some(at) if self.is_believed(at) => self.lay_jump(at, strides, exposure),
            _ => self.lay_straight(),
        }
    }

    fn is_believed(&self, at: usize) -> bool {
        let far = (at + DRAWN).min(self.anchors.len() - 1);
        self.anchors[0].0.weight > BELIEVED && self.anchors[far].0.weight > BELIEVED
    }

    fn lay_straight(&mut self) {
        let Some((from, begin)) = self.anchors.pop_front() else {
            return;
        };
        let Some((until, end)) = self.anchors.front() else {
            return;
        };
        let (from, until) = (from.at, until.at);
        let (mut begin, mut step) = (begin, (end - begin) / (until - from) as f64);
        if self.passed.len() == REMEMBERED {
            self.passed.pop_front();
        }
        self.passed.push_back((from as f64, begin));
        if let Some(line) = self.even_line() {
            begin = line.at(from as f64);
            step = line.slope;
        }
        self.positions
            .extend((from..until).map(|k| begin + step * (k - from) as f64));
    }

    /// The line on which all anchors lie that are remembered or to come, if
    /// they do: an even speed, known the better the longer it lasts.
    fn even_line(&self) -> Option<Line> {
        let jump = self.anchors.iter().position(|anchor| anchor.0.is_slip);
        let coming = self.anchors.iter().take(jump.unwrap_or(self.anchors.len()));
        let coming = coming.map(|(anchor, position)| (anchor.at as f64, *position));
        let places: Vec<(f64, f64)> = self.passed.iter().copied().chain(coming).collect();
        if places.len() < EVEN_LEAST {
            return None;
        }
        let line = Line::through(&places);
        let farthest = places.iter().map(|(at, p)| (p - line.at(*at)).abs());
        (farthest.fold(0.0, f64::max) < EVEN).then_some(line)
    }

    /// Goes straight on from before a jump and straight back from behind it,
    /// and changes over where the strides agree best.
    fn lay_jump(&mut self, at: usize, strides: &[Stride], exposure: f64) {
        let far = (at + DRAWN).min(self.anchors.len() - 1);
        let (from, begin) = self.anchors[0];
        let (until, end) = self.anchors[far];
        let before = |k: usize| begin + from.step * (k as f64 - from.at as f64);
        let behind = |k: usize| end - until.step * (until.at as f64 - k as f64);
        let differ = |k: usize| behind(k) - before(k);
        let by = whole_frames(differ((from.at + until.at) / 2), from.step);
        let raised = |k: usize| behind(k) + by - differ((from.at + until.at) / 2);
        let cost = |k: usize, position: &dyn Fn(usize) -> f64| {
            let expected = expected(position(k - 1), position(k), exposure);
            strides
                .get(k)
                .map_or(0.0, |s| s.seen * (s.one.min(1.2) - expected).powi(2))
        };
        let all: Vec<usize> = (from.at + 1..until.at).collect();
        let mut here: f32 = all.iter().map(|k| cost(*k, &raised)).sum();
        let mut best = (here, from.at + 1);
        for k in all {
            here += cost(k, &before) - cost(k, &raised);
            if here < best.0 {
                best = (here, k + 1);
            }
        }
        let change = best.1;
        self.positions
            .extend((from.at..until.at).map(|k| if k < change { before(k) } else { raised(k) }));
        self.slips.push(Slip { at: change, by });
        self.passed.clear();
        let moved = raised(until.at) - end;
        self.anchors.drain(..far);
        self.anchors.iter_mut().for_each(|anchor| anchor.1 += moved);
    }
}

/// A straight line through positions.
#[derive(Debug, Clone, Copy)]
struct Line {
    middle: (f64, f64),
    slope: f64,
}

impl Line {
    fn through(places: &[(f64, f64)]) -> Self {
        let count = places.len() as f64;
        let mean = |of: fn(&(f64, f64)) -> f64| places.iter().map(of).sum::<f64>() / count;
        let middle = (mean(|place| place.0), mean(|place| place.1));
        let shared: f64 = places
            .iter()
            .map(|p| (p.0 - middle.0) * (p.1 - middle.1))
            .sum();
        let spread: f64 = places.iter().map(|p| (p.0 - middle.0).powi(2)).sum();
        Self {
            middle,
            slope: shared / spread.max(1e-9),
        }
    }

    fn at(&self, k: f64) -> f64 {
        self.middle.1 + self.slope * (k - self.middle.0)
    }
}

/// How far the film moves from anchor to anchor: at their speeds, and to the
/// nearest place with the right phase.
fn grown(last: &Anchor, next: &Anchor) -> f64 {
    let even = HOP as f64 * (last.step + next.step) / 2.0;
    let off = next.phase - last.phase - even;
    even + off - off.round()
}

/// A jump is only known but for whole film frames. Where it is a file frame
/// lost or one too many, it is taken for that.
fn whole_frames(off: f64, step: f64) -> f64 {
    let near = |by: f64| {
        let rest = off - by;
        (rest - rest.round()).abs() < NEAR
    };
    if near(step) {
        step
    } else if near(-step) {
        -step
    } else {
        off - off.round()
    }
}

/// The stride expected from one position to the next.
pub(crate) fn expected(last: f64, position: f64, exposure: f64) -> f32 {
    let whole = position.floor();
    let (from, before) = ((position - whole) as f32, (last - whole) as f32);
    let open = ((position - last) * exposure).max(1e-3) as f32;
    amplitude(|boundary| passed(from, open, boundary) - passed(before, open, boundary))
}
