//! Doublings and skips of the machine.

use crate::motion::Motion;
use crate::steps::Step;
use crate::stride::Stride;

/// The change from one turn of the machine to the next. Unit: levels squared.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(crate) struct Boundary {
    change: f32,
    firm: f32,
    still: f32,
    weight: f32,
    seen: f32,
    shift: [f32; 2],
    motion: Motion,
}

impl Boundary {
    /// A step between file frames in which this boundary has the given weight.
    pub(crate) fn add(&mut self, step: &Step, weight: f32, seen: f32) {
        self.change += step.one * weight * weight;
        self.firm += step.firm * weight * weight;
        self.still += step.still * weight * weight;
        self.weight += weight.powi(4);
        for (sum, by) in self.motion.by.iter_mut().zip(step.motion.by) {
            *sum += by;
        }
        self.motion.left = self.motion.left.max(step.motion.left);
        self.motion.whole = self.motion.whole.max(step.motion.whole);
        self.shift[0] += step.shift[0];
        self.shift[1] += step.shift[1];
        self.seen = self.seen.max(seen);
    }

    /// How the picture moved.
    pub(crate) fn motion(&self) -> Motion {
        self.motion
    }

    fn is_passed(&self) -> bool {
        self.weight > 1e-6
    }

    /// The whole change.
    pub(crate) fn size(&self) -> f32 {
        if self.is_passed() {
            self.change / self.weight
        } else {
            0.0
        }
    }

    /// The change without dust.
    fn firm(&self) -> f32 {
        if self.is_passed() {
            self.firm / self.weight
        } else {
            0.0
        }
    }

    /// What of that is sure to come at every boundary: what a shift leaves,
    /// less what the shift may leave of its own where it is large.
    fn sure(&self) -> f32 {
        if !self.is_passed() {
            return 0.0;
        }
        let still = self.still / self.weight;
        (still - SHIFT_LEAVES * (self.firm() - still)).max(0.0)
    }
}

/// The part of a shift's change that a straight-line reckoning leaves.
const SHIFT_LEAVES: f32 = 0.3;
/// A picture that moves on steadily moves by so many times what it sways.
const STEADY: f32 = 4.0;

/// What is sure to change at each boundary of a stretch.
fn sure(side: &[Boundary]) -> Vec<f32> {
    let passed: Vec<&Boundary> = side.iter().filter(|b| b.is_passed()).collect();
    let count = passed.len().max(1) as f32;
    let mean = [0, 1].map(|way| passed.iter().map(|b| b.shift[way]).sum::<f32>() / count);
    let sway = |b: &&Boundary| (b.shift[0] - mean[0]).powi(2) + (b.shift[1] - mean[1]).powi(2);
    let spread = (passed.iter().map(sway).sum::<f32>() / count).sqrt();
    // Where the camera turns, its own movement is sure.
    let is_steady = mean[0].hypot(mean[1]) > STEADY * spread;
    passed
        .iter()
        .map(|b| if is_steady { b.firm() } else { b.sure() })
        .collect()
}

/// Boundaries on either side that a doubling is held against.
pub(crate) const AROUND: usize = 12;
/// Nearest ones, each of which must stand over it.
const BESIDE: usize = 3;
/// Fewest of them on a side that is asked.
const SIDE_LEAST: usize = 5;
/// At a doubled frame all that changes is less than this share of what changes
/// least around it, weave left out: its own grain alone would be more.
const OF_LEAST: f32 = 0.35;
/// Where what changes varies more than this, little says nothing.
const EVEN: f32 = 3.0;
/// Changes smaller than this may be coding. Unit: levels squared.
const VISIBLE: f32 = 0.4;
/// How well changes must be seen.
const SEEN_LEAST: f32 = 0.5;

/// Whether nothing changes at a boundary where everything around does.
pub(crate) fn doubled(boundaries: &[Boundary], at: usize) -> bool {
    let here = boundaries[at];
    if !here.is_passed() || here.seen < SEEN_LEAST {
        return false;
    }
    // A doubled frame stands alone: its neighbours change, each of them.
    let near = &boundaries[at.saturating_sub(BESIDE)..(at + 1 + BESIDE).min(boundaries.len())];
    let like = near
        .iter()
        .filter(|b| b.is_passed() && b.firm() < here.firm() / OF_LEAST);
    if like.count() > 1 {
        return false;
    }
    let until = (at + 1 + AROUND).min(boundaries.len());
    let sides: [&[Boundary]; 2] = [
        &boundaries[at.saturating_sub(AROUND)..at],
        &boundaries[at + 1..until],
    ];
    let asked: Vec<Vec<f32>> = sides
        .into_iter()
        .map(sure)
        .filter(|side| side.len() >= SIDE_LEAST)
        .collect();
    // At the very ends of a roll, where leader is, one side alone says too little.
    asked.len() == 2 && asked.into_iter().all(|side| stands_out(here.firm(), side))
}

/// File frames that repeat the one before amid others that do not.
pub(crate) fn lone_repeats(steps: &[Step], strides: &[Stride]) -> Vec<usize> {
    let boundary = |(step, stride): (&Step, &Stride)| {
        let mut boundary = Boundary::default();
        boundary.add(step, 1.0, stride.seen);
        boundary
    };
    let all: Vec<Boundary> = steps.iter().zip(strides).map(boundary).collect();
    (1..all.len()).filter(|at| doubled(&all, *at)).collect()
}

fn stands_out(here: f32, mut side: Vec<f32>) -> bool {
    side.sort_unstable_by(f32::total_cmp);
    // The very least may be a doubled frame too.
    let (least, middle) = (side[1], side[side.len() / 2]);
    least > VISIBLE && here < OF_LEAST * least && middle < EVEN * least
}
