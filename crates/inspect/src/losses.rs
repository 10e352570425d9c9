//! How much of the picture changes at a place, in all and part by part.

use crate::blocks::{BLOCKS, GRID_HEIGHT, GRID_WIDTH};

/// By how much each block of a frame is lost on the other side. Range: 0 to 1.
pub(crate) type Losses = [f32; BLOCKS];

/// Side of a part of the picture: six blocks beside each other reach over 28
/// pixels of the halved plane, three tenths of its width and two fifths of its
/// height. Room for a figure where it was and where it is now.
const SIDE: usize = 6;
/// Distance between neighbouring parts; they overlap by two thirds.
const APART: usize = 2;
const ACROSS: usize = (GRID_WIDTH - SIDE) / APART + 1;
const DOWN: usize = (GRID_HEIGHT - SIDE) / APART + 1;

/// What changes for good before a frame. A share counts both what is lost of
/// the frame before and what is new in the frame after (the root of their
/// product): figures that jump leave one place and turn up in another.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Turnover {
    /// Share of the whole picture. Range: 0 to 1.
    pub(crate) whole: f32,
    /// Shares of its parts. Range: 0 to 1 each.
    parts: [f32; ACROSS * DOWN],
}

impl Turnover {
    /// Nothing changes, or nobody knows.
    pub(crate) const NONE: Self = Self {
        whole: 0.0,
        parts: [0.0; ACROSS * DOWN],
    };

    /// From what is lost and what is new.
    pub(crate) fn of(lost: &Losses, new: &Losses) -> Self {
        let mean = |losses: &Losses| losses.iter().sum::<f32>() / BLOCKS as f32;
        let parts = std::array::from_fn(|part| {
            let (x, y) = (part % ACROSS * APART, part / ACROSS * APART);
            (share_of_part(lost, x, y) * share_of_part(new, x, y)).sqrt()
        });
        Self {
            whole: (mean(lost) * mean(new)).sqrt(),
            parts,
        }
    }

    /// How strongly the part that changes most stands out of what changes there
    /// in the frames `about`: its share, times how often that is the third
    /// greatest of the others and `grain` together.
    pub(crate) fn strength_in_one_place(&self, about: &[&Self], grain: f32) -> f32 {
        let mut strongest: f32 = 0.0;
        for (part, &share) in self.parts.iter().enumerate() {
            if share * share / grain <= strongest {
                continue;
            }
            let rest = third_greatest(about.iter().map(|other| other.parts[part]));
            strongest = strongest.max(share * share / (grain + rest));
        }
        strongest
    }
}

/// The third greatest of some shares, so that two other breaks near by do not
/// hide this one; 0 where there are fewer.
pub(crate) fn third_greatest(shares: impl Iterator<Item = f32>) -> f32 {
    let mut greatest = [0.0; 3];
    for share in shares {
        let mut share = share;
        for held in &mut greatest {
            if share > *held {
                std::mem::swap(held, &mut share);
            }
        }
    }
    greatest[2]
}

fn share_of_part(losses: &Losses, x: usize, y: usize) -> f32 {
    let rows = losses.chunks_exact(GRID_WIDTH).skip(y).take(SIDE);
    let sum: f32 = rows.map(|row| row[x..x + SIDE].iter().sum::<f32>()).sum();
    sum / (SIDE * SIDE) as f32
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_third_greatest_of_a_few() {
        assert!((third_greatest([0.1, 0.5, 0.3, 0.2].into_iter()) - 0.2).abs() < 1e-6);
        assert!(third_greatest([0.4, 0.4].into_iter()).abs() < 1e-6);
    }

    #[test]
    fn a_change_in_one_corner_is_strong_there_and_weak_in_all() {
        let mut losses = [0.0; BLOCKS];
        for row in 0..SIDE {
            losses[row * GRID_WIDTH..][..SIDE].fill(1.0);
        }
        let here = Turnover::of(&losses, &losses);
        assert!((here.whole - 36.0 / BLOCKS as f32).abs() < 1e-6);
        let still = [&Turnover::NONE; 8];
        assert!((here.strength_in_one_place(&still, 0.03) - 1.0 / 0.03).abs() < 0.01);
        let restless = [&here; 8];
        assert!((here.strength_in_one_place(&restless, 0.03) - 1.0 / 1.03).abs() < 0.01);
    }
}
