//! Figures that walk, stand, turn and gesture.

use super::draw::oval;
use super::noise::Noise;
use onestrand_inspect::{PLANE_HEIGHT, PLANE_WIDTH};

/// How far a figure has got after some frames.
struct Stride {
    /// Frames' worth of walking, forward and back.
    walked: f32,
    /// Where in the swing of arms and legs. Unit: frames of steady walking.
    swung: f32,
    /// How high one arm is raised. Range: 0 to 1.
    raised: f32,
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
    /// Seed of what it does next; 0 walks on at one pace for ever.
    whim: u64,
}

impl Figure {
    pub(crate) fn new(whims: bool, noise: &mut Noise) -> Self {
        Self {
            x: 20.0 + noise.unit() * (PLANE_WIDTH as f32 - 40.0),
            y: 50.0 + noise.unit() * 60.0,
            height: 30.0 + 40.0 * noise.unit(),
            pace: noise.signed() * 1.5,
            phase: noise.unit() * 6.0,
            tone: if noise.below(2) == 0 { 0.01 } else { 0.75 },
            whim: if whims { noise.next() | 1 } else { 0 },
        }
    }

    /// The same figure somewhere else than where it was after `since` frames.
    /// `jump` is the least and the greatest distance, in heights of the figure.
    pub(crate) fn elsewhere(&self, since: f32, jump: (f32, f32), noise: &mut Noise) -> Self {
        let far = self.height * (jump.0 + (jump.1 - jump.0) * noise.unit());
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
            whim: if self.whim == 0 { 0 } else { noise.next() | 1 },
            ..self.clone()
        }
    }

    /// Where it stands after `since` frames, walking to and fro.
    fn along(&self, since: f32) -> f32 {
        let range = PLANE_WIDTH as f32;
        let along = (self.x + self.pace * self.stride(since).walked).rem_euclid(2.0 * range);
        if along > range {
            2.0 * range - along
        } else {
            along
        }
    }

    /// What it has done by then: for some frames each it walks, hurries, goes
    /// slowly, turns back or stands; now and then it darts off for a few frames,
    /// or lifts an arm within one to four.
    fn stride(&self, since: f32) -> Stride {
        let mut done = Stride {
            walked: since,
            swung: since,
            raised: 0.0,
        };
        if self.whim == 0 {
            return done;
        }
        (done.walked, done.swung) = (0.0, 0.0);
        let mut whims = Noise::new(self.whim);
        let mut left = since;
        while left > 0.0 {
            let mut length = (8 + whims.below(32)) as f32;
            let (walks, swings) = match whims.below(7) {
                0 => (1.0, 1.0),
                1 => {
                    length = (2 + whims.below(5)) as f32;
                    (5.0, 2.0)
                }
                2 => (2.2, 2.0),
                3 => (0.4, 0.5),
                4 => (-1.2, 1.0),
                _ => (0.0, 0.0),
            };
            let arm = if whims.below(3) == 0 { 1.0 } else { 0.0 };
            let lift = (1 + whims.below(4)) as f32;
            let part = left.min(length);
            done.walked += walks * part;
            done.swung += swings * part;
            done.raised += (arm - done.raised) * (part / lift).min(1.0);
            left -= part;
        }
        done
    }

    /// Draws the figure on a picture that weave has moved by `at`. A camera
    /// that pans goes with its figures.
    pub(crate) fn draw(&self, light: &mut [f32], since: f32, at: (f32, f32)) {
        let (x, y, h) = (self.along(since) - at.0, self.y - at.1, self.height);
        let stride = self.stride(since);
        let swing = (stride.swung * 0.45 + self.phase).sin() * h * 0.14;
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
            let lift = if side > 0.0 {
                stride.raised * h * 0.3
            } else {
                0.0
            };
            oval(
                light,
                (x - side * (swing + h * 0.12), y - h * 0.08 - lift),
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
