//! Watches the edge of the gate for things that stand still.

use crate::dark_things::{DarkThing, dark_things};
use onestrand_inspect::{PLANE_BYTES, PLANE_HEIGHT, PLANE_WIDTH};
use std::collections::VecDeque;

/// Frames over which a thing must stand to be noticed.
pub(crate) const STANDS: usize = 12;
/// Every so many frames is looked for new ones.
const LOOKS: usize = 8;
/// Planes held, so that the first frame of a thing is found.
const HELD: usize = STANDS + LOOKS;
/// Frames in a row without it after which a thing is gone.
const GONE: u32 = 3;
/// Most things followed at a time.
const FOLLOWED: usize = 24;
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

/// Makes the frame lines dark, what is printed in them too: rows at the top and
/// the foot of which a third is dark at one time or another.
fn darken_frame_lines(lightest: &mut [u8; PLANE_BYTES], darkest: &[u8; PLANE_BYTES]) {
    /// Rows that a frame line takes at most.
    const ROWS: usize = 8;
    const DARK: u8 = 40;
    let mostly_dark = |y: &usize| {
        let row = &darkest[y * PLANE_WIDTH..][..PLANE_WIDTH];
        let dark = row.iter().filter(|&&level| level < DARK);
        3 * dark.count() >= PLANE_WIDTH
    };
    let top = (0..ROWS).take_while(mostly_dark);
    let foot = (PLANE_HEIGHT - ROWS..PLANE_HEIGHT)
        .rev()
        .take_while(mostly_dark);
    for y in top.chain(foot) {
        lightest[y * PLANE_WIDTH..][..PLANE_WIDTH].fill(0);
    }
}

/// Pixels that two things, each in order, have in common.
fn shared(one: &[u16], other: &[u16]) -> usize {
    one.iter()
        .filter(|at| other.binary_search(at).is_ok())
        .count()
}

/// Whether most of the pixels of two things, each in order, are those of both.
fn are_like(one: &[u16], other: &[u16]) -> bool {
    const MOST: f32 = 0.7;
    let shared = shared(one, other);
    let all = one.len() + other.len() - shared;
    shared as f32 >= MOST * all as f32
}

#[derive(Debug)]
struct Followed {
    thing: DarkThing,
    /// Its pixels by their columns and by their rows, in parts.
    parts: Vec<Vec<u16>>,
    from: u32,
    /// Level against the surroundings when it was found.
    level: f32,
    /// The same of each part.
    levels: Vec<f32>,
    missed: u32,
    /// Frames after which it was found, first and last.
    outlined: (u32, u32),
}

