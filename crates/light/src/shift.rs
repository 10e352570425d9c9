//! How far a picture lies from the one before it.

use std::fmt;
use std::sync::Arc;

use rustfft::num_complex::Complex32;
use rustfft::{Fft, FftPlanner};

use crate::refine::{Fine, Refined, refine};
use crate::{GreyPicture, LightError};

/// A move of the whole picture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shift {
    /// To the right. Unit: pixels of the small picture.
    pub across: f64,
    /// Down. Unit: pixels of the small picture.
    pub down: f64,
    /// Share of the picture's texture that moves this way. Range: 0 to 1.
    pub agreement: f64,
}

/// Below this share nothing is said: too much moves in ways of its own, or there is
/// nothing to hold on to.
const LEAST_AGREEMENT: f64 = 0.35;
/// Furthest that is looked for, as a share of the width: a fast pan stays within it at
/// any speed film is shot at; farther is a cut.
const FURTHEST: f64 = 0.12;

/// Finds how far pictures lie from each other: by the phases of their waves to the pixel
/// (C. D. Kuglin and D. C. Hines, 1975), from there by least squares on what is left.
pub struct ShiftFinder {
    width: usize,
    height: usize,
    window: Vec<f32>,
    rows: [Arc<dyn Fft<f32>>; 2],
    columns: [Arc<dyn Fft<f32>>; 2],
    before: Option<Looked>,
}

impl fmt::Debug for ShiftFinder {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "ShiftFinder({} × {})", self.width, self.height)
    }
}

struct Looked {
    waves: Vec<Complex32>,
    fine: Fine,
}

impl ShiftFinder {
    /// For pictures of one size.
    #[must_use]
    pub fn new(width: usize, height: usize) -> Self {
        let mut planner = FftPlanner::new();
        let mut both = |size| {
            [
                planner.plan_fft_forward(size),
                planner.plan_fft_inverse(size),
            ]
        };
        let rows = both(width);
        let columns = both(height);
        let (across, down) = (hann(width), hann(height));
        let window = down
            .iter()
            .flat_map(|d| across.iter().map(move |a| a * d))
            .collect();
        Self {
            width,
            height,
            window,
            rows,
            columns,
            before: None,
        }
    }

    /// Looks at the next picture: how far it lies from the one looked at before; none for
    /// the first, and none where it cannot be told.
    ///
    /// # Errors
    /// [`LightError::PictureSize`] for one of another size.
    pub fn next(&mut self, picture: &GreyPicture) -> Result<Option<Shift>, LightError> {
        if (picture.width(), picture.height()) != (self.width, self.height) {
            return Err(LightError::PictureSize {
                found: picture.grey().len(),
                needed: self.width * self.height,
            });
        }
        let looked = Looked {
            waves: self.waves(picture.grey()),
            fine: Fine::of(picture),
        };
        let shift = self
            .before
            .as_ref()
            .and_then(|before| self.between(before, &looked));
        self.before = Some(looked);
        Ok(shift)
    }

    /// Forgets the picture looked at before, as at a cut.
    pub fn forget(&mut self) {
        self.before = None;
    }

    fn between(&self, before: &Looked, after: &Looked) -> Option<Shift> {
        let (across, down) = self.coarse(&before.waves, &after.waves);
        // Where the picture hardly moved, the phases of grain that stands still in the
        // scanner may win; standing still is asked too, and the better of both taken.
        let starts = [(across, down), (0.0, 0.0)];
        let best = starts
            .into_iter()
            .filter_map(|start| refine(&before.fine, &after.fine, start))
            .min_by(|a, b| a.left.total_cmp(&b.left))?;
        let Refined {
            across,
            down,
            agreement,
            ..
        } = best;
        let furthest = FURTHEST * self.width as f64 + 1.0;
        let is_near = across.abs().max(down.abs()) <= furthest;
        (is_near && agreement >= LEAST_AGREEMENT).then_some(Shift {
            across,
            down,
            agreement,
        })
    }

    fn waves(&self, grey: &[u8]) -> Vec<Complex32> {
        let mean = grey.iter().map(|g| f32::from(*g)).sum::<f32>() / grey.len() as f32;
        let mut waves: Vec<Complex32> = grey
            .iter()
            .zip(&self.window)
            .map(|(g, w)| Complex32::new((f32::from(*g) - mean) * w, 0.0))
            .collect();
        self.transform(&mut waves, 0);
        waves
    }

    /// Rows, then columns; `way` 0 is there, 1 is back.
    fn transform(&self, waves: &mut Vec<Complex32>, way: usize) {
        self.rows[way].process(waves);
        let mut turned = turn(waves, self.width, self.height);
        self.columns[way].process(&mut turned);
        *waves = turn(&turned, self.height, self.width);
    }

    /// The whole pixels by which most of the waves are shifted.
    fn coarse(&self, before: &[Complex32], after: &[Complex32]) -> (f64, f64) {
        let mut cross: Vec<Complex32> = before
            .iter()
            .zip(after)
            .map(|(a, b)| {
                let product = b * a.conj();
                // Between plain and fully whitened: fine waves are mostly grain.
                product / (product.norm() + 1e-6).sqrt()
            })
            .collect();
        self.transform(&mut cross, 1);
        let reach = ((FURTHEST * self.width as f64) as usize).min(self.width / 2 - 1);
        let reach_down = reach.min(self.height / 2 - 1);
        let (mut best, mut found) = (f32::MIN, (0.0, 0.0));
        for (at, value) in cross.iter().enumerate() {
            let across = signed(at % self.width, self.width);
            let down = signed(at / self.width, self.height);
            let is_near = across.unsigned_abs() <= reach && down.unsigned_abs() <= reach_down;
            if is_near && value.re > best {
                best = value.re;
                found = (across as f64, down as f64);
            }
        }
        found
    }
}

fn signed(at: usize, size: usize) -> isize {
    let at = at as isize;
    if at > size as isize / 2 {
        at - size as isize
    } else {
        at
    }
}

fn turn(values: &[Complex32], width: usize, height: usize) -> Vec<Complex32> {
    let mut out = Vec::with_capacity(values.len());
    for x in 0..width {
        out.extend((0..height).map(|y| values[y * width + x]));
    }
    out
}

/// The raised cosine, so that edges do not count as content.
fn hann(size: usize) -> Vec<f32> {
    let turn = std::f32::consts::TAU / size as f32;
    (0..size)
        .map(|n| 0.5 - 0.5 * ((n as f32 + 0.5) * turn).cos())
        .collect()
}
