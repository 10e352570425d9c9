//! One picture that turns into another.

use std::collections::VecDeque;

use crate::fades::{LARGEST_STEP, LONGEST, SHORTEST, gradual};
use crate::finding::{Finding, GradualKind};
use crate::shift::Coarse;
use crate::tiny::{Ends, Tiny};

/// Lengths that are tried. Unit: frames; each half as long again. A dissolve
/// between two of them fits the nearer well enough.
const LENGTHS: [usize; 6] = [8, 12, 18, 27, 40, 60];
/// Frames that must follow before the end of a dissolve is sure.
const AFTER: usize = 14;
/// Frames kept: the longest, and a third of it on both sides.
const KEPT: usize = LONGEST + 60;
/// Frames on either side in which the picture must stay what it is.
const STAYS: usize = 8;
/// How far from its end a passage is sought anew. Unit: frames.
const REACH: usize = 20;
/// The most that may be no mixture of both pictures while a passage is sought,
/// and when its ends are known: figures move and light flickers meanwhile. In a
/// fast pan it is 0.7 and more.
const REST: f32 = 0.42;
const REST_AT_LAST: f32 = 0.55;
/// How far a passage may be from an even one.
const UNEVEN: f32 = 0.22;
/// How much of the way may be gone before it begins, or lack when it has ended.
const OFF: f32 = 0.25;

/// A stretch of frames that passes from one picture to another.
#[derive(Debug, Clone, Copy)]
struct Passage {
    from: usize,
    until: usize,
    /// The most that is no mixture of both.
    rest: f32,
}

/// Follows the frames of a roll and finds dissolves.
#[derive(Debug)]
pub(crate) struct DissolveWatch {
    frames: VecDeque<Tiny>,
    /// Number of the first frame held.
    first: usize,
    /// The best passage of those not told yet.
    best: Option<Passage>,
    /// End of the last dissolve told.
    told: usize,
}

impl DissolveWatch {
    /// A watch before the first frame.
    pub(crate) fn new() -> Self {
        Self {
            frames: VecDeque::with_capacity(KEPT),
            first: 0,
            best: None,
            told: 0,
        }
    }

    /// Takes in the next frame; gives a dissolve that is over.
    pub(crate) fn push(&mut self, coarse: &Coarse) -> Option<Finding> {
        if self.frames.len() == KEPT {
            self.frames.pop_front();
            self.first += 1;
        }
        self.frames.push_back(Tiny::of(coarse));
        let newest = self.newest();
        for length in LENGTHS {
            if let Some(passage) = self.passage(newest, length)
                && passage.is_better_than(self.best)
            {
                self.best = Some(passage);
            }
        }
        let best = self.best.filter(|best| newest >= best.until + AFTER)?;
        self.best = None;
        let (from, until) = self.ends_of(best)?;
        self.told = until;
        Some(gradual(GradualKind::Dissolve, from, until))
    }

    fn newest(&self) -> usize {
        self.first + self.frames.len() - 1
    }

    fn frame(&self, number: usize) -> Option<&Tiny> {
        self.frames.get(number.checked_sub(self.first)?)
    }

    fn ends(&self, from: usize, until: usize) -> Option<Ends<'_>> {
        Some(Ends::new(self.frame(from)?, self.frame(until)?))
    }

    /// The `length` frames up to `until`, if they pass evenly from one picture
    /// to another.
    fn passage(&self, until: usize, length: usize) -> Option<Passage> {
        let from = until.checked_sub(length)?;
        let ends = self.ends(from, until)?;
        if !ends.differ() || from + length / 2 < self.told {
            return None;
        }
        let (mut rest, mut last) = (0.0_f32, 0.0);
        for quarter in 1..4 {
            let at = ends.between(self.frame(from + length * quarter / 4)?);
            let uneven = (at.share - quarter as f32 / 4.0).abs() > UNEVEN;
            rest = rest.max(at.rest);
            if uneven || at.share <= last || rest > REST {
                return None;
            }
            last = at.share;
        }
        Some(Passage { from, until, rest })
    }

    /// Where a passage truly begins and ends: `None` when it turns out that it
    /// is no dissolve.
    fn ends_of(&self, passage: Passage) -> Option<(usize, usize)> {
        let (mut from, mut until) = (passage.from, passage.until);
        for _ in 0..2 {
            (from, until) = self.sought_anew(from, until)?;
        }
        let fits = (SHORTEST..=LONGEST).contains(&until.checked_sub(from)?);
        let ends = self.ends(from.checked_sub(2)?, (until + 2).min(self.newest()))?;
        let middle = self.frame(from + (until - from) / 2)?;
        let dissolves = fits
            && self.passes_and_stays(&ends, from, until)
            && ends.lie_over_each_other_in(middle);
        dissolves.then_some((from, until))
    }

    /// The ends of a passage from where a quarter and three quarters of it are
    /// gone: flicker and figures blur its ends, less its middle.
    fn sought_anew(&self, from: usize, until: usize) -> Option<(usize, usize)> {
        let before = from.saturating_sub(2).max(self.first);
        let ends = self.ends(before, (until + 2).min(self.newest()))?;
        let share = |number: usize| Some(ends.between(self.frame(number)?).share);
        let (middle, quarter) = ((from + until) / 2, (until - from) / 4);
        let earliest = from.saturating_sub(REACH).max(self.first);
        let low = (earliest..=middle + quarter)
            .rev()
            .find(|&number| share(number).is_some_and(|share| share < 0.25))?;
        let latest = (until + REACH).min(self.newest());
        let high = (middle - quarter..=latest)
            .find(|&number| share(number).is_some_and(|share| share > 0.75))?;
        let half = high.checked_sub(low).filter(|half| *half > 0)?;
        // Twice the middle half, about the same middle.
        Some((
            (2 * low + 2).saturating_sub(half) / 2,
            (2 * high + 2 + half) / 2,
        ))
    }

    /// Whether the frames go from one picture to the other without a leap, and
    /// the pictures stay what they are on either side.
    fn passes_and_stays(&self, ends: &Ends<'_>, from: usize, until: usize) -> bool {
        let first = from.saturating_sub(STAYS).max(self.first);
        let last = (until + STAYS).min(self.newest());
        let mut before = 0.0;
        for number in first..=last {
            let Some(frame) = self.frame(number) else {
                return false;
            };
            let at = ends.between(frame);
            let strays = number < from && at.share > OFF || number > until && at.share < 1.0 - OFF;
            let inside = number > from && number < until;
            if strays || at.share - before > LARGEST_STEP || inside && at.rest > REST_AT_LAST {
                return false;
            }
            before = at.share;
        }
        true
    }
}

impl Passage {
    /// Whether it is more of a mixture than another; a longer one may be a
    /// little less of it.
    fn is_better_than(&self, other: Option<Self>) -> bool {
        other.is_none_or(|other| {
            let long = |passage: &Self| (passage.until - passage.from) as f32;
            self.rest * long(&other) <= 1.2 * other.rest * long(self)
        })
    }
}
