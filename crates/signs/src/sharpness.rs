//! How sharp the edges of a frame are, grain and movement left out.

use onestrand_inspect::{PLANE_HEIGHT, PLANE_WIDTH};

/// Pixels along each side of a block.
const BLOCK: usize = 16;
const ACROSS: usize = PLANE_WIDTH / BLOCK;
const DOWN: usize = PLANE_HEIGHT / BLOCK;
/// Pixels of a block that have neighbours on all sides, on the mean.
const PIXELS: f32 = (BLOCK * BLOCK) as f32;
/// Least mean squared slope of a block with an edge. Unit: levels, as the
/// Sobel kernel gives them (eight times the slope), squared.
const EDGE: f32 = 2_500.0;
/// An edge stands out of the grain by this much.
const OUT_OF_GRAIN: f32 = 6.0;
/// Blocks that must have edges for a frame to be judged.
const LEAST_BLOCKS: usize = 3;
/// Of all blocks, the smoothest share: what they have is grain.
const SMOOTHEST: f32 = 0.12;

/// Sharpness of edges that stand upright, and of those that lie. No unit: the
/// squared bend of the light over its squared slope, which is larger the
/// narrower edges are, whatever their height. NaN where there are none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Sharpness {
    pub(crate) across: Edges,
    pub(crate) along: Edges,
}

/// The edges of one way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Edges {
    pub(crate) sharp: f32,
    /// Blocks that have some.
    pub(crate) blocks: u8,
}

impl Edges {
    /// Where nothing is known.
    pub(crate) const NONE: Self = Self {
        sharp: f32::NAN,
        blocks: 0,
    };
}

/// Sums over one block, of squares one way.
#[derive(Debug, Clone, Copy, Default)]
struct Way {
    slope: f32,
    bend: f32,
}

/// Measures a plane.
///
/// The kernels are those of Tenengrad (Sobel; Tenenbaum 1970) and, one way at
/// a time, of the Laplacian (Pech-Pacheco 2000), smoothed the other way alike.
pub(crate) fn sharpness(plane: &[u8]) -> Sharpness {
    let mut across = [[Way::default(); ACROSS]; DOWN];
    let mut along = [[Way::default(); ACROSS]; DOWN];
    let mut row_sums = RowSums::new();
    // The gate and the frame line are no part of the picture.
    for y in BLOCK / 2..PLANE_HEIGHT - BLOCK / 2 {
        row_sums.take(plane, y);
        for block in 0..ACROSS {
            row_sums.add(
                block,
                &mut across[y / BLOCK][block],
                &mut along[y / BLOCK][block],
            );
        }
    }
    Sharpness {
        across: of_edges(across.as_flattened()),
        along: of_edges(along.as_flattened()),
    }
}

/// What the blocks with edges have, once grain is taken out.
fn of_edges(blocks: &[Way]) -> Edges {
    let mut bends: Vec<f32> = blocks.iter().map(|way| way.bend).collect();
    bends.sort_by(f32::total_cmp);
    let grain = bends[(SMOOTHEST * bends.len() as f32) as usize] * 1.1;
    // White noise gives a slope a third of the square it gives a bend.
    let grain_slope = grain / 3.0;
    let edges = |way: &&Way| way.slope > EDGE * PIXELS && way.slope > OUT_OF_GRAIN * grain_slope;
    let mut found: Vec<f32> = blocks
        .iter()
        .filter(edges)
        .map(|way| (way.bend - grain).max(0.0) / (way.slope - grain_slope))
        .collect();
    if found.len() < LEAST_BLOCKS {
        return Edges::NONE;
    }
    // Figures that move and things out of the depth of field are softer than
    // what the lens is set to; corners and fine patterns bend more than edges.
    found.sort_by(f32::total_cmp);
    Edges {
        sharp: found[found.len() * 6 / 10],
        blocks: found.len() as u8,
    }
}

/// Slopes and bends of one row of pixels, as the kernels give them: at most
/// eight times 255 either way.
struct RowSums {
    slope_across: [i16; PLANE_WIDTH],
    bend_across: [i16; PLANE_WIDTH],
    slope_along: [i16; PLANE_WIDTH],
    bend_along: [i16; PLANE_WIDTH],
}

impl RowSums {
    fn new() -> Self {
        Self {
            slope_across: [0; PLANE_WIDTH],
            bend_across: [0; PLANE_WIDTH],
            slope_along: [0; PLANE_WIDTH],
            bend_along: [0; PLANE_WIDTH],
        }
    }

