//! A grey picture of any small size, and its light in cells.

use crate::TwinsError;

/// Cells across, for every take: enough that a quarter of the width still has
/// twelve, when a closer size shows no more of the view than that.
pub(crate) const CELLS_WIDE: usize = 48;
/// Cells down.
pub(crate) const CELLS_HIGH: usize = 36;
/// Cells of a picture.
pub(crate) const CELLS: usize = CELLS_WIDE * CELLS_HIGH;
/// Light is kept as so many steps for each natural logarithm.
pub(crate) const STEPS: f32 = 4096.0;

/// Share of the sides left out at each edge: the gate, its hair, and what a
/// scanner shows beside the picture.
const EDGE: f32 = 0.05;
/// Added before the logarithm, so that the noise of black does not count as light.
const BLACK: f32 = 8.0;

/// A borrowed grey picture: rows from the top, a byte a pixel, no padding.
///
/// Any size from 48×36 up will do; a quarter of a workprint's picture or the
/// plane of a reading are meant. All pictures of a take have one size.
#[derive(Clone, Copy)]
pub struct GreyPicture<'a> {
    width: usize,
    height: usize,
    levels: &'a [u8],
}

impl<'a> GreyPicture<'a> {
    /// Takes bytes as a picture without copying them.
    ///
    /// # Errors
    /// [`TwinsError::PictureSize`] when it is smaller than 48×36, or when the
    /// number of bytes is not width × height.
    ///
    /// # Examples
    /// ```
    /// use onestrand_twins::GreyPicture;
    /// let grey = vec![128; 120 * 90];
    /// assert!(GreyPicture::new(120, 90, &grey).is_ok());
    /// assert!(GreyPicture::new(120, 91, &grey).is_err());
    /// ```
    pub fn new(width: usize, height: usize, levels: &'a [u8]) -> Result<Self, TwinsError> {
        let large = width >= CELLS_WIDE && height >= CELLS_HIGH;
        if !large || width.checked_mul(height) != Some(levels.len()) {
            let found = levels.len();
            return Err(TwinsError::PictureSize {
                width,
                height,
                found,
            });
        }
        Ok(Self {
            width,
            height,
            levels,
        })
    }

    pub(crate) fn size(self) -> (usize, usize) {
        (self.width, self.height)
    }
}

impl std::fmt::Debug for GreyPicture<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "GreyPicture({}×{})", self.width, self.height)
    }
}

/// What falls into the cells along one side of the picture.
#[derive(Debug, Clone)]
struct Side(Vec<(usize, Vec<f32>)>);

impl Side {
    /// The inside of a side of so many pixels, in so many equal parts; a pixel
    /// that two parts share counts in each by its share.
    fn new(pixels: usize, parts: usize) -> Self {
        let inside = pixels as f32 * (1.0 - 2.0 * EDGE);
        let at = |part: usize| pixels as f32 * EDGE + inside * part as f32 / parts as f32;
        let part = |n: usize| {
            let (from, until) = (at(n), at(n + 1).min(pixels as f32));
            let first = from.floor() as usize;
            let last = (until.ceil() as usize).min(pixels);
            let share = |p: usize| (until.min(p as f32 + 1.0) - from.max(p as f32)).max(0.0);
            let weights: Vec<f32> = (first..last).map(|p| share(p) / (until - from)).collect();
            (first, weights)
        };
        Self((0..parts).map(part).collect())
    }
}

/// Makes cells of pictures of one size.
#[derive(Debug, Clone)]
pub(crate) struct CellGrid {
    pub(crate) size: (usize, usize),
    across: Side,
    down: Side,
}

impl CellGrid {
    pub(crate) fn new(size: (usize, usize)) -> Self {
        Self {
            size,
            across: Side::new(size.0, CELLS_WIDE),
            down: Side::new(size.1, CELLS_HIGH),
        }
    }

    /// The logarithm of the mean light of each cell: a change of exposure adds
    /// the same to all of them.
    pub(crate) fn log_light(&self, picture: GreyPicture<'_>) -> Vec<i16> {
        let mut cells = Vec::with_capacity(CELLS);
        let mut row = vec![0.0_f32; picture.width];
        for (top, weights) in &self.down.0 {
            row.fill(0.0);
            for (n, weight) in weights.iter().enumerate() {
                let line = &picture.levels[(top + n) * picture.width..][..picture.width];
                for (sum, &level) in row.iter_mut().zip(line) {
                    *sum += weight * f32::from(level);
                }
            }
            cells.extend(self.across.0.iter().map(|(left, weights)| {
                let line = &row[*left..][..weights.len()];
                let mean: f32 = line.iter().zip(weights).map(|(l, w)| l * w).sum();
                (STEPS * (mean + BLACK).ln()).round() as i16
            }));
        }
        cells
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_size_gives_the_same_cells_of_the_same_view() {
        let view = |w: usize, h: usize| -> Vec<u8> {
            (0..w * h)
                .map(|at| {
                    let (x, y) = ((at % w) as f32 / w as f32, (at / w) as f32 / h as f32);
                    (140.0 + 50.0 * (7.0 * x).sin() + 30.0 * (5.0 * y).cos()) as u8
                })
                .collect()
        };
        let cells = |w: usize, h: usize| {
            let levels = view(w, h);
            let picture = GreyPicture::new(w, h, &levels).expect("a picture");
            CellGrid::new((w, h)).log_light(picture)
        };
        let reference = cells(480, 360);
        for (w, h) in [(192, 144), (120, 90), (161, 121)] {
            let found = cells(w, h);
            let worst = found.iter().zip(&reference).map(|(a, b)| (a - b).abs());
            // A hundredth of the light of a cell.
            assert!(worst.max() < Some(80), "{w}×{h}");
        }
    }

    #[test]
    fn twice_the_light_adds_the_same_everywhere() {
        let levels: Vec<u8> = (0..96 * 72).map(|at| 60 + (at % 50) as u8).collect();
        let twice: Vec<u8> = levels.iter().map(|l| 2 * l + 8).collect();
        let grid = CellGrid::new((96, 72));
        let cells = |levels: &[u8]| grid.log_light(GreyPicture::new(96, 72, levels).expect("one"));
        let (once, twice) = (cells(&levels), cells(&twice));
        let gained = once.iter().zip(&twice).map(|(a, b)| b - a);
        let two = (STEPS * 2_f32.ln()) as i16;
        assert!(gained.clone().all(|g| (g - two).abs() < 4), "{gained:?}");
    }
}
