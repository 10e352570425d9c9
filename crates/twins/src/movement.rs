//! How a take moves: the light of its frames in cells, kept to be compared.

use onestrand_film::{FramePos, FrameRange};

use crate::TwinsError;
use crate::picture::{CELLS, CellGrid, GreyPicture, STEPS};
use crate::scene::standing;
use crate::stir::stir;

/// Reads the frames of one take in order.
#[derive(Debug, Clone)]
pub struct MovementReader {
    first: FramePos,
    grid: Option<CellGrid>,
    cells: Vec<i16>,
    seen: Vec<bool>,
}

impl MovementReader {
    /// A reader of a take that begins with this frame of its roll.
    #[must_use]
    pub fn new(first: FramePos) -> Self {
        Self {
            first,
            grid: None,
            cells: Vec::new(),
            seen: Vec::new(),
        }
    }

    /// The next frame.
    ///
    /// # Errors
    /// [`TwinsError::SizeChanged`].
    pub fn push(&mut self, picture: GreyPicture<'_>) -> Result<(), TwinsError> {
        let size = picture.size();
        let grid = self.grid.get_or_insert_with(|| CellGrid::new(size));
        if grid.size != size {
            return Err(TwinsError::SizeChanged {
                frame: self.first.index() + self.seen.len() as u32,
                found: size,
                before: grid.size,
            });
        }
        self.cells.extend(grid.log_light(picture));
        self.seen.push(true);
        Ok(())
    }

    /// The next frame is one that no scan shows.
    pub fn push_missing(&mut self) {
        // The light of the frame before, until the frame after is known.
        let held = self.cells.len().checked_sub(CELLS);
        match held {
            Some(from) => self.cells.extend_from_within(from..),
            None => self.cells.extend([0; CELLS]),
        }
        self.seen.push(false);
    }

    /// The take as it was read.
    ///
    /// # Errors
    /// [`TwinsError::NoFrames`].
    pub fn finish(mut self) -> Result<TakeMovement, TwinsError> {
        let known = self.seen.iter().position(|&seen| seen);
        let known = known.ok_or(TwinsError::NoFrames)?;
        let light = self.cells[known * CELLS..][..CELLS].to_vec();
        for early in 0..known {
            self.cells[early * CELLS..][..CELLS].copy_from_slice(&light);
        }
        let begin = self.first;
        let end = FramePos::new(begin.index().saturating_add(self.seen.len() as u32));
        let range = end.and_then(|end| FrameRange::new(begin, end));
        let range = range.map_err(|_| TwinsError::NoFrames)?;
        let noise = noise_of(&self.cells);
        let standing = standing(&self.cells);
        let mut take = TakeMovement {
            range,
            cells: self.cells,
            standing,
            stir: Vec::new(),
            noise,
        };
        take.stir = stir(&take);
        Ok(take)
    }
}

/// How one take moves. Made by a [`MovementReader`], kept to be laid beside
/// others; it holds 3.5 kB a frame.
#[derive(Clone)]
pub struct TakeMovement {
    range: FrameRange,
    cells: Vec<i16>,
    standing: Vec<f32>,
    stir: Vec<f32>,
    noise: f32,
}

impl TakeMovement {
    /// The frames of the roll that were read.
    #[must_use]
    pub fn range(&self) -> FrameRange {
        self.range
    }

    /// How much moves at a frame of the roll, against what moves at most in the
    /// take; 0 outside the take. Range: 0 to 1.
    #[must_use]
    pub fn moves_at(&self, frame: FramePos) -> f32 {
        let at = frame.index().checked_sub(self.range.begin().index());
        let moves = at.and_then(|at| self.stir.get(at as usize));
        moves.copied().unwrap_or(0.0)
    }

    /// How many frames that is.
    pub(crate) fn frames(&self) -> usize {
        self.cells.len() / CELLS
    }

    /// The light of one frame, cell by cell. Unit: 4096ths of a logarithm.
    pub(crate) fn cells(&self, frame: usize) -> &[i16] {
        &self.cells[frame * CELLS..][..CELLS]
    }

    /// The light of what stands still, cell by cell. Unit: as the cells.
    pub(crate) fn standing(&self) -> &[f32] {
        &self.standing
    }

    /// How far the light of a cell is off by grain alone. Unit: as the cells.
    pub(crate) fn noise(&self) -> f32 {
        self.noise
    }
}

impl std::fmt::Debug for TakeMovement {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "TakeMovement({})", self.range)
    }
}

/// Least noise that is believed: an eighth of a level of 8 bits in mid grey.
const LEAST_NOISE: f32 = 0.001 * STEPS;

/// What is left of the light of a cell when the mean of its neighbours in time
/// is taken away, in the middle of all cells and frames: movement is smooth over
/// three frames in most places, grain never is.
fn noise_of(cells: &[i16]) -> f32 {
    let frames = cells.len() / CELLS;
    let mut rests = Vec::new();
    // Every seventh cell of every frame is plenty.
    for at in (CELLS..(frames.max(1) - 1) * CELLS).step_by(7) {
        let [before, here, after] =
            [cells[at - CELLS], cells[at], cells[at + CELLS]].map(i32::from);
        rests.push((before - 2 * here + after).unsigned_abs());
    }
    if rests.is_empty() {
        return LEAST_NOISE;
    }
    let middle = rests.len() / 2;
    let (_, rest, _) = rests.select_nth_unstable(middle);
    // The middle of |x| is 0.6745 of a normal spread; 1 − 2 + 1 of equal
    // spreads makes it √6 times as large.
    (*rest as f32 / (0.6745 * 6_f32.sqrt())).max(LEAST_NOISE)
}
