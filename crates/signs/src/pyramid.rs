//! A plane made smaller three times over.

use onestrand_inspect::{PLANE_BYTES, PLANE_HEIGHT, PLANE_WIDTH, PlaneRef};

/// One of the smaller pictures: levels row by row.
#[derive(Debug, Clone)]
pub(crate) struct Small<const WIDTH: usize> {
    pub(crate) levels: Vec<u8>,
}

impl<const WIDTH: usize> Small<WIDTH> {
    /// Pixels across.
    pub(crate) const WIDTH: usize = WIDTH;
    /// Pixels down.
    pub(crate) const HEIGHT: usize = WIDTH * 3 / 4;

    /// Each pixel with its neighbours by the weights 1, 2, 1 both ways; the
    /// border stays as it is.
    fn smoothed(&self) -> Self {
        let mut levels = self.levels.clone();
        let mut column = [0_u16; WIDTH];
        for y in 1..Self::HEIGHT - 1 {
            let rows = &self.levels[(y - 1) * WIDTH..(y + 2) * WIDTH];
            let (up, rest) = rows.split_at(WIDTH);
            let (here, low) = rest.split_at(WIDTH);
            for (x, sum) in column.iter_mut().enumerate() {
                let ends = u16::from(up[x]).wrapping_add(u16::from(low[x]));
                *sum = ends.wrapping_add(u16::from(here[x]).wrapping_mul(2));
            }
            let out = &mut levels[y * WIDTH + 1..(y + 1) * WIDTH - 1];
            for (x, level) in out.iter_mut().enumerate() {
                let ends = column[x].wrapping_add(column[x + 2]);
                let sum = ends.wrapping_add(column[x + 1].wrapping_mul(2));
                *level = (sum.wrapping_add(8) / 16) as u8;
            }
        }
        Self { levels }
    }

    pub(crate) fn mean(&self) -> f32 {
        let sum: u32 = self.levels.iter().map(|&level| u32::from(level)).sum();
        sum as f32 / self.levels.len() as f32
    }
}

/// Half of a plane each way: 96×72.
pub(crate) type Half = Small<96>;
/// A quarter of a plane each way: 48×36.
pub(crate) type Quarter = Small<48>;
/// An eighth of a plane each way: 24×18.
pub(crate) type Eighth = Small<24>;

/// A frame at four sizes; the largest is the plane itself.
#[derive(Debug, Clone)]
pub(crate) struct Pyramid {
    pub(crate) plane: Box<[u8; PLANE_BYTES]>,
    /// The darkest and the lightest of each pixel and its eight neighbours.
    pub(crate) darkest: Vec<u8>,
    pub(crate) lightest: Vec<u8>,
    pub(crate) half: Half,
    pub(crate) quarter: Quarter,
    pub(crate) eighth: Eighth,
    /// Half and quarter without what is too fine for them, in whose place a
    /// movement of less than a pixel can be read.
    pub(crate) smooth_half: Half,
    pub(crate) smooth_quarter: Quarter,
}

impl Pyramid {
    pub(crate) fn of(plane: PlaneRef<'_>) -> Self {
        let half = Small {
            levels: halved(plane.bytes(), PLANE_WIDTH),
        };
        let quarter = Small {
            levels: halved(&half.levels, Half::WIDTH),
        };
        let eighth = Small {
            levels: halved(&quarter.levels, Quarter::WIDTH),
        };
        debug_assert_eq!(half.levels.len(), Half::WIDTH * PLANE_HEIGHT / 2);
        Self {
            plane: Box::new(*plane.bytes()),
            darkest: of_nine(plane.bytes(), u8::min),
            lightest: of_nine(plane.bytes(), u8::max),
            smooth_half: half.smoothed(),
            smooth_quarter: quarter.smoothed(),
            half,
            quarter,
            eighth,
        }
    }
}

/// Of each pixel and its eight neighbours the one that `pick` picks; pixels at
/// the border stay as they are.
fn of_nine(levels: &[u8; PLANE_BYTES], pick: impl Fn(u8, u8) -> u8) -> Vec<u8> {
    let mut out = levels.to_vec();
    let mut three = [0_u8; PLANE_WIDTH];
    for y in 1..PLANE_HEIGHT - 1 {
        let rows = &levels[(y - 1) * PLANE_WIDTH..(y + 2) * PLANE_WIDTH];
        let (up, rest) = rows.split_at(PLANE_WIDTH);
        let (here, low) = rest.split_at(PLANE_WIDTH);
        for (x, value) in three.iter_mut().enumerate() {
            *value = pick(pick(up[x], here[x]), low[x]);
        }
        let out = &mut out[y * PLANE_WIDTH + 1..(y + 1) * PLANE_WIDTH - 1];
        for (x, value) in out.iter_mut().enumerate() {
            *value = pick(pick(three[x], three[x + 1]), three[x + 2]);
        }
    }
    out
}

/// The mean of each two by two levels.
fn halved(levels: &[u8], width: usize) -> Vec<u8> {
    let mut small = vec![0; levels.len() / 4];
    let mut sums = [0_u16; PLANE_WIDTH];
    let rows = levels.chunks_exact(2 * width);
    for (rows, out) in rows.zip(small.chunks_exact_mut(width / 2)) {
        let (upper, lower) = rows.split_at(width);
        for ((sum, &u), &l) in sums.iter_mut().zip(upper).zip(lower) {
            *sum = u16::from(u) + u16::from(l);
        }
        for (level, pair) in out.iter_mut().zip(sums.chunks_exact(2)) {
            *level = (pair[0].wrapping_add(pair[1]).wrapping_add(2) / 4) as u8;
        }
    }
    small
}
