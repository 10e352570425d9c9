//! The frames that lie about the place being judged: a ring of bounded length.

use crate::blocks::{BLOCKS, Step};
use crate::compare::Pair;
use crate::evidence::{Beside, share_displaced, share_that_stays, unmatched};
use crate::frame::HeldFrame;
use crate::losses::{Losses, Turnover};
use std::collections::VecDeque;

/// A pair of frames whose grain differs by less than this share of the usual
/// shows one film frame twice.
const REPEAT: f32 = 0.3;
/// How often at most one film frame is taken to be shown.
const LONGEST_REPEAT: usize = 3;

/// The last frames of a roll, and how much of the picture changed at each.
#[derive(Debug)]
pub(crate) struct Window {
    frames: VecDeque<HeldFrame>,
    /// `turnover[i]` belongs to the change before `frames[i]`.
    turnover: VecDeque<Turnover>,
    /// Number of the first frame held.
    first: usize,
    room: usize,
}

impl Window {
    /// A window that holds the last `room` frames.
    pub(crate) fn new(room: usize) -> Self {
        Self {
            frames: VecDeque::with_capacity(room),
            turnover: VecDeque::with_capacity(room),
            first: 0,
            room,
        }
    }

    /// Frames seen so far, held or gone.
    pub(crate) fn seen(&self) -> usize {
        self.first + self.frames.len()
    }

    /// Takes a frame in and works out the change that it completes: the one
    /// before the frame before it.
    /// Gives the frame that leaves the window for it.
    pub(crate) fn push(&mut self, frame: HeldFrame) -> Option<HeldFrame> {
        let mut gone = None;
        if self.frames.len() == self.room {
            gone = self.frames.pop_front();
            self.turnover.pop_front();
            self.first += 1;
        }
        self.frames.push_back(frame);
        self.turnover.push_back(Turnover::NONE);
        let newest = self.seen() - 1;
        if newest >= 3 {
            let changed = self.changed_before(newest - 1, 2);
            let place = self.turnover.len() - 2;
            self.turnover[place] = changed;
        }
        gone
    }

    /// The last frame taken in.
    pub(crate) fn newest(&self) -> Option<&HeldFrame> {
        self.frames.back()
    }

    /// Frame `number`, if it is held.
    pub(crate) fn frame(&self, number: usize) -> Option<&HeldFrame> {
        self.frames.get(number.checked_sub(self.first)?)
    }

    /// Share of the picture that changed for good before frame `number`: 0
    /// where that is not known (at the two ends of the roll).
    pub(crate) fn turnover(&self, number: usize) -> f32 {
        self.turnover_of_parts(number).map_or(0.0, |of| of.whole)
    }

    /// The same, part by part, where it is known.
    pub(crate) fn turnover_of_parts(&self, number: usize) -> Option<&Turnover> {
        self.turnover.get(number.checked_sub(self.first)?)
    }

    /// Movement of the whole picture from frame `from` to frame `to`.
    pub(crate) fn step(&self, from: usize, to: usize) -> Step {
        if to < from {
            return self.step(to, from).back();
        }
        (from + 1..=to)
            .filter_map(|number| self.frame(number))
            .fold(Step::default(), |sum, frame| sum.then(frame.step))
    }

    /// What changed before frame `number` and comes back in none of the `reach`
    /// frames beyond.
    pub(crate) fn changed_before(&self, number: usize, reach: usize) -> Turnover {
        self.changed_but_for(0, number, reach)
    }

    /// The same, had `gone` frames been lost there and all gone on meanwhile.
    pub(crate) fn changed_but_for(&self, gone: i32, number: usize, reach: usize) -> Turnover {
        let usual = self.usual_grain();
        let after: Vec<usize> = (number..number + reach).collect();
        let before: Vec<usize> = (1..=reach)
            .filter_map(|back| number.checked_sub(back))
            .collect();
        let lost = self.unmatched(
            number - 1,
            self.another_before(number - 1, usual),
            (&after, gone),
        );
        if lost.iter().all(|&loss| loss <= 0.0) {
            return Turnover::NONE;
        }
        let new = self.unmatched(number, self.another_after(number, usual), (&before, gone));
        Turnover::of(&lost, &new)
    }

