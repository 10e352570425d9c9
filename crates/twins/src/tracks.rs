//! What moves in a window of a take, frame by frame, in a form that two takes share.

use crate::framing::Window;
use crate::likeness::CHANCE;
use crate::movement::TakeMovement;
use crate::picture::{CELLS_HIGH, CELLS_WIDE};

/// A window is laid out in so many fields across: a limb or a wheel fills some,
/// and an eighth of the width off in framing does no harm.
pub(crate) const FIELDS_WIDE: usize = 8;
/// Fields down.
pub(crate) const FIELDS_HIGH: usize = 6;
/// Fields of a window.
pub(crate) const FIELDS: usize = FIELDS_WIDE * FIELDS_HIGH;

/// One number a field.
pub(crate) type Fields = [f32; FIELDS];

/// The light of a window in fields, frame by frame.
pub(crate) struct WindowLight {
    light: Vec<Fields>,
    /// Square of what grain does to a field.
    noise: f32,
}

/// The share of each cell along one side in one field.
fn shares(from: f32, share: f32, cells: usize, fields: usize) -> Vec<(usize, Vec<f32>)> {
    let at = |n: usize| cells as f32 * (from + share * n as f32 / fields as f32);
    let field = |n: usize| {
        let (begin, end) = (at(n), at(n + 1).min(cells as f32));
        let (first, last) = (begin.floor() as usize, (end.ceil() as usize).min(cells));
        let first = first.min(last.saturating_sub(1));
        let part = |c: usize| (end.min(c as f32 + 1.0) - begin.max(c as f32)).max(0.0);
        let width = (end - begin).max(1e-3);
        (first, (first..last).map(|c| part(c) / width).collect())
    };
    (0..fields).map(field).collect()
}

impl WindowLight {
    /// Every `stride`th frame of a take.
    pub(crate) fn of(take: &TakeMovement, window: Window, stride: usize) -> Self {
        let across = shares(window.left, window.share, CELLS_WIDE, FIELDS_WIDE);
        let down = shares(window.top, window.share, CELLS_HIGH, FIELDS_HIGH);
        let frames = (0..take.frames()).step_by(stride);
        let light = frames.map(|frame| fields_of(take.cells(frame), &across, &down));
        // Grain of neighbouring cells goes together by half.
        let cells = (0.5 * window.cells() / FIELDS as f32).max(1.0);
        Self {
            light: light.collect(),
            noise: take.noise() * take.noise() / cells,
        }
    }

    /// How the light of each field changes over `reach` frames before and after,
    /// without what changes everywhere: exposure and flicker.
    pub(crate) fn changes(&self, reach: usize) -> Track {
        let noise = 2.0 * self.noise * FIELDS as f32;
        Track::new(self.change(reach), noise)
    }

    /// How much of it all is more than grain, frame by frame. Unit: as the cells.
    pub(crate) fn lengths_of_change(&self, reach: usize) -> Vec<f32> {
        let noise = 2.0 * self.noise * FIELDS as f32;
        let square = |fields: &Fields| fields.iter().map(|f| f * f).sum::<f32>();
        let over = |fields: &Fields| (square(fields) - noise).max(0.0).sqrt();
        self.change(reach).iter().map(over).collect()
    }

    fn change(&self, reach: usize) -> Vec<Fields> {
        let last = self.light.len() - 1;
        let at = |frame: usize| {
            let (from, to) = (frame.saturating_sub(reach), (frame + reach).min(last));
            let mut change = [0.0; FIELDS];
            for ((change, a), b) in change
                .iter_mut()
                .zip(&self.light[from])
                .zip(&self.light[to])
            {
                *change = b - a;
            }
            let middle = median(change);
            change.map(|c| c - middle)
        };
        (0..=last).map(at).collect()
    }
}

fn fields_of(cells: &[i16], across: &[(usize, Vec<f32>)], down: &[(usize, Vec<f32>)]) -> Fields {
    let mut fields = [0.0; FIELDS];
    for (row, (top, weights)) in fields.chunks_exact_mut(FIELDS_WIDE).zip(down) {
        let mut line = [0.0_f32; CELLS_WIDE];
        for (n, weight) in weights.iter().enumerate() {
            let cells = &cells[(top + n) * CELLS_WIDE..][..CELLS_WIDE];
            for (sum, &cell) in line.iter_mut().zip(cells) {
                *sum += weight * f32::from(cell);
            }
        }
        for (field, (left, weights)) in row.iter_mut().zip(across) {
            let line = &line[*left..][..weights.len()];
            *field = line.iter().zip(weights).map(|(l, w)| l * w).sum();
        }
    }
    fields
}

fn median(mut of: Fields) -> f32 {
    let (_, middle, _) = of.select_nth_unstable_by(FIELDS / 2, f32::total_cmp);
    *middle
}

/// One measure of a take in fields, with what of it grain could have made.
pub(crate) struct Track {
    /// Each frame's fields, over the length that the frame would have with grain.
    pub(crate) directions: Vec<Fields>,
    /// How much of each frame is movement and not grain. Range: 0 to 1.
    pub(crate) moving: Vec<f32>,
}

/// Movement must be so many times stronger than grain to count by half.
const OVER_GRAIN: f32 = 4.0;

impl Track {
    fn new(mut frames: Vec<Fields>, noise: f32) -> Self {
        let mut moving = Vec::new();
        for fields in &mut frames {
            let square: f32 = fields.iter().map(|f| f * f).sum();
            let with_grain = square + OVER_GRAIN * noise;
            fields.iter_mut().for_each(|f| *f /= with_grain.sqrt());
            moving.push(square / with_grain);
        }
        Self {
            directions: frames,
            moving,
        }
    }

    /// Every so manyth frame of it.
    pub(crate) fn every(mut self, stride: usize) -> Self {
        if stride > 1 {
            self.directions = self.directions.into_iter().step_by(stride).collect();
            self.moving = self.moving.into_iter().step_by(stride).collect();
        }
        self
    }

    /// How many frames of movement go on in the same manner `later` frames
    /// afterwards: grain, weave and flicker never do.
    pub(crate) fn steady(&self, later: usize) -> f32 {
        let pairs = self
            .directions
            .iter()
            .zip(self.directions.iter().skip(later));
        let alike = pairs.map(|(a, b)| a.iter().zip(b).map(|(a, b)| a * b).sum::<f32>());
        alike.filter(|&alike| alike > CHANCE).sum()
    }

    /// The same film run the other way.
    pub(crate) fn backwards(&self) -> Self {
        let turned = |fields: &Fields| fields.map(|f| -f);
        Self {
            directions: self.directions.iter().rev().map(turned).collect(),
            moving: self.moving.iter().rev().copied().collect(),
        }
    }
}
