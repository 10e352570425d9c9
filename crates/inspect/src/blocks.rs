//! Seeking each small block of one frame in another.

use crate::small::{SMALL_HEIGHT, SMALL_PIXELS, SMALL_WIDTH};

/// Side of a block. Unit: pixels of the halved plane (1/12 of its width).
const BLOCK: usize = 8;
/// Distance between neighbouring blocks; they overlap by half, so that a
/// figure smaller than a block still fills most of one.
const PITCH: usize = 4;
/// Blocks beside each other.
pub(crate) const GRID_WIDTH: usize = (SMALL_WIDTH - BLOCK) / PITCH + 1;
/// Blocks one above the other.
pub(crate) const GRID_HEIGHT: usize = (SMALL_HEIGHT - BLOCK) / PITCH + 1;
/// Blocks that are sought in a frame.
pub(crate) const BLOCKS: usize = GRID_WIDTH * GRID_HEIGHT;
/// How far a block is sought each way. Unit: pixels of the halved plane.
///
/// Four in ninety-six is 4 % of the width in one frame: a man running across
/// the picture in a second and a half at 18 frames.
const REACH: i32 = 4;

/// A movement by whole pixels of the halved plane.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct Step {
    pub(crate) right: i32,
    pub(crate) down: i32,
}

impl Step {
    /// The movement that undoes this one.
    pub(crate) fn back(self) -> Self {
        Self {
            right: -self.right,
            down: -self.down,
        }
    }

    /// This movement so many times over.
    pub(crate) fn times(self, times: i32) -> Self {
        Self {
            right: self.right * times,
            down: self.down * times,
        }
    }

    /// This movement and then another.
    pub(crate) fn then(self, next: Self) -> Self {
        Self {
            right: self.right + next.right,
            down: self.down + next.down,
        }
    }
}

/// Where a block was found and how well.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Found {
    /// Mean absolute difference over the block, in grey levels.
    pub(crate) difference: f32,
    pub(crate) moved: Step,
}

pub(crate) type Pixels = [u8; SMALL_PIXELS];

/// Left upper corner of block `index`.
fn corner(index: usize) -> (usize, usize) {
    (index % GRID_WIDTH * PITCH, index / GRID_WIDTH * PITCH)
}

/// Sum of absolute differences of the blocks whose corners are at these
/// offsets.
///
/// Column by column in 16 bits, and without a check on each addition (eight
/// times 255 fits): so the compiler takes eight pixels at once.
fn sum_of_differences(a: &Pixels, from: usize, b: &Pixels, to: usize) -> u32 {
    const WINDOW: usize = (BLOCK - 1) * SMALL_WIDTH + BLOCK;
    let a: &[u8; WINDOW] = a[from..from + WINDOW]
        .try_into()
        .expect("a window has its own length");
    let b: &[u8; WINDOW] = b[to..to + WINDOW]
        .try_into()
        .expect("a window has its own length");
    let mut columns = [0_u16; BLOCK];
    for row in 0..BLOCK {
        let place = row * SMALL_WIDTH;
        for (x, sum) in columns.iter_mut().enumerate() {
            *sum = sum.wrapping_add(u16::from(a[place + x].abs_diff(b[place + x])));
        }
    }
    columns
        .into_iter()
        .map(u32::from)
        .fold(0, u32::wrapping_add)
}

/// The sum of differences with the block moved, or `None` outside the frame.
#[inline]
fn moved_sum(a: &Pixels, b: &Pixels, (x, y): (usize, usize), step: Step) -> Option<u32> {
    let to_x = x as i32 + step.right;
    let to_y = y as i32 + step.down;
    let inside = (0..=(SMALL_WIDTH - BLOCK) as i32).contains(&to_x)
        && (0..=(SMALL_HEIGHT - BLOCK) as i32).contains(&to_y);
    inside.then(|| {
        let to = to_y as usize * SMALL_WIDTH + to_x as usize;
        sum_of_differences(a, y * SMALL_WIDTH + x, b, to)
    })
}