    /// Share of the picture that stands elsewhere from frame `settled` on than
    /// up to frame `last`, against what moves meanwhile on each side.
    pub(crate) fn displaced(&self, last: usize, settled: usize) -> f32 {
        let pair = |(a, b): (usize, usize)| -> Option<Pair<'_>> {
            let frames = self.frame(a).zip(self.frame(b));
            frames.map(|(a, b)| Pair::new(&a.small, &b.small, a.step_to(b)).refined())
        };
        let apart = settled - last;
        let before = (0..3).filter_map(|back| Some((last.checked_sub(back + apart)?, last - back)));
        let after = (0..3).map(|on| (settled + on, settled + on + apart));
        let usual: Vec<Pair<'_>> = before.chain(after).filter_map(pair).collect();
        let across = (0..3).flat_map(|back| {
            (0..3).filter_map(move |on| Some((last.checked_sub(back)?, settled + on)))
        });
        let steps: Vec<Step> = usual.iter().map(Pair::step).collect();
        let across: Vec<Pair<'_>> = across
            .filter_map(pair)
            .map(|pair| pair.moved_like(&steps))
            .collect();
        share_displaced(&across, &usual, self.usual_grain())
    }

    /// Share of what there is to see in frame `last` that stands in the same
    /// place in frame `settled`.
    pub(crate) fn stays(&self, last: usize, settled: usize) -> f32 {
        let frames = self.frame(last).zip(self.frame(settled));
        frames.map_or(0.0, |(a, b)| {
            let pair = Pair::new(&a.small, &b.small, a.step_to(b)).refined();
            share_that_stays(&pair, self.usual_grain())
        })
    }

    /// The grain between neighbours that a quarter of the frames exceed: the
    /// usual one, even where a transfer shows many film frames twice.
    fn usual_grain(&self) -> f32 {
        let mut grains: Vec<f32> = self.frames.iter().map(|frame| frame.grain).collect();
        let place = grains.len() * 3 / 4;
        if place >= grains.len() {
            return 0.0;
        }
        *grains.select_nth_unstable_by(place, f32::total_cmp).1
    }

    /// The nearest frame before `number` that does not show it once more.
    fn another_before(&self, number: usize, usual: f32) -> Option<usize> {
        let repeats = |frame: &HeldFrame| frame.grain < REPEAT * usual;
        (1..=LONGEST_REPEAT)
            .filter_map(|back| number.checked_sub(back))
            .find(|&other| self.frame(other + 1).is_some_and(|frame| !repeats(frame)))
            .or_else(|| number.checked_sub(1))
    }

    /// The nearest frame after `number` that does not show it once more.
    fn another_after(&self, number: usize, usual: f32) -> Option<usize> {
        let repeats = |frame: &HeldFrame| frame.grain < REPEAT * usual;
        (number + 1..=number + LONGEST_REPEAT)
            .find(|&other| self.frame(other).is_some_and(|frame| !repeats(frame)))
            .or(Some(number + 1))
    }

    /// What of frame `near` its neighbour `behind` knows and none of the frames
    /// `across` does.
    fn unmatched(
        &self,
        near: usize,
        behind: Option<usize>,
        (across, gone): (&[usize], i32),
    ) -> Losses {
        let beside = |to: usize| -> Option<Beside<'_>> {
            self.frame(to)
                .map(|frame| (&frame.small, self.step(near, to)))
        };
        let across: Vec<Beside<'_>> = across.iter().filter_map(|&to| beside(to)).collect();
        let Some((near_frame, behind)) = self.frame(near).zip(behind) else {
            return [0.0; BLOCKS];
        };
        let own = self
            .frame(near.max(behind))
            .map_or(0.0, |frame| frame.grain);
        match beside(behind) {
            Some(behind) if !across.is_empty() => {
                unmatched(&near_frame.small, behind, &across, (own, gone))
            }
            _ => [0.0; BLOCKS],
        }
    }
}
