//! How the whole picture moves from frame to frame.

use crate::steps::{PLANE_HEIGHT, PLANE_WIDTH};

/// Pixels of a plane that make one here, either way.
const CELL: usize = 4;
const WIDTH: usize = PLANE_WIDTH / CELL;
const HEIGHT: usize = PLANE_HEIGHT / CELL;
/// Pixels left out at the edges, where a moved picture has nothing to show.
const EDGE: usize = 6;
/// Rounds of coming nearer.
const ROUNDS: usize = 4;

/// A plane on which grain is averaged out.
#[derive(Debug, Clone)]
pub(crate) struct Coarse(Vec<f32>);

/// A movement of the whole picture. Unit: pixels of a plane.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(crate) struct Motion {
    /// Across and down.
    pub(crate) by: [f32; 2],
    /// What it leaves unexplained. Unit: levels squared.
    pub(crate) left: f32,
    /// The change without any movement taken out. Unit: levels squared.
    pub(crate) whole: f32,
}

impl Coarse {
    pub(crate) fn of(plane: &[u8]) -> Self {
        let mut cells = vec![0_u32; WIDTH * HEIGHT];
        for (y, row) in plane.chunks_exact(PLANE_WIDTH).enumerate() {
            let line = &mut cells[y / CELL * WIDTH..][..WIDTH];
            for (cell, levels) in line.iter_mut().zip(row.chunks_exact(CELL)) {
                *cell += levels.iter().map(|level| u32::from(*level)).sum::<u32>();
            }
        }
        let share = 1.0 / (CELL * CELL) as f32;
        Self(cells.into_iter().map(|cell| cell as f32 * share).collect())
    }

    /// How this picture has moved since `before`, looked for near `guess`.
    pub(crate) fn since(&self, before: &Self, guess: [f32; 2]) -> Motion {
        let mut at = guess.map(|along| along / CELL as f32);
        let mut left = 0.0;
        for _ in 0..ROUNDS {
            let (more, unexplained) = self.nearer(before, at);
            left = unexplained;
            at = [at[0] + more[0], at[1] + more[1]];
            let far = (EDGE - 1) as f32;
            at = at.map(|along| along.clamp(-far, far));
        }
        Motion {
            by: at.map(|along| along * CELL as f32),
            left,
            whole: self.nearer(before, [0.0; 2]).1,
        }
    }

    /// One round: least squares on the slopes of the picture before, moved as
    /// far as is known. Gives how much further it moved and what is left.
    fn nearer(&self, before: &Self, at: [f32; 2]) -> ([f32; 2], f32) {
        let whole = at.map(f32::floor);
        let part = [at[0] - whole[0], at[1] - whole[1]];
        let offset = -(whole[0] as isize) - whole[1] as isize * WIDTH as isize;
        let mut sums = [0.0_f32; 6];
        let mut means = [0.0_f32; 2];
        let mut count = 0.0;
        for y in EDGE + 1..HEIGHT - EDGE - 1 {
            for x in EDGE + 1..WIDTH - EDGE - 1 {
                let here = (y * WIDTH + x) as isize + offset;
                let moved = |to: isize| {
                    let level = |by: isize| before.0[(here + to - by) as usize];
                    let (upper, lower) = (
                        level(0) + (level(1) - level(0)) * part[0],
                        level(WIDTH as isize)
                            + (level(WIDTH as isize + 1) - level(WIDTH as isize)) * part[0],
                    );
                    upper + (lower - upper) * part[1]
                };
                let off = self.0[y * WIDTH + x] - moved(0);
                let across = (moved(1) - moved(-1)) / 2.0;
                let down = (moved(WIDTH as isize) - moved(-(WIDTH as isize))) / 2.0;
                sums[0] += off * across;
                sums[1] += off * down;
                sums[2] += across * across;
                sums[3] += down * down;
                sums[4] += across * down;
                sums[5] += off * off;
                means[0] += off;
                count += 1.0;
            }
        }
        let left = (sums[5] - means[0] * means[0] / count) / count;
        let det = sums[2] * sums[3] - sums[4] * sums[4];
        if det <= 1e-6 * sums[2] * sums[3] {
            return ([0.0; 2], left);
        }
        let across = -(sums[0] * sums[3] - sums[1] * sums[4]) / det;
        let down = -(sums[1] * sums[2] - sums[0] * sums[4]) / det;
        (
            [across.clamp(-2.0, 2.0), down.clamp(-2.0, 2.0)],
            left.max(0.0),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn drawn(shift: (f32, f32)) -> Vec<u8> {
        (0..PLANE_WIDTH * PLANE_HEIGHT)
            .map(|at| {
                let x = (at % PLANE_WIDTH) as f32 - shift.0;
                let y = (at / PLANE_WIDTH) as f32 - shift.1;
                (120.0 + 50.0 * (x / 17.0).sin() + 40.0 * (y / 11.0 + x / 40.0).cos()) as u8
            })
            .collect()
    }

    #[test]
    fn a_moved_picture_is_seen_to_have_moved() {
        let before = Coarse::of(&drawn((0.0, 0.0)));
        for by in [(0.0, 0.0), (1.5, -0.5), (-4.0, 2.0), (7.0, 0.0)] {
            let motion = Coarse::of(&drawn(by)).since(&before, [0.0; 2]);
            let off = (motion.by[0] - by.0).hypot(motion.by[1] - by.1);
            assert!(off < 0.25, "{by:?}: {motion:?}");
        }
    }
}