fn level_of(sum: u32) -> f32 {
    sum as f32 / (BLOCK * BLOCK) as f32
}

/// Differences of all blocks moved by `step` (or standing, where that leads
/// outside), in grey levels.
pub(crate) fn differences_at(a: &Pixels, b: &Pixels, step: Step) -> [f32; BLOCKS] {
    std::array::from_fn(|block| difference_at(a, b, block, step))
}

/// The difference of one block moved by `step` (or standing, where that leads
/// outside), in grey levels.
pub(crate) fn difference_at(a: &Pixels, b: &Pixels, block: usize, step: Step) -> f32 {
    let place = corner(block);
    let sum = moved_sum(a, b, place, step)
        .or_else(|| moved_sum(a, b, place, Step::default()))
        .expect("a block that does not move is inside");
    level_of(sum)
}

/// Mean absolute distance of a block's levels from their mean: how much there
/// is to see in it. Unit: grey levels.
pub(crate) fn texture(a: &Pixels, block: usize) -> f32 {
    let (x, y) = corner(block);
    let levels = || (0..BLOCK).flat_map(|row| a[(y + row) * SMALL_WIDTH + x..][..BLOCK].iter());
    let sum: u32 = levels().map(|&level| u32::from(level)).sum();
    let mean = (sum / (BLOCK * BLOCK) as u32) as u8;
    level_of(levels().map(|&level| u32::from(level.abs_diff(mean))).sum())
}

/// Seeks a block of `a` in `b` round the movements `guesses`, and stops as
/// soon as it differs by no more than `enough` grey levels.
///
/// Each guess is searched in steps of two pixels, then the pixels round the
/// best: at this size pictures are smooth enough that this misses little.
pub(crate) fn seek(a: &Pixels, b: &Pixels, block: usize, guess: Step, enough: f32) -> Found {
    let place = corner(block);
    let limit = (enough * (BLOCK * BLOCK) as f32) as u32;
    let mut best = (u32::MAX, Step::default());
    let mut try_at = |step| {
        if let Some(sum) = moved_sum(a, b, place, step)
            && sum < best.0
        {
            best = (sum, step);
        }
        best
    };
    for centre in [guess, Step::default()] {
        if try_at(centre).0 <= limit {
            break;
        }
    }
    search(guess, limit, &mut try_at);
    Found {
        difference: level_of(best.0),
        moved: best.1,
    }
}

/// Seeks a block of `a` in `b` within `reach` pixels of each of the movements
/// `about`, and stops as soon as it differs by no more than `enough` grey
/// levels. Gives the least difference; where all movements lead outside, that
/// of the block standing.
pub(crate) fn seek_about(
    a: &Pixels,
    b: &Pixels,
    block: usize,
    (about, reach): (&[Step], i32),
    enough: f32,
) -> f32 {
    let place = corner(block);
    let limit = (enough * (BLOCK * BLOCK) as f32) as u32;
    let mut least = u32::MAX;
    for &middle in about {
        for down in -reach..=reach {
            for right in -reach..=reach {
                if let Some(sum) = moved_sum(a, b, place, middle.then(Step { right, down })) {
                    least = least.min(sum);
                }
                if least <= limit {
                    return level_of(least);
                }
            }
        }
    }
    if least == u32::MAX {
        return difference_at(a, b, block, Step::default());
    }
    level_of(least)
}

fn search(guess: Step, limit: u32, try_at: &mut impl FnMut(Step) -> (u32, Step)) {
    let around = |centre: Step, right: i32, down: i32| centre.then(Step { right, down });
    let mut best = try_at(guess);
    for down in (-REACH..=REACH).step_by(2) {
        for right in (-REACH..=REACH).step_by(2) {
            if best.0 <= limit {
                return;
            }
            best = try_at(around(guess, right, down));
        }
    }
    let coarse = best.1;
    for down in -1..=1 {
        for right in -1..=1 {
            if best.0 <= limit {
                return;
            }
            best = try_at(around(coarse, right, down));
        }
    }
}