impl Followed {
    /// Whether most of the thing is on a plane; unknown where all is dark.
    fn stands(&self, plane: &[u8; PLANE_BYTES]) -> Option<bool> {
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

    fn ended(self, at: u32) -> StandingThing {
        StandingThing {
            pixels: self.thing.pixels.clone(),
            outlined: self.outlined,
            from: self.from,
            until: at,
            bounds: self.thing.bounds,
            share: self.thing.pixels.len() as f32 / (PLANE_WIDTH * PLANE_HEIGHT) as f32,
            depth: 1.0 - self.level,
        }
    }
}

fn mean(places: &[u16], plane: &[u8; PLANE_BYTES]) -> f32 {
    let sum: u32 = places
        .iter()
        .map(|&at| u32::from(plane[usize::from(at)]))
        .sum();
    sum as f32 / places.len() as f32
}

/// The pixels of a thing cut across and along. A thing of the picture that moves
/// away leaves one part before the others.
fn parts(thing: &DarkThing) -> Vec<Vec<u16>> {
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

/// Watches plane after plane.
#[derive(Debug, Default)]
pub(crate) struct GateWatch {
    held: VecDeque<Box<[u8; PLANE_BYTES]>>,
    followed: Vec<Followed>,
    stood: Vec<StandingThing>,
    /// Frames seen.
    seen: u32,
}

impl GateWatch {
    pub(crate) fn push(&mut self, plane: &[u8; PLANE_BYTES]) {
        let mut still = Vec::with_capacity(self.followed.len());
        for mut one in std::mem::take(&mut self.followed) {
            match one.stands(plane) {
                Some(true) => one.missed = 0,
                Some(false) => one.missed += 1,
                None => {}
            }
            if one.missed == GONE {
                self.stood.push(one.ended(self.seen + 1 - GONE));
            } else {
                still.push(one);
            }
        }
        self.followed = still;
        let mut held = if self.held.len() == HELD {
            self.held.pop_front().unwrap_or_else(|| Box::new(*plane))
        } else {
            Box::new(*plane)
        };
        held.copy_from_slice(plane);
        self.held.push_back(held);
        self.seen += 1;
        if self.held.len() >= STANDS && (self.seen as usize).is_multiple_of(LOOKS) {
            self.look();
        }
    }

    /// The next frame shows another picture: what stood is looked for anew, so
    /// that its outline speaks for it, not its place alone.
    pub(crate) fn another_picture(&mut self) {
        let seen = self.seen;
        let open = std::mem::take(&mut self.followed);
        self.stood.extend(open.into_iter().map(|one| {
            let missed = one.missed;
            one.ended(seen - missed)
        }));
        self.held.clear();
    }

    /// A frame without a plane: what stands is taken to go on.
    pub(crate) fn skip(&mut self) {
        if let Some(last) = self.held.back().cloned() {
            self.push(&last);
        } else {
            self.seen += 1;
        }
    }

    /// Looks for things that stood on all of the last frames.
    fn look(&mut self) {
        let lightest = self.lightest();
        for thing in dark_things(&lightest) {
            let beside = self.followed.iter().position(|one| {
                5 * shared(&thing.pixels, &one.thing.pixels) >= 2 * thing.pixels.len()
            });
            match beside {
                Some(place) => self.look_again(place, thing),
                None if self.followed.len() < FOLLOWED => {
                    self.followed.extend(self.followed_from_now(thing));
                }
                None => {}
            }
        }
    }

    /// The lightest of three means of four frames each, the last ones: weave
    /// makes nothing thinner in a mean.
    fn lightest(&mut self) -> Box<[u8; PLANE_BYTES]> {
        let newest = self.held.len() - STANDS;
        let mut lightest = Box::new([0_u8; PLANE_BYTES]);
        let mut darkest = Box::new([255_u8; PLANE_BYTES]);
        let held = self.held.make_contiguous();
        for four in held[newest..].chunks_exact(4) {
            let (a, b) = (
                four[0].iter().zip(four[1].iter()),
                four[2].iter().zip(four[3].iter()),
            );
            let both = lightest.iter_mut().zip(darkest.iter_mut());
            for (((light, dark), (&a, &b)), (&c, &d)) in both.zip(a).zip(b) {
                let (one, other) = (u16::from(a) + u16::from(b), u16::from(c) + u16::from(d));
                let mean = (one.wrapping_add(other) / 4) as u8;
                *light = (*light).max(mean);
                *dark = (*dark).min(mean);
            }
        }
        darken_frame_lines(&mut lightest, &darkest);
        lightest
    }

    /// A thing was found where one is followed: the same outline is confirmed;
    /// what was joined with something that has moved away gets its own.
    fn look_again(&mut self, place: usize, thing: DarkThing) {
        let old = &mut self.followed[place];
        if are_like(&old.thing.pixels, &thing.pixels) {
            old.outlined.1 = self.seen;
            return;
        }
        let from = old.from;
        let is_part = 5 * shared(&thing.pixels, &old.thing.pixels) >= 4 * thing.pixels.len();
        if let Some(mut own) = self.followed_from_now(thing).filter(|_| is_part) {
            own.from = from.min(own.from);
            self.followed[place] = own;
        }
    }

    /// A thing to follow, if it stood as long as it must.
    fn followed_from_now(&self, thing: DarkThing) -> Option<Followed> {
        let newest = self.held.len() - STANDS;
        let planes = || self.held.iter().skip(newest);
        let sum_of = |places: &[u16]| planes().map(|plane| mean(places, plane)).sum::<f32>();
        let around = sum_of(&thing.around);
        let parts = parts(&thing);
        let mut one = Followed {
            level: sum_of(&thing.pixels) / around,
            levels: parts.iter().map(|part| sum_of(part) / around).collect(),
            thing,
            parts,
            from: 0,
            missed: 0,
            outlined: (self.seen, self.seen),
        };
        let back = self.held.iter().rev();
        let stood = back
            .take_while(|plane| one.stands(plane) == Some(true))
            .count();
        one.from = self.seen - stood as u32;
        (stood >= STANDS).then_some(one)
    }

    /// All that stood, in order of their first frames.
    pub(crate) fn finish(mut self) -> Vec<StandingThing> {
        self.another_picture();
        self.stood.sort_by_key(|thing| (thing.from, thing.until));
        self.stood
    }
}
