//! Grounds and what stands on them, in levels from 0 to 255.

use crate::Chance;

/// A picture that is larger than what the camera sees of it.
#[derive(Debug, Clone)]
pub(crate) struct Ground {
    width: usize,
    height: usize,
    levels: Vec<f32>,
}

impl Ground {
    /// A place with sky, earth and things, twice as wide as the picture and
    /// half as high again.
    pub(crate) fn place(size: (usize, usize), chance: &mut Chance) -> Self {
        let (width, height) = (size.0 * 2, size.1 * 3 / 2);
        let (sky, earth) = (90.0 + 90.0 * chance.unit(), 40.0 + 60.0 * chance.unit());
        let horizon = (height as f32 * (0.35 + 0.3 * chance.unit())) as usize;
        let mut ground = Self {
            width,
            height,
            levels: vec![0.0; width * height],
        };
        for y in 0..height {
            let tone = if y < horizon { sky } else { earth };
            let fall = 30.0 * y as f32 / height as f32;
            ground.levels[y * width..(y + 1) * width].fill(tone - fall);
        }
        for _ in 0..180 {
            let at = (chance.unit() * width as f32, chance.unit() * height as f32);
            let radius = (thing(size.0, chance), thing(size.0, chance));
            ground.thing(
                at,
                radius,
                20.0 + 210.0 * chance.unit(),
                chance.below(2) == 0,
            );
        }
        ground
    }

    /// Lines of letters, light on black, as a title card has them.
    pub(crate) fn title(size: (usize, usize), chance: &mut Chance) -> Self {
        let (width, height) = (size.0 * 2, size.1 * 3 / 2);
        let mut ground = Self {
            width,
            height,
            levels: vec![14.0; width * height],
        };
        let (w, h) = (size.0 as f32, size.1 as f32);
        for line in 0..3 {
            let y = h * (0.5 + 0.22 * line as f32);
            let mut x = w * 0.62;
            while x < w * 1.35 {
                let stroke = w * (0.006 + 0.012 * chance.unit());
                ground.thing((x, y), (stroke, h * 0.05), 225.0, false);
                x += w * (0.025 + 0.03 * chance.unit());
            }
        }
        ground
    }

    /// One level everywhere, with a faint fall of light.
    pub(crate) fn plain(size: (usize, usize), level: f32) -> Self {
        let (width, height) = (size.0 * 2, size.1 * 3 / 2);
        let fall = |place: usize| level + 1.5 * (place % width) as f32 / width as f32;
        Self {
            width,
            height,
            levels: (0..width * height).map(fall).collect(),
        }
    }

    fn thing(&mut self, at: (f32, f32), radius: (f32, f32), tone: f32, is_oval: bool) {
        let (width, height) = (self.width, self.height);
        let span = |middle: f32, reach: f32, end: usize| {
            let from = (middle - reach).max(0.0) as usize;
            from..((middle + reach + 1.0).max(0.0) as usize).min(end)
        };
        for y in span(at.1, radius.1, height) {
            for x in span(at.0, radius.0, width) {
                let off =
                    ((x as f32 - at.0) / radius.0).powi(2) + ((y as f32 - at.1) / radius.1).powi(2);
                if !is_oval || off <= 1.0 {
                    self.levels[y * width + x] = tone;
                }
            }
        }
    }

    /// What the camera sees, `at` away from the middle of the ground. Beyond
    /// its edges the ground is mirrored.
    pub(crate) fn seen(&self, size: (usize, usize), at: (f32, f32)) -> Vec<f32> {
        let left = (self.width - size.0) as f32 / 2.0 + at.0;
        let top = (self.height - size.1) as f32 / 2.0 + at.1;
        let (fx, fy) = (left - left.floor(), top - top.floor());
        let column = |x: usize| mirrored(left.floor() as i64 + x as i64, self.width);
        let columns: Vec<usize> = (0..=size.0).map(column).collect();
        let mut seen = Vec::with_capacity(size.0 * size.1);
        for y in 0..size.1 {
            let row = |y: usize| mirrored(top.floor() as i64 + y as i64, self.height) * self.width;
            let (upper, lower) = (&self.levels[row(y)..], &self.levels[row(y + 1)..]);
            let between = |row: &[f32], x: usize| {
                row[columns[x]] + (row[columns[x + 1]] - row[columns[x]]) * fx
            };
            for x in 0..size.0 {
                let (u, l) = (between(upper, x), between(lower, x));
                seen.push(u + (l - u) * fy);
            }
        }
        seen
    }
}

fn mirrored(at: i64, length: usize) -> usize {
    let length = length as i64;
    let turned = at.rem_euclid(2 * length);
    turned.min(2 * length - 1 - turned) as usize
}

fn thing(width: usize, chance: &mut Chance) -> f32 {
    width as f32 * (0.012 + 0.11 * chance.unit().powi(2))
}

/// A soft oval laid over a picture.
pub(crate) fn oval(
    levels: &mut [f32],
    size: (usize, usize),
    at: (f32, f32),
    radius: (f32, f32),
    tone: f32,
) {
    let span = |middle: f32, reach: f32, end: usize| {
        let from = (middle - reach - 1.0).max(0.0) as usize;
        from..((middle + reach + 2.0).max(0.0) as usize).min(end)
    };
    for y in span(at.1, radius.1, size.1) {
        for x in span(at.0, radius.0, size.0) {
            let off =
                ((x as f32 - at.0) / radius.0).powi(2) + ((y as f32 - at.1) / radius.1).powi(2);
            let cover = ((1.2 - off) / 0.4).clamp(0.0, 1.0);
            let level = &mut levels[y * size.0 + x];
            *level += (tone - *level) * cover;
        }
    }
}
