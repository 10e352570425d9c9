//! Tells a camera that stands from one that moves slowly.
//!
//! Somebody who crosses the picture may draw each small movement a little to
//! their side; added up over a long take that would be a pan. So every few frames
//! the picture is held against one kept from before, and only where all of it
//! looks more like it moved than unmoved, the camera has moved.

use crate::movement::Step;
use crate::pyramid::Half;

/// Every so many frames the picture is held against the kept one.
const LOOKS: usize = 8;
/// Frames after which a camera's light has settled when it starts.
const SETTLES: usize = 3;
/// Pixels along each side of a cell: each of them has a vote, whatever it shows.
const CELL: usize = 12;
/// Pixels left out at the border: the gate stands in any case.
const BORDER: usize = 6;
/// A cell has an opinion when one of the two is nearer by this share, and by so
/// many levels a pixel.
const NEARER: f32 = 0.8;
const BY: f32 = 1.0;
/// A picture has moved when so many cells say so, and in each third of its width
/// more than say that it stood: what crosses it has some cells of its own.
const LEAST: u32 = 8;
const THIRDS: usize = 3;

/// How far the picture went since it was last looked at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Went {
    /// Unit: pixels of the plane.
    pub(crate) right: f32,
    pub(crate) down: f32,
    /// Movements in which it did.
    pub(crate) frames: usize,
}

#[derive(Debug)]
struct Kept {
    picture: Half,
    /// Movement since, as it was read. Unit: pixels of the plane.
    moved: (f32, f32),
}

/// Holds a picture as long as the camera shows it.
#[derive(Debug, Default)]
pub(crate) struct StandingPicture {
    kept: Option<Kept>,
    /// Frames since the last look.
    since: usize,
}

impl StandingPicture {
    /// Takes in the next frame and how it moved. `is_another`: the frame shows
    /// another picture, and nothing of what was read since the last look is known.
    pub(crate) fn push(&mut self, half: &Half, step: Step, is_another: bool) -> Option<Went> {
        if is_another {
            self.kept = None;
            self.since = 0;
        }
        let Some(kept) = self.kept.as_mut() else {
            self.since += 1;
            if self.since > SETTLES {
                self.keep(half);
            }
            return None;
        };
        kept.moved.0 += step.right;
        kept.moved.1 += step.down;
        self.since += 1;
        if self.since < LOOKS {
            return None;
        }
        let by = |way: f32| (0.5 * way).round() as i32;
        let shift = (by(kept.moved.0), by(kept.moved.1));
        let frames = std::mem::take(&mut self.since);
        if shift == (0, 0) {
            return None;
        }
        let moved = kept.moved;
        match said(&kept.picture, half, shift) {
            Said::Stood => {
                kept.moved = (0.0, 0.0);
                None
            }
            Said::Nothing => {
                self.keep(half);
                None
            }
            Said::Moved => {
                self.keep(half);
                Some(Went {
                    right: moved.0,
                    down: moved.1,
                    frames,
                })
            }
        }
    }

    fn keep(&mut self, half: &Half) {
        self.since = 0;
        self.kept = Some(Kept {
            picture: half.clone(),
            moved: (0.0, 0.0),
        });
    }
}

/// What the cells say together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Said {
    /// At least as many look as if the picture had stood.
    Stood,
    /// More look as if it had moved, but not everywhere.
    Nothing,
    /// The whole picture moved.
    Moved,
}

/// Asks all cells.
fn said(kept: &Half, now: &Half, shift: (i32, i32)) -> Said {
    let (mut stands, mut moves) = ([0_u32; THIRDS], [0_u32; THIRDS]);
    let reach = |by: i32| BORDER.max(by.unsigned_abs() as usize);
    let (side, top) = (reach(shift.0), reach(shift.1));
    for y in (top..=Half::HEIGHT - top - CELL).step_by(CELL) {
        for x in (side..=Half::WIDTH - side - CELL).step_by(CELL) {
            let standing = difference(kept, now, (x, y), (0, 0));
            let moved = difference(kept, now, (x, y), shift);
            let third = (x + CELL / 2) * THIRDS / Half::WIDTH;
            if standing < NEARER * moved && standing + BY < moved {
                stands[third] += 1;
            } else if moved < NEARER * standing && moved + BY < standing {
                moves[third] += 1;
            }
        }
    }
    let all = |votes: &[u32]| votes.iter().sum::<u32>();
    if all(&stands) >= all(&moves) {
        return Said::Stood;
    }
    let mut thirds = stands.iter().zip(&moves);
    if all(&moves) >= LEAST && thirds.all(|(stands, moves)| moves > stands) {
        Said::Moved
    } else {
        Said::Nothing
    }
}

/// Mean difference over a cell of `now` from what lay there before the shift, the
/// light of the cell made equal.
fn difference(kept: &Half, now: &Half, (x, y): (usize, usize), shift: (i32, i32)) -> f32 {
    let mut apart = [0_i16; CELL * CELL];
    for (row, apart) in apart.chunks_exact_mut(CELL).enumerate() {
        let row = y + row;
        let from = (row as i32 - shift.1) * Half::WIDTH as i32 + x as i32 - shift.0;
        let was = &kept.levels[from as usize..][..CELL];
        let is = &now.levels[row * Half::WIDTH + x..][..CELL];
        for ((apart, &was), &is) in apart.iter_mut().zip(was).zip(is) {
            *apart = i16::from(is) - i16::from(was);
        }
    }
    let pixels = (CELL * CELL) as f32;
    let light = apart.iter().map(|&by| i32::from(by)).sum::<i32>() as f32 / pixels;
    let sum: f32 = apart.iter().map(|&by| (f32::from(by) - light).abs()).sum();
    sum / pixels
}
