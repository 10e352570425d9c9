//! Grounds, figures and what lies over them. Light from 0 to about 1.

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
        let mut light = Vec::with_capacity(PLANE_WIDTH * PLANE_HEIGHT);
        let within = |value: f32, length: usize| value.clamp(0.0, (length - 2) as f32);
        for y in 0..PLANE_HEIGHT {
            let gy = within(y as f32 + MARGIN as f32 + at.1, GROUND_HEIGHT);
            for x in 0..PLANE_WIDTH {
                let gx = within(x as f32 + MARGIN as f32 + at.0, GROUND_WIDTH);
                light.push(self.between(gx, gy));
            }
        }
        light
    }

    fn between(&self, x: f32, y: f32) -> f32 {
        let (left, up) = (x as usize, y as usize);
        let (fx, fy) = (x - left as f32, y - up as f32);
        let row = |y: usize| {
            let at = y * GROUND_WIDTH + left;
            self.ground[at] + (self.ground[at + 1] - self.ground[at]) * fx
        };
        let upper = row(up);
        upper + (row(up + 1) - upper) * fy
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

/// Someone who walks to and fro and swings arms and legs.
#[derive(Clone)]
pub(crate) struct Figure {
    /// Middle at the start, from the corner of the set-up's picture.
    x: f32,
    y: f32,
    height: f32,
    /// Pixels a frame.
    pace: f32,
    phase: f32,
    tone: f32,
}

impl Figure {
    pub(crate) fn new(noise: &mut Noise) -> Self {
        Self {
            x: 20.0 + noise.unit() * (PLANE_WIDTH as f32 - 40.0),
            y: 50.0 + noise.unit() * 60.0,
            height: 30.0 + 40.0 * noise.unit(),
            pace: noise.signed() * 1.5,
            phase: noise.unit() * 6.0,
            tone: if noise.below(2) == 0 { 0.01 } else { 0.75 },
        }
    }

    /// The same figure somewhere else than where it was after `since` frames.
    pub(crate) fn elsewhere(&self, since: f32, noise: &mut Noise) -> Self {
        let far = self.height * (0.5 + 1.2 * noise.unit());
        let was = self.along(since);
        let right = if was > PLANE_WIDTH as f32 / 2.0 {
            -far
        } else {
            far
        };
        Self {
            x: was + right,
            pace: noise.signed() * 1.5,
            phase: noise.unit() * 6.0,
            ..self.clone()
        }
    }

    /// Where it stands after `since` frames, walking to and fro.
    fn along(&self, since: f32) -> f32 {
        let range = PLANE_WIDTH as f32;
        let along = (self.x + self.pace * since).rem_euclid(2.0 * range);
        if along > range {
            2.0 * range - along
        } else {
            along
        }
    }

    /// Draws the figure on a picture that weave has moved by `at`. A camera
    /// that pans goes with its figures.
    pub(crate) fn draw(&self, light: &mut [f32], since: f32, at: (f32, f32)) {
        let (x, y, h) = (self.along(since) - at.0, self.y - at.1, self.height);
        let swing = (since * 0.45 + self.phase).sin() * h * 0.14;
        oval(light, (x, y), (h * 0.13, h * 0.26), self.tone);
        oval(
            light,
            (x, y - h * 0.36),
            (h * 0.09, h * 0.11),
            self.tone * 1.5 + 0.1,
        );
        for side in [-1.0, 1.0] {
            oval(
                light,
                (x + side * swing, y + h * 0.36),
                (h * 0.06, h * 0.18),
                self.tone,
            );
            oval(
                light,
                (x - side * (swing + h * 0.12), y - h * 0.08),
                (h * 0.05, h * 0.15),
                self.tone,
            );
        }
    }
}

/// Share of the picture that differs between figures at one time and at another.
pub(crate) fn differing_share(one: (&[Figure], f32), other: (&[Figure], f32)) -> f32 {
    let drawn = |(figures, since): (&[Figure], f32)| {
        let mut light = vec![0.25; PLANE_WIDTH * PLANE_HEIGHT];
        figures
            .iter()
            .for_each(|figure| figure.draw(&mut light, since, (0.0, 0.0)));
        light
    };
    let pairs = drawn(one).into_iter().zip(drawn(other));
    pairs.filter(|(a, b)| (a - b).abs() > 0.1).count() as f32 / (PLANE_WIDTH * PLANE_HEIGHT) as f32
}

fn oval(light: &mut [f32], (cx, cy): (f32, f32), (rx, ry): (f32, f32), tone: f32) {
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
            (level + grain * noise.bell()).clamp(0.0, 255.0).round() as u8
        })
        .collect()
}
