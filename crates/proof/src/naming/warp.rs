//! Frames of a strip laid on the roll's more closely than an upright window lays them:
//! shifted, stretched and sheared, a little otherwise along the strip.

use super::query::Window;
use crate::grey::GreyOwned;
use crate::sketch::{FINE, INSIDE, Sketch};
use crate::strip::MARGIN;

/// Shift right and down, how much wider and higher, shear of x by y and of y by x.
/// Unit: shares of the picture's sides.
pub(crate) const WAYS: usize = 6;
/// Each of them in the middle of the strip, how much more at its end, and how much it
/// bows.
pub(crate) const TERMS: usize = 3;
/// Samples across and down a cell.
const SAMPLES: usize = 2;

/// How the frames of a strip lie in their patches.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Warp {
    of: [[f32; TERMS]; WAYS],
}

impl Warp {
    /// The same as a window, all along.
    pub(crate) fn of(window: Window) -> Self {
        let share = |hundredths: i16| f32::from(hundredths) / 100.0;
        let even = |first: f32| [first, 0.0, 0.0];
        Self {
            of: [
                even(share(window.right)),
                even(share(window.down)),
                even(share(window.wide) - 1.0),
                even(share(window.high) - 1.0),
                even(0.0),
                even(0.0),
            ],
        }
    }

    /// At a place along the strip, -1 at its one end and 1 at the other.
    pub(crate) fn at(&self, t: f32) -> [f32; WAYS] {
        self.of
            .map(|[even, along, bow]| even + t * (along + t * bow))
    }

    /// With so much added to each term of each way.
    pub(crate) fn moved(&self, by: &[f32; WAYS * TERMS], share: f32) -> Self {
        let mut moved = *self;
        for (term, by) in moved.of.iter_mut().flatten().zip(by) {
            *term += share * by;
        }
        moved
    }

    /// Its terms, way after way.
    pub(crate) fn terms(&self) -> impl Iterator<Item = f32> + '_ {
        self.of.iter().flatten().copied()
    }

    /// Whether any photograph of any scan would lie so.
    pub(crate) fn is_likely(&self) -> bool {
        [-1.0, 0.0, 1.0].into_iter().all(|t| {
            let [right, down, wide, high, lean, rise] = self.at(t);
            let near = |value: f32, far: f32| value.abs() <= far;
            near(right, 0.2)
                && near(down, 0.2)
                && near(wide, 0.26)
                && near(high, 0.26)
                && near(wide - high, 0.22)
                && near(lean, 0.2)
                && near(rise, 0.2)
        })
    }
}

/// The sketch of a patch whose picture lies so in it.
pub(crate) fn sketch(
    patch: &GreyOwned,
    [right, down, wide, high, lean, rise]: [f32; WAYS],
) -> Sketch {
    let (across, rows) = (FINE.0 * SAMPLES, FINE.1 * SAMPLES);
    let share = |at: usize, of: usize, low: f32, high: f32| {
        low - 0.5 + (high - low) * (at as f32 + 0.5) / of as f32
    };
    let (pw, ph) = (patch.width as f32, patch.height as f32);
    let picture = patch.borrowed();
    let mut cells = vec![0.0_f32; FINE.0 * FINE.1];
    // Pixels for one step along a row of samples.
    let step = (INSIDE[2] - INSIDE[0]) / across as f32 / MARGIN;
    let (step_x, step_y) = ((1.0 + wide) * step * pw, rise * step * ph);
    for row in 0..rows {
        let v = share(row, rows, INSIDE[1], INSIDE[3]);
        let u = share(0, across, INSIDE[0], INSIDE[2]);
        let x = (0.5 + (right + (1.0 + wide) * u + lean * v) / MARGIN) * pw - 0.5;
        let y = (0.5 + (down + (1.0 + high) * v + rise * u) / MARGIN) * ph - 0.5;
        let cells = &mut cells[row / SAMPLES * FINE.0..][..FINE.0];
        for column in 0..across {
            let px = (x + step_x * column as f32).clamp(0.0, pw - 1.0);
            let py = (y + step_y * column as f32).clamp(0.0, ph - 1.0);
            cells[column / SAMPLES] += picture.within(px, py);
        }
    }
    let per = 1.0 / (SAMPLES * SAMPLES) as f32;
    cells.iter_mut().for_each(|cell| *cell *= per);
    Sketch::of_lights(&cells)
}
