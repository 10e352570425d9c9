//! Doublings and skips of the machine.

use crate::motion::Motion;
use crate::steps::Step;
use crate::stride::Stride;

/// The change from one turn of the machine to the next. Unit: levels squared.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(crate) struct Boundary {
    /// The whole change, each step by its own part; and those parts squared.
    change: f32,
    parts: f32,
    firm: f32,
    still: f32,
    /// What the boundaries beside it make of the same steps, as a share.
    beside: f32,
    weight: f32,
    seen: f32,
    shift: [f32; 2],
    motion: Motion,
    /// The change over two file frames that this boundary has the largest part in, in
    /// shares of what a film frame's passing makes, and what the boundaries beside it
    /// make of that.
    over_two: Option<(f32, f32)>,
}

/// Where a boundary stands in a step between file frames.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Part {
    /// The part of the picture that changes at this boundary, 0 to 1.
    pub(crate) weight: f32,
    /// The size of the step, in film frames: 1 where one boundary is passed whole.
    pub(crate) size: f32,
    /// The same if nothing changed at this boundary.
    pub(crate) without: f32,
}

impl Part {
    /// A boundary that is passed whole, and no other.
    pub(crate) const WHOLE: Self = Self {
        weight: 1.0,
        size: 1.0,
        without: 0.0,
    };
}

impl Boundary {
    /// A step between file frames in which this boundary has a part.
    pub(crate) fn add(&mut self, step: &Step, part: Part, seen: f32) {
        let weight = part.weight * part.weight;
        let share = weight / part.size;
        self.change += step.one * weight;
        self.parts += weight * weight;
        self.firm += step.firm * share;
        self.still += step.still * share;
        self.beside += part.without * share;
        self.weight += weight;
        for (sum, by) in self.motion.by.iter_mut().zip(step.motion.by) {
            *sum += by;
        }
        self.motion.left = self.motion.left.max(step.motion.left);
        self.motion.whole = self.motion.whole.max(step.motion.whole);
        self.shift[0] += step.shift[0];
        self.shift[1] += step.shift[1];
        self.seen = self.seen.max(seen);
    }

    /// A change over two file frames.
    pub(crate) fn add_two(&mut self, change: f32, beside: f32) {
        if self.over_two.is_none_or(|known| beside < known.1) {
            self.over_two = Some((change, beside));
        }
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
            self.change / self.parts
        } else {
            0.0
        }
    }

    /// The change without dust and without what the boundaries beside it make,
    /// where each of those changes so much.
    fn own(&self, usual: f32) -> f32 {
        if !self.is_passed() {
            return 0.0;
        }
        let beside = self.beside / self.weight;
        ((self.firm() - beside * usual) / (1.0 - beside).max(BESIDE_LEAST)).max(0.0)
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

/// Least part that a boundary must have in its steps to be told from those beside it.
const BESIDE_LEAST: f32 = 0.3;

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
    asked.len() == 2 && asked.into_iter().all(|side| stands_out(&here, side))
}

/// In blends at a doubled frame the change over two file frames, without what the
/// boundaries beside it make, is less than this share of the middle one around; and less
/// than half of any around but one, except the two beside it.
const OF_MIDDLE: [f32; 2] = [0.05, 0.25];
const OF_OTHERS: f32 = 0.5;
/// The two beside it share file frames with it and may change by no more than this share;
/// where they do not, a clear or a black scene begins.
const NEAR_LEAST: f32 = 0.2;
/// What must be sure to change. Unit: levels squared.
const LIVELY: f32 = 2.0;
/// Fewest boundaries of the same scene on either side.
const BLENDS_SIDE_LEAST: usize = 10;
/// A change so many times the middle one is a cut, beyond which nothing is asked.
const CUT: f32 = 5.0;
/// Whatever the changes around are like, a change is told that is less than this share
/// of the least of them, what the boundaries beside it make being doubted by so much.
const OF_FEWEST: f32 = 0.15;
const DOUBT: f32 = 0.1;
/// The first of the shares of the middle one will do where the changes around are even,
/// each but one more than this share of the middle one;
const EVEN_LEAST: f32 = 0.5;
/// the second where its own change without dust is less than this share of what is sure
/// to change.
const OF_SURE: f32 = 0.6;

