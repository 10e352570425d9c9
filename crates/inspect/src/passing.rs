//! What passes before the lens and is gone: a hand, a coat, a bus.

use std::collections::VecDeque;
use std::ops::Range;

use crate::blank::DETAIL;
use crate::blocks::BLOCKS;
use crate::compare::Pair;
use crate::evidence::share_that_stays;
use crate::frame::HeldFrame;
use crate::window::Window;

/// Longest passing. Unit: frames; over a second at 18.
const LONGEST: usize = 24;
/// How far from a break frames are looked at: beyond the longest passing, to
/// where the picture is clear again.
pub(crate) const REACH: usize = LONGEST + 6;
/// How near a break the picture must be hidden.
const NEAR: usize = 6;
/// Blocks that must show something on both sides, or nothing can be said.
const LEAST_BLOCKS: usize = BLOCKS / 16;
/// What of the picture must stand in its place again.
const COMES_BACK: f32 = 0.5;

/// The frames that the window has let go, for as long as a passing may need
/// them.
#[derive(Debug, Default)]
pub(crate) struct Past {
    frames: VecDeque<HeldFrame>,
    /// Number of the first frame held.
    first: usize,
}

impl Past {
    /// Takes the frame in that the window let go.
    pub(crate) fn push(&mut self, frame: HeldFrame) {
        if self.frames.len() == 2 * REACH {
            self.frames.pop_front();
            self.first += 1;
        }
        self.frames.push_back(frame);
    }

    fn frame<'a>(&'a self, window: &'a Window, number: usize) -> Option<&'a HeldFrame> {
        let held = number.checked_sub(self.first)?;
        self.frames.get(held).or_else(|| window.frame(number))
    }

    /// The frames in which something passes before the lens about `at`: next to
    /// nothing can be seen for some frames, and then what was there before is
    /// there again.
    pub(crate) fn passing(&self, window: &Window, at: usize) -> Option<Range<usize>> {
        let first = at.saturating_sub(REACH);
        let detail: Vec<Option<usize>> = (first..=at + REACH)
            .map(|number| self.frame(window, number).map(HeldFrame::detail))
            .collect();
        let most = |range: Range<usize>| {
            let of = detail.get(range).unwrap_or_default();
            of.iter().flatten().copied().max().unwrap_or(0)
        };
        let clear = most(0..at - first).min(most(at - first..detail.len()));
        if clear < LEAST_BLOCKS {
            return None;
        }
        let hidden = |number: usize| {
            let of = number
                .checked_sub(first)
                .and_then(|place| *detail.get(place)?);
            of.is_some_and(|blocks| 2 * blocks < clear)
        };
        let some = (0..=NEAR)
            .flat_map(|away| [at.saturating_sub(away), at + away])
            .find(|&number| hidden(number))?;
        let begins = (first..=some).rev().take_while(|&n| hidden(n)).last()?;
        let ends = (some..=at + REACH).take_while(|&n| hidden(n)).last()? + 1;
        if ends - begins > LONGEST {
            return None;
        }
        let back = [2, 4, 6].iter().any(|&away| {
            let (before, after) = (begins.checked_sub(away), ends + away - 1);
            // Both sides of the break, or it is another's.
            let about = before.is_some_and(|before| before < at) && at <= after;
            let frames = before
                .and_then(|number| self.frame(window, number))
                .zip(self.frame(window, after));
            about && frames.is_some_and(|(a, b)| comes_back(a, b))
        });
        back.then(|| begins.saturating_sub(NEAR)..ends + NEAR)
    }
}

fn comes_back(before: &HeldFrame, after: &HeldFrame) -> bool {
    let pair = Pair::new(&before.small, &after.small, before.likeliest_step_to(after)).refined();
    share_that_stays(&pair, before.grain.max(after.grain)) >= COMES_BACK
}

impl HeldFrame {
    /// Blocks in which there is something to see.
    fn detail(&self) -> usize {
        let shows = |&block: &usize| crate::blocks::texture(&self.small.pixels, block) >= DETAIL;
        (0..BLOCKS).filter(shows).count()
    }
}
