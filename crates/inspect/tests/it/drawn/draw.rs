//! Grounds and what lies over them. Light from 0 to about 1.

use super::noise::Noise;
use onestrand_inspect::{PLANE_HEIGHT, PLANE_WIDTH};

/// The ground reaches this far beyond the picture on each side.
const MARGIN: usize = 160;
const GROUND_WIDTH: usize = PLANE_WIDTH + 2 * MARGIN;
const GROUND_HEIGHT: usize = PLANE_HEIGHT + 2 * MARGIN;
/// Exponent between light and level.
const EXPONENT: f32 = 2.2;

/// A place with things on it, seen by a camera that does not move nearer.
#[derive(Clone)]
pub(crate) struct Setup {
    ground: std::rc::Rc<Vec<f32>>,
}

impl Setup {
    pub(crate) fn new(noise: &mut Noise) -> Self {
        let (top, foot) = (0.1 + 0.5 * noise.unit(), 0.05 + 0.3 * noise.unit());
        let horizon = GROUND_HEIGHT as f32 * (0.35 + 0.3 * noise.unit());
        let mut ground = vec![0.0; GROUND_WIDTH * GROUND_HEIGHT];
        for (place, value) in ground.iter_mut().enumerate() {
            let y = (place / GROUND_WIDTH) as f32;
            *value = if y < horizon {
                top * (0.7 + 0.3 * y / horizon)
            } else {
                foot
            };
        }
        let largest = 12.0 + 24.0 * noise.unit();
        for _ in 0..100 + noise.below(200) {
            shape(&mut ground, largest, noise);
        }
        Self {
            ground: std::rc::Rc::new(ground),
        }
    }

    /// What the camera sees with its picture's corner at `at`.
    pub(crate) fn seen_from(&self, at: (f32, f32)) -> Vec<f32> {
        let within = |value: f32, length: usize| value.clamp(0.0, (length - 2) as f32);
        let columns: Vec<(usize, f32)> = (0..PLANE_WIDTH)
            .map(|x| within(x as f32 + MARGIN as f32 + at.0, GROUND_WIDTH))
            .map(|x| (x as usize, x.fract()))
            .collect();
        let mut light = Vec::with_capacity(PLANE_WIDTH * PLANE_HEIGHT);
        for y in 0..PLANE_HEIGHT {
            let y = within(y as f32 + MARGIN as f32 + at.1, GROUND_HEIGHT);
            let rows = &self.ground[y as usize * GROUND_WIDTH..][..2 * GROUND_WIDTH];
            let (upper, lower) = rows.split_at(GROUND_WIDTH);
            let part = y.fract();
            light.extend(columns.iter().map(|&(x, right)| {
                let between = |row: &[f32]| row[x] + (row[x + 1] - row[x]) * right;
                let (above, below) = (between(upper), between(lower));
                above + (below - above) * part
            }));
        }
        light
    }
}

/// A box or an oval of one tone.
fn shape(ground: &mut [f32], largest: f32, noise: &mut Noise) {
    let (cx, cy) = (
        noise.unit() * GROUND_WIDTH as f32,
        noise.unit() * GROUND_HEIGHT as f32,
    );
    let (rx, ry) = (
        3.0 + largest * noise.unit().powi(2),
        3.0 + largest * noise.unit().powi(2),
    );
    let tone = 0.03 + 0.6 * noise.unit().powi(2);
    let oval = noise.below(2) == 0;
    for y in (cy - ry).max(0.0) as usize..((cy + ry) as usize).min(GROUND_HEIGHT) {
        for x in (cx - rx).max(0.0) as usize..((cx + rx) as usize).min(GROUND_WIDTH) {
            let off = ((x as f32 - cx) / rx).powi(2) + ((y as f32 - cy) / ry).powi(2);
            if !oval || off <= 1.0 {
                ground[y * GROUND_WIDTH + x] = tone;
            }
        }
    }
}

pub(crate) fn oval(light: &mut [f32], (cx, cy): (f32, f32), (rx, ry): (f32, f32), tone: f32) {
    for y in (cy - ry).max(0.0) as usize..((cy + ry + 1.0).max(0.0) as usize).min(PLANE_HEIGHT) {
        for x in (cx - rx).max(0.0) as usize..((cx + rx + 1.0).max(0.0) as usize).min(PLANE_WIDTH) {
            let off = ((x as f32 - cx) / rx).powi(2) + ((y as f32 - cy) / ry).powi(2);
            let cover = ((1.15 - off) / 0.3).clamp(0.0, 1.0);
            let value = &mut light[y * PLANE_WIDTH + x];
            *value += (tone - *value) * cover;
        }
    }
}

/// A bright place, as of a muzzle or a mirror; place in shares of the picture.
pub(crate) fn spot(light: &mut [f32], place: (f32, f32)) {
    let (x, y) = (place.0 * PLANE_WIDTH as f32, place.1 * PLANE_HEIGHT as f32);
    oval(light, (x, y), (24.0, 20.0), 1.6);
}

/// Dark and light specks of 1–3 pixels.
pub(crate) fn dust(light: &mut [f32], specks: u32, noise: &mut Noise) {
    for _ in 0..specks {
        let place = (
            noise.unit() * PLANE_WIDTH as f32,
            noise.unit() * PLANE_HEIGHT as f32,
        );
        let size = 0.7 + 2.0 * noise.unit().powi(2);
        oval(
            light,
            place,
            (size, size),
            if noise.below(3) == 0 { 1.0 } else { 0.01 },
        );
    }
}

/// Stray light that comes in from both sides over black.
pub(crate) fn leak(strength: f32, noise: &mut Noise) -> Vec<f32> {
    let (left, right) = (0.3 + 0.3 * noise.unit(), 0.3 + 0.3 * noise.unit());
    let (low, high) = (noise.unit(), noise.unit());
    let mut light = Vec::with_capacity(PLANE_WIDTH * PLANE_HEIGHT);
    for y in 0..PLANE_HEIGHT {
        let y = y as f32 / PLANE_HEIGHT as f32;
        for x in 0..PLANE_WIDTH {
            let x = x as f32 / PLANE_WIDTH as f32;
            let tongue = |reach: f32, off: f32, from: f32| {
                (-(from / reach).powi(2)).exp() * (0.4 + 0.6 * (-((y - off) / 0.4).powi(2)).exp())
            };
            light.push(strength * (0.3 + tongue(left, low, x) + tongue(right, high, 1.0 - x)));
        }
    }
    light
}

/// Levels from light, with grain.
pub(crate) fn develop(light: &[f32], grain: f32, noise: &mut Noise) -> Vec<u8> {
    /// Steps of light in the table, up to twice what makes white.
    const STEPS: usize = 4096;
    static LEVELS: std::sync::LazyLock<Vec<f32>> = std::sync::LazyLock::new(|| {
        let light = |step: usize| 2.0 * step as f32 / STEPS as f32;
        (0..=STEPS)
            .map(|step| 255.0 * light(step).powf(1.0 / EXPONENT))
            .collect()
    });
    light
        .iter()
        .map(|value| {
            let step = (value * (STEPS as f32 / 2.0)) as usize;
            let level = LEVELS[step.min(STEPS)];
            (level + grain * noise.bell() + 0.5).clamp(0.0, 255.0) as u8
        })
        .collect()
}
