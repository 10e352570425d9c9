//! A grey picture of any size, and the light of any part of it.

use crate::ProofError;

/// A borrowed grey picture: rows from the top, a byte a pixel, no padding,
/// 0 black to 255 white.
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
    /// [`ProofError::PictureSize`] when a side is under 16 pixels or over 20,000, or
    /// when the number of bytes is not width × height.
    ///
    /// # Examples
    /// ```
    /// use onestrand_proof::GreyPicture;
    /// let grey = vec![128; 120 * 90];
    /// assert!(GreyPicture::new(120, 90, &grey).is_ok());
    /// assert!(GreyPicture::new(120, 91, &grey).is_err());
    /// ```
    pub fn new(width: usize, height: usize, levels: &'a [u8]) -> Result<Self, ProofError> {
        let fits = (16..=20_000).contains(&width) && (16..=20_000).contains(&height);
        if !fits || width * height != levels.len() {
            return Err(ProofError::PictureSize {
                width,
                height,
                found: levels.len(),
            });
        }
        Ok(Self {
            width,
            height,
            levels,
        })
    }

    /// Pixels across.
    #[must_use]
    pub fn width(self) -> usize {
        self.width
    }

    /// Pixels down.
    #[must_use]
    pub fn height(self) -> usize {
        self.height
    }

    /// The pixels, row by row from the top left.
    #[must_use]
    pub fn levels(self) -> &'a [u8] {
        self.levels
    }

    /// The light between pixels, `None` outside the picture.
    pub(crate) fn at(self, x: f32, y: f32) -> Option<f32> {
        let (w, h) = (self.width as f32, self.height as f32);
        if !(x >= 0.0 && y >= 0.0 && x <= w - 1.0 && y <= h - 1.0) {
            return None;
        }
        Some(self.within(x, y))
    }

    /// The light between pixels of a place that is known to be in the picture.
    #[inline]
    pub(crate) fn within(self, x: f32, y: f32) -> f32 {
        let (x0, y0) = (
            (x as usize).min(self.width - 2),
            (y as usize).min(self.height - 2),
        );
        let (fx, fy) = (x - x0 as f32, y - y0 as f32);
        let row = &self.levels[y0 * self.width + x0..];
        let below = &self.levels[(y0 + 1) * self.width + x0..];
        let top = f32::from(row[0]) * (1.0 - fx) + f32::from(row[1]) * fx;
        let bottom = f32::from(below[0]) * (1.0 - fx) + f32::from(below[1]) * fx;
        top * (1.0 - fy) + bottom * fy
    }

    /// The picture with every `by` × `by` pixels made one.
    pub(crate) fn reduced(self, by: usize) -> GreyOwned {
        let (width, height) = (self.width / by, self.height / by);
        let mut levels = Vec::with_capacity(width * height);
        for y in 0..height {
            for x in 0..width {
                let mut sum = 0_u32;
                for row in 0..by {
                    let from = (y * by + row) * self.width + x * by;
                    sum += self.levels[from..from + by]
                        .iter()
                        .map(|&v| u32::from(v))
                        .sum::<u32>();
                }
                levels.push((sum / (by * by) as u32) as u8);
            }
        }
        GreyOwned {
            width,
            height,
            levels,
        }
    }
}

impl std::fmt::Debug for GreyPicture<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "GreyPicture({}×{})", self.width, self.height)
    }
}

/// A grey picture with its own pixels.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct GreyOwned {
    pub(crate) width: usize,
    pub(crate) height: usize,
    pub(crate) levels: Vec<u8>,
}

impl GreyOwned {
    pub(crate) fn borrowed(&self) -> GreyPicture<'_> {
        GreyPicture {
            width: self.width,
            height: self.height,
            levels: &self.levels,
        }
    }
}

/// Sums of light over any upright rectangle, edges between pixels allowed.
#[derive(Debug, Clone)]
pub(crate) struct Sums {
    width: usize,
    height: usize,
    sums: Vec<f64>,
}

impl Sums {
    pub(crate) fn of(picture: GreyPicture<'_>) -> Self {
        let (width, height) = (picture.width, picture.height);
        let mut sums = vec![0.0; (width + 1) * (height + 1)];
        for y in 0..height {
            let mut row = 0.0;
            for x in 0..width {
                row += f64::from(picture.levels[y * width + x]);
                sums[(y + 1) * (width + 1) + x + 1] = sums[y * (width + 1) + x + 1] + row;
            }
        }
        Self {
            width,
            height,
            sums,
        }
    }

    fn up_to(&self, x: f32, y: f32) -> f64 {
        let x = f64::from(x.clamp(0.0, self.width as f32));
        let y = f64::from(y.clamp(0.0, self.height as f32));
        let (x0, y0) = (
            (x as usize).min(self.width - 1),
            (y as usize).min(self.height - 1),
        );
        let (fx, fy) = (x - x0 as f64, y - y0 as f64);
        let stride = self.width + 1;
        let s = |x: usize, y: usize| self.sums[y * stride + x];
        let top = s(x0, y0) * (1.0 - fx) + s(x0 + 1, y0) * fx;
        let bottom = s(x0, y0 + 1) * (1.0 - fx) + s(x0 + 1, y0 + 1) * fx;
        top * (1.0 - fy) + bottom * fy
    }

    /// Mean light of a part of the picture, left, top, right, bottom as shares of its
    /// sides, in so many cells across and down.
    pub(crate) fn cells(&self, part: [f32; 4], (across, down): (usize, usize)) -> Vec<f32> {
        let [left, top, right, bottom] = part;
        let (w, h) = (self.width as f32, self.height as f32);
        let x = |i: usize| (left + (right - left) * i as f32 / across as f32).clamp(0.0, 1.0) * w;
        let y = |i: usize| (top + (bottom - top) * i as f32 / down as f32).clamp(0.0, 1.0) * h;
        let row = |j: usize| {
            (0..=across)
                .map(|i| self.up_to(x(i), y(j)))
                .collect::<Vec<f64>>()
        };
        let mut cells = Vec::with_capacity(across * down);
        let mut above = row(0);
        for j in 0..down {
            let below = row(j + 1);
            for i in 0..across {
                let area = f64::from((x(i + 1) - x(i)) * (y(j + 1) - y(j)));
                let sum = below[i + 1] - below[i] - above[i + 1] + above[i];
                cells.push((sum / area.max(1e-6)) as f32);
            }
            above = below;
        }
        cells
    }
}
