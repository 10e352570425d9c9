//! A place looked at closely: which part of the frames the scan shows, how like all
//! frames are.

use super::query::{Looked, Query, Seen, Window};
use crate::rolls::RollSketches;
use crate::sketch::likeness;
use crate::way::Way;

/// A frame this much less like than the others has something lying over it.
const COVERED: f32 = 0.35;

/// Where a strip may lie along a roll.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Placed {
    pub(crate) roll: usize,
    /// The frame of the roll that place 0 of the strip is.
    pub(crate) begin: i64,
    pub(crate) backwards: bool,
    pub(crate) way: Way,
    pub(crate) window: Window,
    pub(crate) likeness: f32,
}

impl Placed {
    /// The frame of the roll at a place of the strip.
    pub(crate) fn frame(&self, place: i64) -> i64 {
        if self.backwards {
            self.begin - place
        } else {
            self.begin + place
        }
    }

    pub(crate) fn is_beside(&self, other: &Self, frames: i64) -> bool {
        self.roll == other.roll
            && self.backwards == other.backwards
            && self.way == other.way
            && (self.begin - other.begin).abs() <= frames
    }
}

/// Compares one strip with the rolls.
pub(crate) struct Fitter<'a> {
    pub(crate) query: &'a Query,
    pub(crate) rolls: &'a [RollSketches],
}

impl<'a> Fitter<'a> {
    pub(crate) fn new(query: &'a Query, rolls: &'a [RollSketches]) -> Self {
        Self { query, rolls }
    }

    /// How like some frames are in 192 cells.
    pub(crate) fn middle(&self, place: &Placed, window: Window) -> f32 {
        let seen = self.query.sketches(window, Looked::Some);
        let roll = &self.rolls[place.roll];
        let like = |seen: &Seen| {
            let cells = place.way.cells(&seen.middle);
            let frame = place.frame(seen.place);
            likeness(&cells, roll.middle(usize::try_from(frame).unwrap_or(0)))
        };
        seen.iter().map(like).sum::<f32>() / seen.len().max(1) as f32
    }

    /// Finds the window that fits best by some frames.
    pub(crate) fn windowed(&self, place: &mut Placed) {
        place.likeness = self.middle(place, place.window);
        self.climb(place, &[4, 2], Self::middle);
    }

    /// The same in 768 cells, and by all frames which frame of the roll it begins at.
    pub(crate) fn fine(&self, place: &mut Placed) {
        place.likeness = self.some(place, place.window);
        self.climb(place, &[2, 1], Self::some);
        place.likeness = self.uncovered(place, place.window);
        self.slide(place, 12);
        place.likeness = self.some(place, place.window);
        self.climb(place, &[1], Self::some);
        place.likeness = self.uncovered(place, place.window);
        self.slide(place, 3);
    }

    /// The window near the one given that fits best, by some frames.
    pub(crate) fn windowed_finely(&self, place: &mut Placed) {
        place.likeness = self.some(place, place.window);
        self.climb(place, &[1], Self::some);
    }

    fn slide(&self, place: &mut Placed, far: i64) {
        let begin = place.begin;
        for off in -far..=far {
            let mut other = *place;
            other.begin = begin + off;
            if !self.is_within(&other) {
                continue;
            }
            other.likeness = self.uncovered(&other, other.window);
            if other.likeness > place.likeness {
                *place = other;
            }
        }
    }

    /// Whether all frames of the strip are frames of the roll.
    pub(crate) fn is_within(&self, place: &Placed) -> bool {
        let frames = 0..self.rolls[place.roll].frames() as i64;
        let ends = [self.query.places.first(), self.query.places.last()];
        let is = |at: &i64| frames.contains(&place.frame(*at));
        ends.into_iter().flatten().all(is)
    }

    /// One step in every direction as long as it gets better, with smaller steps then.
    fn climb(&self, place: &mut Placed, steps: &[i16], of: impl Fn(&Self, &Placed, Window) -> f32) {
        for &step in steps {
            for _ in 0..6 {
                let w = place.window;
                let ways: [Window; 8] = [
                    Window {
                        right: w.right + step,
                        ..w
                    },
                    Window {
                        right: w.right - step,
                        ..w
                    },
                    Window {
                        down: w.down + step,
                        ..w
                    },
                    Window {
                        down: w.down - step,
                        ..w
                    },
                    Window {
                        wide: w.wide + step,
                        high: w.high + step,
                        ..w
                    },
                    Window {
                        wide: w.wide - step,
                        high: w.high - step,
                        ..w
                    },
                    Window {
                        wide: w.wide + step,
                        high: w.high - step,
                        ..w
                    },
                    Window {
                        wide: w.wide - step,
                        high: w.high + step,
                        ..w
                    },
                ];
                let likely = ways.into_iter().filter(|w| w.is_likely());
                let best = likely
                    .map(|window| (of(self, place, window), window))
                    .max_by(|a, b| a.0.total_cmp(&b.0));
                match best {
                    Some((likeness, window)) if likeness > place.likeness + 1e-4 => {
                        (place.likeness, place.window) = (likeness, window);
                    }
                    _ => break,
                }
            }
        }
    }

    /// How like each frame of the strip is at a place.
    pub(crate) fn each(&self, place: &Placed, window: Window, looked: Looked) -> Vec<f32> {
        let seen = self.query.sketches(window, looked);
        let roll = &self.rolls[place.roll];
        let of = |seen: &Seen| {
            let frame = usize::try_from(place.frame(seen.place)).unwrap_or(0);
            likeness(&place.way.cells(&seen.sketch.fine), roll.fine(frame))
        };
        seen.iter().map(of).collect()
    }

    /// The same of some frames.
    fn some(&self, place: &Placed, window: Window) -> f32 {
        mean_uncovered(&self.each(place, window, Looked::Some))
    }

    /// The mean likeness of the frames that nothing lies over.
    fn uncovered(&self, place: &Placed, window: Window) -> f32 {
        mean_uncovered(&self.each(place, window, Looked::All))
    }
}

fn mean_uncovered(each: &[f32]) -> f32 {
    let seen = uncovered(each);
    seen.iter().map(|&at| each[at]).sum::<f32>() / seen.len().max(1) as f32
}

/// The frames that nothing lies over: at least half of them.
pub(crate) fn uncovered(each: &[f32]) -> Vec<usize> {
    let mut sorted = each.to_vec();
    sorted.sort_by(f32::total_cmp);
    let Some(middle) = sorted.get(sorted.len() / 2) else {
        return Vec::new();
    };
    let least = (middle - COVERED).min(*middle);
    (0..each.len()).filter(|&at| each[at] >= least).collect()
}
