//! A thing that stands still at the edge of the gate, and what planes say of it.

use crate::dark_things::DarkThing;
use onestrand_inspect::{PLANE_BYTES, PLANE_HEIGHT, PLANE_WIDTH};

/// Parts of a thing each way, and pixels of the smallest.
const PARTS: usize = 6;
const SMALLEST_PART: usize = 3;
/// Surroundings darker than this show nothing. Unit: levels.
const TOO_DARK: f32 = 24.0;

/// A thing that stood still at the edge of the gate.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct StandingThing {
    pub(crate) from: u32,
    pub(crate) until: u32,
    /// Left, top, right, bottom. Unit: pixels; right and bottom are past it.
    pub(crate) bounds: [usize; 4],
    /// Share of the picture that it takes.
    pub(crate) share: f32,
    /// Light that is lost in it. Range: 0 to 1.
    pub(crate) depth: f32,
    /// Its pixels, as places in the plane, in order.
    pub(crate) pixels: Vec<u16>,
    /// Frames after which it was found first and last with this outline, each
    /// time on the frames before.
    pub(crate) outlined: (u32, u32),
    /// Whether the picture before its first frame, and that after its last, is
    /// the same but for the thing.
    pub(crate) without: (bool, bool),
}

impl StandingThing {
    /// Whether two things are one: most of the pixels of each are the other's.
    pub(crate) fn is_like(&self, other: &Self) -> bool {
        are_like(&self.pixels, &other.pixels)
    }

    /// Whether the thing would be taken for itself after a movement.
    pub(crate) fn is_like_itself_moved(&self, right: f32, down: f32) -> bool {
        /// Outlines that are alike have `MOST` in common; one that shrank while
        /// it moved may have more than its whole would.
        const MAY_HAVE: f32 = 0.5;
        let (right, down) = (right.round() as i32, down.round() as i32);
        let moved = self.pixels.iter().filter(|&&at| {
            let x = i32::from(at) % PLANE_WIDTH as i32 + right;
            let place = i32::from(at) + down * PLANE_WIDTH as i32 + right;
            let inside = (0..PLANE_WIDTH as i32).contains(&x);
            inside && u16::try_from(place).is_ok_and(|at| self.pixels.binary_search(&at).is_ok())
        });
        let common = moved.count() as f32;
        let all = 2.0 * self.pixels.len() as f32 - common;
        common >= MAY_HAVE * all
    }
}

/// Pixels that two things, each in order, have in common.
pub(crate) fn shared(one: &[u16], other: &[u16]) -> usize {
    one.iter()
        .filter(|at| other.binary_search(at).is_ok())
        .count()
}

/// Whether most of the pixels of two things, each in order, are those of both.
pub(crate) fn are_like(one: &[u16], other: &[u16]) -> bool {
    const MOST: f32 = 0.7;
    let shared = shared(one, other);
    let all = one.len() + other.len() - shared;
    shared as f32 >= MOST * all as f32
}

#[derive(Debug)]
pub(crate) struct Followed {
    pub(crate) thing: DarkThing,
    /// Its pixels by their columns and by their rows, in parts.
    pub(crate) parts: Vec<Vec<u16>>,
    pub(crate) from: u32,
    /// Level against the surroundings when it was found.
    pub(crate) level: f32,
    /// The same of each part.
    pub(crate) levels: Vec<f32>,
    pub(crate) missed: u32,
    /// Frames after which it was found, first and last.
    pub(crate) outlined: (u32, u32),
    /// Whether the picture before it is the same without it.
    pub(crate) came: bool,
}

impl Followed {
    /// Whether most of the thing is on a plane; unknown where all is dark.
    pub(crate) fn stands(&self, plane: &[u8; PLANE_BYTES]) -> Option<bool> {
        let around = mean(&self.thing.around, plane);
        if around < TOO_DARK {
            return None;
        }
        let standing = self
            .parts
            .iter()
            .zip(&self.levels)
            .filter(|(part, level)| mean(part, plane) / around < 0.5 * (1.0 + level.min(1.0)));
        Some(3 * standing.count() >= 2 * self.parts.len())
    }

    pub(crate) fn ended(self, at: u32) -> StandingThing {
        StandingThing {
            pixels: self.thing.pixels.clone(),
            outlined: self.outlined,
            from: self.from,
            until: at,
            bounds: self.thing.bounds,
            share: self.thing.pixels.len() as f32 / (PLANE_WIDTH * PLANE_HEIGHT) as f32,
            depth: 1.0 - self.level,
            without: (self.came, false),
        }
    }

