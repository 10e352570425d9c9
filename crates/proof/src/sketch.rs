//! What a frame is known again by: where it is lighter and darker than around.

use crate::grey::{GreyPicture, Sums};

/// Cells across and down of the fine sketch.
pub(crate) const FINE: (usize, usize) = (32, 24);
/// Cells of the fine sketch.
pub(crate) const FINE_CELLS: usize = FINE.0 * FINE.1;
/// Cells of the middle sketch, 16 × 12.
pub(crate) const MIDDLE_CELLS: usize = FINE_CELLS / 4;
/// Cells of the coarse sketch, 8 × 6.
pub(crate) const COARSE_CELLS: usize = FINE_CELLS / 16;

/// Steps of a cell for one standard deviation.
pub(crate) const STEPS: f32 = 40.0;
/// Added before the logarithm, so that the noise of black does not count.
const BLACK: f32 = 24.0;
/// Half the window of the mean that is taken off, cells across and down.
const AROUND: (usize, usize) = (7, 6);
/// Below this standard deviation of the logarithm nothing is seen in a frame: it is
/// leader, fog or black.
const BLANK: f32 = 0.035;

/// How far pictures weave in a gate, each way. Unit: cells of the fine sketch, a
/// thirty-second of a picture's width.
const WEAVE: f32 = 0.6;

/// The part of a frame that is looked at: the gate with its hair, and what a scanner
/// shows beside the picture, stay outside. Left, top, right, bottom as shares.
pub(crate) const INSIDE: [f32; 4] = [0.06, 0.07, 0.94, 0.93];

/// Where a frame is lighter and where darker than its surroundings, in 32 × 24 cells
/// of the logarithm of its light, independent of exposure and contrast.
#[derive(Debug, Clone, PartialEq)]
pub struct Sketch {
    /// Standard deviation of the logarithm before it was made one.
    pub(crate) strength: f32,
    pub(crate) fine: Vec<i8>,
}

impl Sketch {
    /// Looks at a frame, frame line to frame line.
    ///
    /// # Examples
    /// ```
    /// use onestrand_proof::{GreyPicture, Sketch};
    /// let bars: Vec<u8> = (0..96 * 72).map(|i| if i % 24 < 12 { 40 } else { 200 }).collect();
    /// let dark: Vec<u8> = bars.iter().map(|v| v / 2).collect();
    /// let bars = Sketch::of(GreyPicture::new(96, 72, &bars)?);
    /// let dark = Sketch::of(GreyPicture::new(96, 72, &dark)?);
    /// assert!(bars.likeness(&dark) > 0.99);
    /// # Ok::<(), onestrand_proof::ProofError>(())
    /// ```
    #[must_use]
    pub fn of(frame: GreyPicture<'_>) -> Self {
        Self::of_part(&Sums::of(frame), INSIDE)
    }

    /// Looks at a part of a picture: left, top, right, bottom as shares of its sides.
    pub(crate) fn of_part(sums: &Sums, part: [f32; 4]) -> Self {
        Self::of_lights(&sums.cells(part, FINE))
    }

    /// By the mean light of each cell of the fine sketch.
    pub(crate) fn of_lights(lights: &[f32]) -> Self {
        let mut cells = [0.0_f32; FINE_CELLS];
        for (cell, light) in cells.iter_mut().zip(lights) {
            *cell = (light + BLACK).ln();
        }
        Self::of_cells(&without_surroundings(&cells))
    }

    fn of_cells(cells: &[f32; FINE_CELLS]) -> Self {
        let square: f32 = cells.iter().map(|v| v * v).sum();
        let strength = (square / FINE_CELLS as f32).sqrt();
        let scale = STEPS / strength.max(BLANK);
        let step = |v: &f32| (v * scale).clamp(-120.0, 120.0).round() as i8;
        Self {
            strength,
            fine: cells.iter().map(step).collect(),
        }
    }

    /// What stands for a frame that has no picture.
    pub(crate) fn of_nothing() -> Self {
        Self {
            strength: 0.0,
            fine: vec![0; FINE_CELLS],
        }
    }

    /// Nothing is seen in it by which it could be known again.
    #[must_use]
    pub fn is_blank(&self) -> bool {
        self.strength < BLANK
    }

    /// How like two frames are. Range: -1 to 1, 1 the same but for exposure and
    /// contrast; 0 where nothing is seen in one of them.
    #[must_use]
    pub fn likeness(&self, other: &Self) -> f32 {
        likeness(&self.fine, &other.fine)
    }

    /// Every four cells made one: 16 × 12.
    pub(crate) fn middle(&self) -> Vec<i8> {
        halved(&self.fine, FINE.0)
    }

    /// Every sixteen cells made one: 8 × 6.
    pub(crate) fn coarse(&self) -> Vec<i8> {
        halved(&self.middle(), FINE.0 / 2)
    }
}

