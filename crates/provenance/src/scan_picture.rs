//! Pictures out of a scan, and their grey.

use crate::ProvenanceError;

/// A colour picture out of a scan, with all that the scan shows beside the film's picture.
#[derive(Clone, PartialEq, Eq)]
pub struct ScanPicture {
    width: usize,
    height: usize,
    rgb: Vec<u8>,
}

impl ScanPicture {
    /// Takes rows from the top, three bytes a pixel: red, green, blue.
    ///
    /// # Errors
    /// [`ProvenanceError::PictureSize`] when it is smaller than 160 × 120 or larger than
    /// 8,192 pixels, or when the number of bytes is another.
    pub fn new(width: usize, height: usize, rgb: Vec<u8>) -> Result<Self, ProvenanceError> {
        let fits = (160..=8_192).contains(&width) && (120..=8_192).contains(&height);
        if !fits || width * height * 3 != rgb.len() {
            return Err(ProvenanceError::PictureSize {
                width,
                height,
                found: rgb.len(),
            });
        }
        Ok(Self { width, height, rgb })
    }

    /// Pixels across.
    #[must_use]
    pub fn width(&self) -> usize {
        self.width
    }

    /// Pixels down.
    #[must_use]
    pub fn height(&self) -> usize {
        self.height
    }

    /// The picture seen from the other side of the film.
    #[must_use]
    pub fn mirrored(&self) -> Self {
        let row = |row: &[u8]| {
            row.chunks_exact(3)
                .rev()
                .flatten()
                .copied()
                .collect::<Vec<u8>>()
        };
        Self {
            rgb: self
                .rgb
                .chunks_exact(self.width * 3)
                .flat_map(row)
                .collect(),
            ..*self
        }
    }

    /// Its bytes, row by row from the top left.
    #[must_use]
    pub fn bytes(&self) -> &[u8] {
        &self.rgb
    }

    /// The three levels of a pixel.
    pub(crate) fn rgb(&self, x: usize, y: usize) -> [f32; 3] {
        let at = (y * self.width + x) * 3;
        [0, 1, 2].map(|c| f32::from(self.rgb[at + c]))
    }

    /// Its grey, by the weights of BT.709.
    pub(crate) fn grey(&self) -> Grey {
        let grey = |p: &[u8]| {
            0.2126 * f32::from(p[0]) + 0.7152 * f32::from(p[1]) + 0.0722 * f32::from(p[2])
        };
        Grey {
            width: self.width,
            height: self.height,
            levels: self.rgb.chunks_exact(3).map(grey).collect(),
        }
    }
}

impl std::fmt::Debug for ScanPicture {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "ScanPicture({}×{})", self.width, self.height)
    }
}

/// A grey picture: 0 black to 255 white.
#[derive(Clone)]
pub(crate) struct Grey {
    pub(crate) width: usize,
    pub(crate) height: usize,
    pub(crate) levels: Vec<f32>,
}

impl Grey {
    pub(crate) fn at(&self, x: usize, y: usize) -> f32 {
        self.levels[y * self.width + x]
    }

    /// The level between pixels; outside, that of the nearest pixel.
    pub(crate) fn between(&self, x: f32, y: f32) -> f32 {
        let x = x.clamp(0.0, (self.width - 1) as f32);
        let y = y.clamp(0.0, (self.height - 1) as f32);
        let (x0, y0) = (
            (x as usize).min(self.width - 2),
            (y as usize).min(self.height - 2),
        );
        let (fx, fy) = (x - x0 as f32, y - y0 as f32);
        let row = &self.levels[y0 * self.width + x0..];
        let below = &self.levels[(y0 + 1) * self.width + x0..];
        let top = row[0] + (row[1] - row[0]) * fx;
        top + (below[0] + (below[1] - below[0]) * fx - top) * fy
    }

    /// Whether a place lies in the picture.
    pub(crate) fn holds(&self, x: f32, y: f32) -> bool {
        x >= 0.0 && y >= 0.0 && x <= (self.width - 1) as f32 && y <= (self.height - 1) as f32
    }

    /// The picture with every `by` × `by` pixels made one.
    pub(crate) fn reduced(&self, by: usize) -> Self {
        let (width, height) = (self.width / by, self.height / by);
        let mut levels = Vec::with_capacity(width * height);
        for y in 0..height {
            for x in 0..width {
                let rows = (y * by..(y + 1) * by)
                    .map(|row| &self.levels[row * self.width + x * by..][..by]);
                let sum: f32 = rows.map(|row| row.iter().sum::<f32>()).sum();
                levels.push(sum / (by * by) as f32);
            }
        }
        Self {
            width,
            height,
            levels,
        }
    }

    /// The picture softened by the mean over (2 × `radius` + 1)² pixels.
    pub(crate) fn softened(&self, radius: usize) -> Self {
        let across = self.softened_rows(radius).turned();
        across.softened_rows(radius).turned()
    }

    fn softened_rows(&self, radius: usize) -> Self {
        let mut levels = Vec::with_capacity(self.levels.len());
        for row in self.levels.chunks_exact(self.width) {
            let mut sums = vec![0.0_f64];
            sums.extend(row.iter().scan(0.0, |sum, &level| {
                *sum += f64::from(level);
                Some(*sum)
            }));
            for x in 0..self.width {
                let (from, to) = (x.saturating_sub(radius), (x + radius + 1).min(self.width));
                levels.push(((sums[to] - sums[from]) / (to - from) as f64) as f32);
            }
        }
        Self { levels, ..*self }
    }

    /// Rows made columns.
    fn turned(&self) -> Self {
        let mut levels = Vec::with_capacity(self.levels.len());
        for x in 0..self.width {
            levels.extend((0..self.height).map(|y| self.at(x, y)));
        }
        Self {
            width: self.height,
            height: self.width,
            levels,
        }
    }
}