    /// Whether a plane without it shows the same picture as one with it: most of
    /// the whole, and of what is about it. Figures may have gone elsewhere.
    pub(crate) fn is_all_that_misses(
        &self,
        with: &[u8; PLANE_BYTES],
        without: &[u8; PLANE_BYTES],
    ) -> bool {
        let around = self.thing.around.iter().map(|&at| usize::from(at));
        are_alike(with, without, every_third())
            && are_alike(with, without, around)
            && self.is_missing(without)
    }

    /// Whether a plane shows the place of the thing, and nothing like it there
    /// or near: a thing of the picture stands elsewhere when the camera was
    /// moved a little between two takes.
    fn is_missing(&self, plane: &[u8; PLANE_BYTES]) -> bool {
        /// How far the camera may have been moved. Unit: pixels.
        const NEAR: i32 = 16;
        let shifts = (-NEAR..=NEAR)
            .step_by(2)
            .flat_map(|y| (-NEAR..=NEAR).step_by(2).map(move |x| (x, y)));
        mean(&self.thing.around, plane) >= TOO_DARK
            && !shifts
                .into_iter()
                .any(|shift| self.is_dark_at(plane, shift))
    }

    /// Whether the thing, laid elsewhere, lies on something dark.
    fn is_dark_at(&self, plane: &[u8; PLANE_BYTES], shift: (i32, i32)) -> bool {
        let inner = mean_shifted(&self.thing.pixels, plane, shift);
        let around = mean_shifted(&self.thing.around, plane, shift);
        // Half of what is lost in it may be lost for another reason.
        inner
            .zip(around)
            .is_some_and(|(inner, around)| inner < 0.5 * (1.0 + self.level) * around)
    }
}

pub(crate) fn mean(places: &[u16], plane: &[u8; PLANE_BYTES]) -> f32 {
    let sum: u32 = places
        .iter()
        .map(|&at| u32::from(plane[usize::from(at)]))
        .sum();
    sum as f32 / places.len() as f32
}

/// The mean of some places moved on the plane, without those that come to lie in
/// the gate; nothing when most of them do.
fn mean_shifted(
    places: &[u16],
    plane: &[u8; PLANE_BYTES],
    (right, down): (i32, i32),
) -> Option<f32> {
    /// The frame line and the sides of the gate. Unit: pixels.
    const LINE: i32 = 8;
    const SIDE: i32 = 4;
    let moved = places.iter().filter_map(|&at| {
        let (x, y) = (
            i32::from(at) % PLANE_WIDTH as i32 + right,
            i32::from(at) / PLANE_WIDTH as i32 + down,
        );
        let inside = (SIDE..PLANE_WIDTH as i32 - SIDE).contains(&x)
            && (LINE..PLANE_HEIGHT as i32 - LINE).contains(&y);
        inside.then(|| u32::from(plane[(y * PLANE_WIDTH as i32 + x) as usize]))
    });
    let (sum, number) = moved.fold((0, 0_usize), |(sum, number), level| {
        (sum + level, number + 1)
    });
    (2 * number > places.len()).then(|| sum as f32 / number as f32)
}

/// Whether most of some places look alike on two planes, light made equal.
fn are_alike(
    one: &[u8; PLANE_BYTES],
    other: &[u8; PLANE_BYTES],
    places: impl Iterator<Item = usize> + Clone,
) -> bool {
    const ALIKE: f32 = 12.0;
    const MOST: f32 = 0.7;
    let sum = |plane: &[u8; PLANE_BYTES]| {
        let levels = places.clone().map(|at| u32::from(plane[at]));
        levels.sum::<u32>() as f32
    };
    let light = sum(other) / sum(one).max(1.0);
    let apart = |&at: &usize| (f32::from(one[at]) * light - f32::from(other[at])).abs() < ALIKE;
    let alike = places.clone().filter(apart).count();
    alike as f32 >= MOST * places.count() as f32
}

/// Every third pixel both ways.
fn every_third() -> impl Iterator<Item = usize> + Clone {
    let rows = (0..PLANE_HEIGHT).step_by(3);
    rows.flat_map(|y| {
        let columns = (0..PLANE_WIDTH).step_by(3);
        columns.map(move |x| y * PLANE_WIDTH + x)
    })
}

/// The pixels of a thing cut across and along. A thing of the picture that moves
/// away leaves one part before the others.
pub(crate) fn parts(thing: &DarkThing) -> Vec<Vec<u16>> {
    let size = thing.pixels.len().div_ceil(PARTS).max(SMALLEST_PART);
    let columns = |at: &u16| (usize::from(*at) % PLANE_WIDTH, *at);
    let mut by_column = thing.pixels.clone();
    by_column.sort_unstable_by_key(columns);
    // They are in order already.
    let by_row = &thing.pixels;
    let chunks = by_column.chunks(size).chain(by_row.chunks(size));
    chunks
        .filter(|part| 2 * part.len() >= size)
        .map(<[u16]>::to_vec)
        .collect()
}
