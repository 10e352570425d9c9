//! What one frame shows by itself and against the frame before.

use crate::plane::{PLANE_HEIGHT, PLANE_WIDTH, PlaneRef};
use crate::small::Small;

/// Measures of one film frame, taken from its plane.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[non_exhaustive]
pub struct FrameMeasures {
    /// Mean level. Range: 0 black to 255 white.
    pub mean: f32,
    /// Mean distance of the levels from their mean. Unit: levels.
    pub contrast: f32,
    /// Share of the picture at level 16 or below. Range: 0 to 1.
    pub black_share: f32,
    /// Share of the picture at level 243 or above. Range: 0 to 1.
    pub white_share: f32,
    /// Fine detail: mean absolute Laplacian of the plane (four neighbours).
    /// Unit: levels. Only frames of one set-up may be compared by it.
    pub sharpness: f32,
    /// How much of the picture is edges of things: mean absolute Laplacian of
    /// the plane at a quarter size (border left out), less what grain has
    /// there, over the contrast. No unit: stray light and clear film are below
    /// 0.1, pictures above, mostly at 0.3 to 1.
    pub edges: f32,
    /// Mean difference from the frame before, light evened out and the whole
    /// picture moved into place. Unit: levels; 0 for the first frame.
    pub change: f32,
    /// Movement of the whole picture since the frame before, to the right.
    /// Unit: thousandths of the picture's width, in steps of about 20: pans
    /// and jumps, not weave.
    pub moved_right: f32,
    /// The same downwards. Unit: thousandths of the picture's height.
    pub moved_down: f32,
}

impl FrameMeasures {
    /// What the frame shows by itself.
    pub(crate) fn alone(plane: PlaneRef<'_>, small: &Small) -> Self {
        Self {
            mean: small.mean,
            contrast: small.contrast,
            black_share: small.share_up_to(16),
            white_share: 1.0 - small.share_up_to(242),
            sharpness: sharpness(plane),
            ..Self::default()
        }
    }
}

/// Mean absolute Laplacian.
///
/// The additions are unchecked so that the compiler takes many pixels at once:
/// four levels fit in 16 bits, a row of Laplacians in 32.
fn sharpness(plane: PlaneRef<'_>) -> f32 {
    const INNER: usize = PLANE_WIDTH - 2;
    let rows: Vec<&[u8]> = plane.bytes().chunks_exact(PLANE_WIDTH).collect();
    let mut sum = 0_u32;
    for three in rows.windows(3) {
        let (up, down) = (&three[0][1..=INNER], &three[2][1..=INNER]);
        let (left, here, right) = (&three[1][..INNER], &three[1][1..=INNER], &three[1][2..]);
        let mut of_row = 0_u32;
        for x in 0..INNER {
            let level = |row: &[u8]| i16::from(row[x]);
            let across = level(left).wrapping_add(level(right));
            let along = level(up).wrapping_add(level(down));
            let bend = across
                .wrapping_add(along)
                .wrapping_sub(level(here).wrapping_mul(4));
            of_row = of_row.wrapping_add(u32::from(bend.unsigned_abs()));
        }
        sum += of_row;
    }
    sum as f32 / (INNER * (PLANE_HEIGHT - 2)) as f32
}
