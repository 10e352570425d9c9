//! A plane halved each way: where grain is averaged away and blocks are sought.

use crate::plane::{PLANE_WIDTH, PlaneRef};

/// Width of the halved plane in its own pixels.
pub(crate) const SMALL_WIDTH: usize = PLANE_WIDTH / 2;
/// Height of the halved plane in its own pixels.
pub(crate) const SMALL_HEIGHT: usize = crate::plane::PLANE_HEIGHT / 2;
/// Pixels of the halved plane.
pub(crate) const SMALL_PIXELS: usize = SMALL_WIDTH * SMALL_HEIGHT;

/// One frame as the comparison sees it: 96×72 pixels and their histogram.
#[derive(Debug)]
pub(crate) struct Small {
    /// Grey levels, row by row.
    pub(crate) pixels: Box<[u8; SMALL_PIXELS]>,
    /// Pixels at or below each level.
    pub(crate) at_most: Box<[u16; 256]>,
    /// Mean absolute distance of the pixels from their mean, in grey levels.
    pub(crate) contrast: f32,
    /// Mean grey level.
    pub(crate) mean: f32,
}

impl Small {
    /// Halves a plane by the mean of each two by two pixels.
    pub(crate) fn of(plane: PlaneRef<'_>) -> Self {
        let mut pixels = Box::new([0; SMALL_PIXELS]);
        let pairs = plane.bytes().chunks_exact(2 * PLANE_WIDTH);
        for (rows, out) in pairs.zip(pixels.chunks_exact_mut(SMALL_WIDTH)) {
            let (upper, lower) = rows.split_at(PLANE_WIDTH);
            let fours = upper.chunks_exact(2).zip(lower.chunks_exact(2));
            for (pixel, (u, l)) in out.iter_mut().zip(fours) {
                let sum = u16::from(u[0]) + u16::from(u[1]) + u16::from(l[0]) + u16::from(l[1]);
                *pixel = ((sum + 2) / 4) as u8;
            }
        }
        Self::from_pixels(pixels)
    }

    /// Counts the levels of pixels that are already halved.
    pub(crate) fn from_pixels(pixels: Box<[u8; SMALL_PIXELS]>) -> Self {
        let mut at_most = Box::new([0_u16; 256]);
        for &pixel in pixels.iter() {
            at_most[usize::from(pixel)] += 1;
        }
        let (mean, contrast) = mean_and_contrast(&at_most);
        let mut below = 0;
        for count in at_most.iter_mut() {
            below += *count;
            *count = below;
        }
        Self {
            pixels,
            at_most,
            contrast,
            mean,
        }
    }

    /// Share of the pixels at or below `level`.
    pub(crate) fn share_up_to(&self, level: u8) -> f32 {
        f32::from(self.at_most[usize::from(level)]) / SMALL_PIXELS as f32
    }

    /// The level that `share` (0 to 1) of the pixels do not exceed.
    pub(crate) fn level_at(&self, share: f32) -> u8 {
        let wanted = (share * SMALL_PIXELS as f32) as u16;
        self.at_most
            .partition_point(|&count| count < wanted)
            .min(255) as u8
    }
}

fn mean_and_contrast(counts: &[u16; 256]) -> (f32, f32) {
    let levels = || counts.iter().enumerate();
    let sum: u32 = levels().map(|(l, &c)| l as u32 * u32::from(c)).sum();
    let mean = sum as f32 / SMALL_PIXELS as f32;
    let away: f32 = levels()
        .map(|(level, &count)| (level as f32 - mean).abs() * f32::from(count))
        .sum();
    (mean, away / SMALL_PIXELS as f32)
}
