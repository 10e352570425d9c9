//! The frames of a strip, ready to be compared.

use std::collections::{HashMap, VecDeque};
use std::sync::{Arc, Mutex, PoisonError};

use super::warp::{Warp, sketch};
use crate::grey::{GreyOwned, Sums};
use crate::sketch::{INSIDE, Sketch};
use crate::strip::{Beyond, FoundBy, FoundStrip, MARGIN};
use crate::way::Way;

/// Which part of a patch is the frame as its scan shows it: shift and size, in
/// hundredths of the picture's sides. Scans show more or less of a frame.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(crate) struct Window {
    pub(crate) right: i16,
    pub(crate) down: i16,
    pub(crate) wide: i16,
    pub(crate) high: i16,
}

impl Window {
    pub(crate) const fn new(right: i16, down: i16, size: i16) -> Self {
        Self {
            right,
            down,
            wide: size,
            high: size,
        }
    }

    /// Whether any scan would show that.
    pub(crate) fn is_likely(self) -> bool {
        let shift = self.right.abs().max(self.down.abs());
        let size = |v: i16| (78..=118).contains(&v);
        shift <= 14 && size(self.wide) && size(self.high) && (self.wide - self.high).abs() <= 16
    }

    /// As shares of a patch.
    fn part(self) -> [f32; 4] {
        let share = |hundredths: i16| f32::from(hundredths) / 100.0 / MARGIN;
        let (x, y) = (0.5 + share(self.right), 0.5 + share(self.down));
        let (w, h) = (share(self.wide), share(self.high));
        let inside = |at: f32| at - 0.5;
        [
            x + w * inside(INSIDE[0]),
            y + h * inside(INSIDE[1]),
            x + w * inside(INSIDE[2]),
            y + h * inside(INSIDE[3]),
        ]
    }
}

/// Sketches made so far.
type Made = HashMap<(Window, Looked), Arc<Vec<Seen>>>;
/// So many warps are kept for the places that are looked at side by side.
const WARPS: usize = 32;

/// The frames of one strip.
pub(crate) struct Query {
    sums: Vec<Sums>,
    patches: Vec<GreyOwned>,
    within: Vec<bool>,
    /// The place of each along the strip, from 0.
    pub(crate) places: Vec<i64>,
    by: FoundBy,
    /// What is seen before its first frame and behind its last.
    pub(crate) beyond: (Beyond, Beyond),
    sketches: Mutex<Made>,
    /// The newest first.
    warped: Mutex<VecDeque<(Warp, Arc<Vec<Seen>>)>>,
}

impl Query {
    pub(crate) fn of(strip: &FoundStrip) -> Self {
        let sums = |frame: &crate::strip::StripFrame| Sums::of(frame.patch.borrowed());
        Self {
            sums: strip.frames.iter().map(sums).collect(),
            patches: strip.frames.iter().map(|f| f.patch.clone()).collect(),
            within: strip.frames.iter().map(|f| f.within).collect(),
            places: strip.frames.iter().map(|f| i64::from(f.place)).collect(),
            by: strip.by,
            beyond: strip.beyond,
            sketches: Mutex::default(),
            warped: Mutex::default(),
        }
    }

    pub(crate) fn by(&self) -> FoundBy {
        self.by
    }

    pub(crate) fn frames(&self) -> usize {
        self.places.len()
    }

    /// Whether frames that lie so may count down along the strip: on film the next
    /// picture lies under its foot. Pictures in a row may lie anyhow.
    pub(crate) fn may_run(by: FoundBy, way: Way, backwards: bool) -> bool {
        by == FoundBy::Outline || way.upside_down == backwards
    }

    pub(crate) fn patch(&self, at: usize) -> &GreyOwned {
        &self.patches[at]
    }

    /// Whether there is film at a frame, whatever is seen in it.
    pub(crate) fn is_within(&self, at: usize) -> bool {
        self.within[at]
    }

    /// Where a frame is along the strip: -1 at its one end, 1 at the other.
    pub(crate) fn along(&self, at: usize) -> f32 {
        let last = self.places.last().copied().unwrap_or(0).max(1);
        2.0 * self.places[at] as f32 / last as f32 - 1.0
    }

    /// The sketches of all frames, laid so; the last ones made are kept.
    pub(crate) fn warped(&self, warp: &Warp) -> Arc<Vec<Seen>> {
        let kept = || self.warped.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((_, seen)) = kept().iter().find(|(made, _)| made == warp) {
            return Arc::clone(seen);
        }
        let seen = |at: usize| {
            let sketch = sketch(&self.patches[at], warp.at(self.along(at)));
            Seen {
                place: self.places[at],
                middle: Vec::new(),
                sketch,
            }
        };
        let made: Arc<Vec<Seen>> = Arc::new((0..self.frames()).map(seen).collect());
        let mut kept = kept();
        kept.push_front((*warp, Arc::clone(&made)));
        kept.truncate(WARPS);
        made
    }

    /// Which frames are looked at.
    pub(crate) fn looked(&self, looked: Looked) -> Vec<usize> {
        let frames = self.frames();
        let count = match looked {
            Looked::All => frames,
            Looked::Some => frames.min(SOME),
        };
        (0..count).map(|i| i * frames / count.max(1)).collect()
    }

    /// The sketches of frames, cut out so.
    pub(crate) fn sketches(&self, window: Window, looked: Looked) -> Arc<Vec<Seen>> {
        let kept = || self.sketches.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(made) = kept().get(&(window, looked)) {
            return Arc::clone(made);
        }
        let seen = |at: usize| {
            let sketch = Sketch::of_part(&self.sums[at], window.part());
            Seen {
                place: self.places[at],
                middle: sketch.middle(),
                sketch,
            }
        };
        let made: Arc<Vec<Seen>> = Arc::new(self.looked(looked).into_iter().map(seen).collect());
        kept().insert((window, looked), Arc::clone(&made));
        made
    }
}

/// How many frames of a strip are compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(crate) enum Looked {
    /// Enough to tell places from each other.
    Some,
    /// Every one.
    All,
}

/// So many are enough to tell places from each other.
const SOME: usize = 10;

/// A frame of the strip, cut out in one way.
#[derive(Debug)]
pub(crate) struct Seen {
    pub(crate) place: i64,
    pub(crate) sketch: Sketch,
    pub(crate) middle: Vec<i8>,
}
