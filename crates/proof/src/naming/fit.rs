//! A place looked at closely: which part of the frames the scan shows, how like all
//! frames are.

use super::closer::closer;
use super::like::{Like, mean, mean_uncovered};
use super::query::{Looked, Query, Seen, Window};
use super::warp::Warp;
use crate::rolls::RollSketches;
use crate::sketch::likeness;
use crate::way::Way;

/// Where frames three off are so much less like, nothing moves slowly.
const SLOW: f32 = 0.02;
/// A place so much less like before it is laid closely is none in a slow move.
const NEAR: f32 = 0.25;

/// Where a strip may lie along a roll.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Placed {
    pub(crate) roll: usize,
    /// The frame of the roll that place 0 of the strip is.
    pub(crate) begin: i64,
    pub(crate) backwards: bool,
    pub(crate) way: Way,
    pub(crate) window: Window,
    /// How it lies more closely, once that is known.
    pub(crate) warp: Option<Warp>,
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
        place.likeness = self.all(place);
        self.slide(place, 12);
        place.likeness = self.some(place, place.window);
        self.climb(place, &[1], Self::some);
        place.likeness = self.all(place);
        self.slide(place, 3);
    }

    /// Lays the frames more closely, and slides them along the roll once more.
    pub(crate) fn closely(&self, place: &mut Placed) {
        place.warp = Some(Warp::of(place.window));
        for (rounds, far) in [(6, 12), (4, 4)] {
            self.closer(place, rounds);
            self.slide(place, far);
        }
        self.closer(place, 2);
    }

    /// In a slow move a place some frames off may be laid nearly as closely by a warp that
    /// makes up for it: the frames beside are laid anew, from the window. Further ones only
    /// where they are about as like before.
    pub(crate) fn shifted(&self, place: &mut Placed) {
        let from = *place;
        self.laid_anew(place, &from, &[-2, -1, 1, 2]);
        if self.laid_anew(place, &from, &[-3, 3]) < place.likeness - SLOW {
            return;
        }
        self.laid_anew(place, &from, &[-24, -17, -11, -6, 6, 11, 17, 24]);
        if !from.is_beside(place, 3) {
            let from = Placed {
                window: from.window,
                ..*place
            };
            self.laid_anew(place, &from, &[-3, -2, -1, 1, 2, 3]);
        }
    }

    /// The best of a place and those so many frames beside another one. Gives the likeness
    /// of the best of these.
    fn laid_anew(&self, place: &mut Placed, from: &Placed, offs: &[i64]) -> f32 {
        let mut most = 0.0_f32;
        for off in offs {
            let mut other = Placed {
                begin: from.begin + off,
                warp: Some(Warp::of(from.window)),
                ..*from
            };
            if !self.is_within(&other) || (off.abs() > 3 && self.all(&other) < from.likeness - NEAR)
            {
                continue;
            }
            self.closer(&mut other, 12);
            most = most.max(other.likeness);
            if other.likeness > place.likeness {
                *place = other;
            }
        }
        most
    }

    /// Lays the frames more closely, in so many rounds.
    pub(crate) fn closer(&self, place: &mut Placed, rounds: usize) {
        let warp = place.warp.unwrap_or(Warp::of(place.window));
        let roll = &self.rolls[place.roll];
        place.warp = Some(closer(self.query, roll, place, (warp, rounds)));
        place.likeness = self.all(place);
    }

    fn slide(&self, place: &mut Placed, far: i64) {
        let begin = place.begin;
        for off in -far..=far {
            let mut other = *place;
            other.begin = begin + off;
            if !self.is_within(&other) {
                continue;
            }
            other.likeness = self.all(&other);
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
    pub(crate) fn each(&self, place: &Placed, window: Window, looked: Looked) -> Vec<Like> {
        let seen = match place.warp {
            Some(warp) => self.query.warped(&warp),
            None => self.query.sketches(window, looked),
        };
        let roll = &self.rolls[place.roll];
        let of = |seen: &Seen| {
            let frame = usize::try_from(place.frame(seen.place)).unwrap_or(0);
            Like::of(&seen.sketch, &place.way.cells(roll.fine(frame)))
        };
        seen.iter().map(of).collect()
    }

    /// The same of some frames.
    fn some(&self, place: &Placed, window: Window) -> f32 {
        mean_uncovered(&self.each(place, window, Looked::Some))
    }

    /// The mean likeness of all frames; what lies over one counts no more than a frame
    /// of another shot.
    fn all(&self, place: &Placed) -> f32 {
        mean(&self.each(place, place.window, Looked::All))
    }
}