    fn take(&mut self, plane: &[u8], y: usize) {
        let row = |y: usize| -> &[u8] { &plane[y * PLANE_WIDTH..][..PLANE_WIDTH] };
        let (up, here, low) = (row(y - 1), row(y), row(y + 1));
        let mut smooth = [0_i16; PLANE_WIDTH];
        let mut slope = [0_i16; PLANE_WIDTH];
        let mut bend = [0_i16; PLANE_WIDTH];
        for x in 0..PLANE_WIDTH {
            let (u, h, l) = (i16::from(up[x]), i16::from(here[x]), i16::from(low[x]));
            let ends = u.wrapping_add(l);
            smooth[x] = ends.wrapping_add(h.wrapping_mul(2));
            slope[x] = l.wrapping_sub(u);
            bend[x] = ends.wrapping_sub(h.wrapping_mul(2));
        }
        let three = |of: &[i16; PLANE_WIDTH], x: usize| {
            let ends = of[x - 1].wrapping_add(of[x + 1]);
            ends.wrapping_add(of[x].wrapping_mul(2))
        };
        for x in 1..PLANE_WIDTH - 1 {
            let (w, m, e) = (smooth[x - 1], smooth[x], smooth[x + 1]);
            self.slope_across[x] = e.wrapping_sub(w);
            self.bend_across[x] = e.wrapping_add(w).wrapping_sub(m.wrapping_mul(2));
            self.slope_along[x] = three(&slope, x);
            self.bend_along[x] = three(&bend, x);
        }
        // The sides of the gate.
        for x in [1, 2, 3, PLANE_WIDTH - 4, PLANE_WIDTH - 3, PLANE_WIDTH - 2] {
            self.slope_across[x] = 0;
            self.bend_across[x] = 0;
            self.slope_along[x] = 0;
            self.bend_along[x] = 0;
        }
    }

    /// Adds the squares of a block's part of the row.
    fn add(&self, block: usize, across: &mut Way, along: &mut Way) {
        let squares = |of: &[i16; PLANE_WIDTH]| -> f32 {
            let part = &of[block * BLOCK..][..BLOCK];
            let sum = part.iter().fold(0_i32, |sum, &value| {
                sum.wrapping_add(i32::from(value).wrapping_mul(i32::from(value)))
            });
            sum as f32
        };
        across.slope += squares(&self.slope_across);
        across.bend += squares(&self.bend_across);
        along.slope += squares(&self.slope_along);
        along.bend += squares(&self.bend_along);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use onestrand_inspect::PLANE_BYTES;

    /// Squared slope and squared bend of one row of levels, as a plane of such
    /// rows has them.
    fn of_row(levels: [u8; 8]) -> (f32, f32) {
        let mut plane = vec![levels[7]; PLANE_BYTES];
        for row in plane.chunks_exact_mut(PLANE_WIDTH) {
            row[..16].fill(levels[0]);
            row[16..24].copy_from_slice(&levels);
        }
        let mut sums = RowSums::new();
        sums.take(&plane, 20);
        let (mut across, mut along) = (Way::default(), Way::default());
        sums.add(1, &mut across, &mut along);
        assert!(along.slope < 0.5 && along.bend < 0.5);
        (across.slope, across.bend)
    }

    /// Rows R032 and R033 of the check values: a step of 255, and the same over
    /// four pixels. The Tenengrad of 8 columns is 260,100 and 113,793.75; the
    /// Laplacian is smoothed over three rows here, which makes it 4 times as
    /// large and its square 16 times: 16,256.25 and 1,015.6 in the table.
    #[test]
    fn steps_have_the_tenengrad_and_the_laplacian_of_the_table() {
        let (slope, bend) = of_row([0, 0, 0, 0, 255, 255, 255, 255]);
        assert!((slope / 8.0 - 260_100.0).abs() < 1.0, "{slope}");
        assert!((bend / 8.0 / 16.0 - 16_256.25).abs() < 1.0, "{bend}");
        let (slope, bend) = of_row([0, 0, 0, 64, 128, 191, 255, 255]);
        assert!((slope / 8.0 - 113_793.75).abs() < 600.0, "{slope}");
        assert!((bend / 8.0 / 16.0 - 1_016.0).abs() < 20.0, "{bend}");
    }
}
