//! A place with things on it, and figures that walk there. Light from 0 to 1.

use super::noise::Noise;
use onestrand_inspect::{PLANE_HEIGHT, PLANE_WIDTH};

/// The ground is drawn this much finer than the plane and averaged, as a scan
/// is, so that a movement by half a pixel makes nothing softer.
const FINE: usize = 2;
/// The ground reaches this far beyond the picture. Unit: pixels of the plane.
const MARGIN: usize = 110;
const GROUND_WIDTH: usize = (PLANE_WIDTH + 2 * MARGIN) * FINE;
const GROUND_HEIGHT: usize = (PLANE_HEIGHT + 2 * MARGIN) * FINE;

/// A set-up: what stands before the camera.
#[derive(Clone)]
pub(crate) struct Scene {
    ground: std::rc::Rc<Vec<f32>>,
    figures: Vec<Figure>,
}

#[derive(Clone)]
struct Figure {
    x: f32,
    y: f32,
    height: f32,
    pace: f32,
    phase: f32,
    tone: f32,
}

impl Scene {
    pub(crate) fn new(noise: &mut Noise) -> Self {
        let (top, foot) = (0.1 + 0.45 * noise.unit(), 0.06 + 0.3 * noise.unit());
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
        let largest = 14.0 + 24.0 * noise.unit();
        for _ in 0..160 + noise.below(160) {
            shape(&mut ground, largest, noise);
        }
        // Poles that stand from top to foot: in half of the places.
        if noise.below(2) == 0 {
            let x = noise.below(GROUND_WIDTH as u32 - 4) as usize;
            let tone = if noise.below(2) == 0 { 0.02 } else { 0.5 };
            let wide = 2 + noise.below(3) as usize;
            for row in ground.chunks_exact_mut(GROUND_WIDTH) {
                row[x..(x + wide).min(GROUND_WIDTH)].fill(tone);
            }
        }
        let figures = (0..1 + noise.below(3))
            .map(|_| Figure::new(noise))
            .collect();
        Self {
            ground: std::rc::Rc::new(ground),
            figures,
        }
    }

    /// The same place a while later: the figures stand elsewhere.
    pub(crate) fn later(&self, noise: &mut Noise) -> Self {
        Self {
            ground: self.ground.clone(),
            figures: self.figures.iter().map(|_| Figure::new(noise)).collect(),
        }
    }

    /// What the camera sees with its picture's corner at `at`, after `since`
    /// frames.
    pub(crate) fn seen_from(&self, at: (f32, f32), since: f32) -> Vec<f32> {
        let mut light = self.ground_from(at);
        for figure in &self.figures {
            figure.draw(&mut light, since, at);
        }
        light
    }

    fn ground_from(&self, at: (f32, f32)) -> Vec<f32> {
        let corner =
            |by: f32, most: usize| ((by + MARGIN as f32) * FINE as f32).clamp(0.0, most as f32);
        let x = corner(at.0, GROUND_WIDTH - FINE * PLANE_WIDTH - 2);
        let y = corner(at.1, GROUND_HEIGHT - FINE * PLANE_HEIGHT - 2);
        let (left, up) = (x as usize, y as usize);
        let (fx, fy) = (x - left as f32, y - up as f32);
        // A box of two by two fine pixels, moved by a part of one, takes three
        // by three with these weights.
        let weights = |part: f32| [(1.0 - part) / 2.0, 0.5, part / 2.0];
        let (wx, wy) = (weights(fx), weights(fy));
        let mut light = Vec::with_capacity(PLANE_WIDTH * PLANE_HEIGHT);
        let mut column = vec![0.0_f32; FINE * PLANE_WIDTH + 1];
        for row in 0..PLANE_HEIGHT {
            let start = (up + FINE * row) * GROUND_WIDTH + left;
            let rows: [&[f32]; 3] =
                std::array::from_fn(|r| &self.ground[start + r * GROUND_WIDTH..][..column.len()]);
            for (place, value) in column.iter_mut().enumerate() {
                *value = wy[0] * rows[0][place] + wy[1] * rows[1][place] + wy[2] * rows[2][place];
            }
            light.extend((0..PLANE_WIDTH).map(|x| {
                wx[0] * column[2 * x] + wx[1] * column[2 * x + 1] + wx[2] * column[2 * x + 2]
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
    let size = |noise: &mut Noise| FINE as f32 * (1.5 + largest * noise.unit().powi(2));
    let (rx, ry) = (size(noise), size(noise));
    let tone = 0.02 + 0.6 * noise.unit().powi(2);
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

/// An oval whose edge takes about a pixel.
pub(crate) fn oval(light: &mut [f32], (cx, cy): (f32, f32), (rx, ry): (f32, f32), tone: f32) {
    let small = rx.min(ry);
    for y in
        (cy - ry - 1.0).max(0.0) as usize..((cy + ry + 2.0).max(0.0) as usize).min(PLANE_HEIGHT)
    {
        for x in
            (cx - rx - 1.0).max(0.0) as usize..((cx + rx + 2.0).max(0.0) as usize).min(PLANE_WIDTH)
        {
            let off = ((x as f32 - cx) / rx).hypot((y as f32 - cy) / ry);
            let cover = ((1.0 - off) * small + 0.5).clamp(0.0, 1.0);
            let value = &mut light[y * PLANE_WIDTH + x];
            *value += (tone - *value) * cover;
        }
    }
}

impl Figure {
    fn new(noise: &mut Noise) -> Self {
        Self {
            x: noise.unit() * PLANE_WIDTH as f32,
            y: 50.0 + 60.0 * noise.unit(),
            height: 30.0 + 40.0 * noise.unit(),
            pace: 1.5 * noise.signed(),
            phase: 6.0 * noise.unit(),
            tone: if noise.below(2) == 0 { 0.012 } else { 0.7 },
        }
    }

    fn draw(&self, light: &mut [f32], since: f32, at: (f32, f32)) {
        let range = PLANE_WIDTH as f32;
        let along = (self.x + self.pace * since).rem_euclid(2.0 * range);
        let along = if along > range {
            2.0 * range - along
        } else {
            along
        };
        let (x, y, h) = (along - at.0, self.y - at.1, self.height);
        let swing = (since * 0.45 + self.phase).sin() * h * 0.14;
        oval(light, (x, y), (h * 0.13, h * 0.26), self.tone);
        oval(light, (x, y - h * 0.36), (h * 0.09, h * 0.11), 0.4);
        for side in [-1.0, 1.0] {
            oval(
                light,
                (x + side * swing, y + h * 0.36),
                (h * 0.06, h * 0.18),
                self.tone,
            );
            let hand = (x - side * (swing + h * 0.12), y - h * 0.08);
            oval(light, hand, (h * 0.05, h * 0.15), self.tone);
        }
    }
}