/// Whether nothing changes at a boundary of blended film frames where everything around
/// does. A file frame shows some of what is before and behind a doubled frame, so the
/// change over two file frames is asked, in which the boundary has the largest part.
pub(crate) fn doubled_in_blends(boundaries: &[Boundary], at: usize) -> bool {
    let (around, here) = same_scene(boundaries, at);
    let sides = here.min(around.len() - here - 1);
    if sides < BLENDS_SIDE_LEAST || boundaries[at].seen < SEEN_LEAST {
        return false;
    }
    let middle = middle_over_two(around);
    let own = |b: &Boundary| {
        let own = |(change, beside): (f32, f32)| {
            (change / middle - beside) / (1.0 - beside).max(BESIDE_LEAST)
        };
        b.over_two.map_or(1.0, own)
    };
    let mut others: Vec<f32> = (0..around.len())
        .filter(|other| other.abs_diff(here) > 1)
        .map(|other| own(&around[other]))
        .collect();
    others.sort_unstable_by(f32::total_cmp);
    let change = own(&around[here]).max(0.0);
    let beside = [here - 1, here + 1].map(|near| own(&around[near]));
    let is_alone = beside.into_iter().all(|near| near > NEAR_LEAST);
    if middle < VISIBLE || change > OF_OTHERS * others[1] || !is_alone {
        return false;
    }
    let mut rest = around.to_vec();
    rest.remove(here);
    let mut sure = sure(&rest);
    sure.sort_unstable_by(f32::total_cmp);
    // Where there is nothing but dust, a frame without any is no doubled one.
    let Some(least) = sure.get(1).copied().filter(|least| *least > LIVELY) else {
        return false;
    };
    let is_even = others[1] > EVEN_LEAST;
    let is_quiet = around[here].own(sure[sure.len() / 2]) < OF_SURE * least;
    let taken_off = around[here].over_two.map_or(0.0, |two| two.1);
    let is_far_off = change + DOUBT * taken_off < OF_FEWEST * others[0];
    is_far_off || (change < OF_MIDDLE[0] && is_even) || (change < OF_MIDDLE[1] && is_quiet)
}

/// The boundaries around one as far as the next cut on either side, and its place among
/// them.
fn same_scene(boundaries: &[Boundary], at: usize) -> (&[Boundary], usize) {
    let from = at.saturating_sub(AROUND);
    let until = (at + 1 + AROUND).min(boundaries.len());
    let most = CUT * middle_over_two(&boundaries[from..until]);
    let is_cut = |b: usize| boundaries[b].over_two.is_some_and(|two| two.0 > most);
    let first = (from..at)
        .rev()
        .find(|b| is_cut(*b))
        .map_or(from, |cut| cut + 1);
    let end = (at + 1..until).find(|b| is_cut(*b)).unwrap_or(until);
    (&boundaries[first..end], at - first)
}

fn middle_over_two(around: &[Boundary]) -> f32 {
    let changes = around.iter().filter_map(|b| b.over_two.map(|two| two.0));
    let mut changes: Vec<f32> = changes.collect();
    changes.sort_unstable_by(f32::total_cmp);
    changes.get(changes.len() / 2).copied().unwrap_or(0.0)
}

/// File frames that repeat the one before amid others that do not.
pub(crate) fn lone_repeats(steps: &[Step], strides: &[Stride]) -> Vec<usize> {
    let boundary = |(step, stride): (&Step, &Stride)| {
        let mut boundary = Boundary::default();
        boundary.add(step, Part::WHOLE, stride.seen);
        boundary
    };
    let all: Vec<Boundary> = steps.iter().zip(strides).map(boundary).collect();
    (1..all.len()).filter(|at| doubled(&all, *at)).collect()
}

fn stands_out(here: &Boundary, mut side: Vec<f32>) -> bool {
    side.sort_unstable_by(f32::total_cmp);
    // The very least may be a doubled frame too.
    let (least, middle) = (side[1], side[side.len() / 2]);
    let here = here.firm();
    least > VISIBLE && here < OF_LEAST * least && middle < EVEN * least
}