/// The likeness of two sketches of one fineness.
pub(crate) fn likeness(one: &[i8], other: &[i8]) -> f32 {
    let (ab, aa, bb) = (dot(one, other), dot(one, one), dot(other, other));
    if aa == 0 || bb == 0 {
        return 0.0;
    }
    ab as f32 / ((aa as f32) * (bb as f32)).sqrt()
}

/// The likeness of two fine sketches when the one may be shifted a little, as pictures
/// weave in a gate: up to [`WEAVE`] cells each way.
///
/// To the first order a shift adds the slopes of the picture; what they explain is taken
/// off what is left between the two.
pub(crate) fn likeness_woven(one: &[i8], other: &[i8]) -> f32 {
    let plain = likeness(one, other);
    if plain < 0.5 {
        return plain;
    }
    let scale = (dot(other, other) as f32 / dot(one, one) as f32).sqrt();
    let (wide, high) = FINE;
    let (mut xx, mut xy, mut yy, mut rx, mut ry) = (0.0_f32, 0.0, 0.0, 0.0, 0.0);
    for y in 1..high - 1 {
        let row = |y: usize| &other[y * wide..(y + 1) * wide];
        let (above, here, below) = (row(y - 1), row(y), row(y + 1));
        let seen = &one[y * wide..(y + 1) * wide];
        for x in 1..wide - 1 {
            let slope = |low: i8, high: i8| 0.5 * (f32::from(high) - f32::from(low));
            let (gx, gy) = (slope(here[x - 1], here[x + 1]), slope(above[x], below[x]));
            let left = scale * f32::from(seen[x]) - f32::from(here[x]);
            xx += gx * gx;
            xy += gx * gy;
            yy += gy * gy;
            rx += left * gx;
            ry += left * gy;
        }
    }
    let whole = xx * yy - xy * xy;
    if whole <= 1e-3 * xx * yy {
        return plain;
    }
    let near = |cells: f32| cells.clamp(-WEAVE, WEAVE);
    let (dx, dy) = (
        near((rx * yy - ry * xy) / whole),
        near((ry * xx - rx * xy) / whole),
    );
    let explained = 2.0 * (dx * rx + dy * ry) - dx * dx * xx - 2.0 * dx * dy * xy - dy * dy * yy;
    let gained = explained.max(0.0) / (2.0 * dot(other, other) as f32);
    (plain + gained).min(1.0)
}

/// The sum of products, written so that it is reckoned in many lanes at once.
pub(crate) fn dot(one: &[i8], other: &[i8]) -> i32 {
    let mut sums = [0_i32; 16];
    let (a, b) = (one.chunks_exact(16), other.chunks_exact(16));
    for (a, b) in a.zip(b) {
        for lane in 0..16 {
            sums[lane] += i32::from(i16::from(a[lane]) * i16::from(b[lane]));
        }
    }
    sums.iter().sum()
}

/// Mean of every 2 × 2 cells, made as strong again as the fine sketch.
fn halved(cells: &[i8], wide: usize) -> Vec<i8> {
    let high = cells.len() / wide;
    let mut means = Vec::with_capacity(cells.len() / 4);
    for y in (0..high).step_by(2) {
        for x in (0..wide).step_by(2) {
            let at = y * wide + x;
            let four = [at, at + 1, at + wide, at + wide + 1];
            means.push(four.iter().map(|&i| f32::from(cells[i])).sum::<f32>());
        }
    }
    let square: f32 = means.iter().map(|v| v * v).sum();
    let strength = (square / means.len() as f32).sqrt().max(STEPS / 2.0);
    let step = |v: &f32| (v / strength * STEPS).clamp(-120.0, 120.0).round() as i8;
    means.iter().map(step).collect()
}

/// Takes the mean of the surroundings off each cell.
fn without_surroundings(cells: &[f32; FINE_CELLS]) -> [f32; FINE_CELLS] {
    let (wide, high) = FINE;
    let mut sums = vec![0.0_f64; (wide + 1) * (high + 1)];
    for y in 0..high {
        let mut row = 0.0;
        for x in 0..wide {
            row += f64::from(cells[y * wide + x]);
            sums[(y + 1) * (wide + 1) + x + 1] = sums[y * (wide + 1) + x + 1] + row;
        }
    }
    let mut left = [0.0; FINE_CELLS];
    for (at, cell) in left.iter_mut().enumerate() {
        let (x, y) = (at % wide, at / wide);
        let (x0, x1) = (x.saturating_sub(AROUND.0), (x + AROUND.0 + 1).min(wide));
        let (y0, y1) = (y.saturating_sub(AROUND.1), (y + AROUND.1 + 1).min(high));
        let s = |x: usize, y: usize| sums[y * (wide + 1) + x];
        let sum = s(x1, y1) - s(x0, y1) - s(x1, y0) + s(x0, y0);
        *cell = cells[at] - (sum / ((x1 - x0) * (y1 - y0)) as f64) as f32;
    }
    left
}
