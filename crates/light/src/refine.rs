//! A shift to parts of a pixel, by least squares on what is left between two pictures
//! (B. D. Lucas and T. Kanade, 1981), with things that move in ways of their own counted
//! down (Tukey's biweight) and a change of light between the two allowed for.

use nalgebra::{Matrix4, Vector4};

use crate::GreyPicture;

/// A picture smoothed a little, with its slopes.
pub(crate) struct Fine {
    width: usize,
    height: usize,
    grey: Vec<f32>,
}

/// What was found.
pub(crate) struct Refined {
    pub(crate) across: f64,
    pub(crate) down: f64,
    pub(crate) agreement: f64,
    /// The usual difference that is left. Unit: grey levels.
    pub(crate) left: f64,
}

/// Pixels at the edge that are not looked at: the gate's edge stands still while the
/// picture moves. Unit: share of the side.
const EDGE: f64 = 0.06;
const ROUNDS: usize = 8;
/// Moves smaller than this end the search. Unit: pixels.
const SETTLED: f64 = 0.002;
const TUKEY: f64 = 4.685;

impl Fine {
    /// Smoothed by 1-4-6-4-1 both ways: slopes then hold over a pixel or so.
    pub(crate) fn of(picture: &GreyPicture) -> Self {
        let (width, height) = (picture.width(), picture.height());
        let grey: Vec<f32> = picture.grey().iter().map(|g| f32::from(*g)).collect();
        let across = blur(&grey, width, height, 1);
        let grey = blur(&across, width, height, width);
        Self {
            width,
            height,
            grey,
        }
    }

    /// The value between four pixels.
    fn between(&self, x: f64, y: f64) -> Option<f32> {
        let is_inside =
            x >= 0.0 && y >= 0.0 && x < (self.width - 1) as f64 && y < (self.height - 1) as f64;
        if !is_inside {
            return None;
        }
        let (left, top) = (x as usize, y as usize);
        let (a, b) = ((x - left as f64) as f32, (y - top as f64) as f32);
        let at = top * self.width + left;
        let upper = self.grey[at] * (1.0 - a) + self.grey[at + 1] * a;
        let lower = self.grey[at + self.width] * (1.0 - a) + self.grey[at + self.width + 1] * a;
        Some(upper * (1.0 - b) + lower * b)
    }
}

fn blur(grey: &[f32], width: usize, height: usize, step: usize) -> Vec<f32> {
    let mut out = grey.to_vec();
    let size = width * height;
    for (at, value) in out.iter_mut().enumerate() {
        let place = if step == 1 { at % width } else { at / width };
        let last = if step == 1 { width } else { height };
        if place < 2 || place + 2 >= last || at + 2 * step >= size {
            continue;
        }
        *value = (grey[at - 2 * step]
            + grey[at + 2 * step]
            + 4.0 * (grey[at - step] + grey[at + step])
            + 6.0 * grey[at])
            / 16.0;
    }
    out
}

/// One pixel's say.
struct Seen {
    /// Slope across, slope down, the grey itself, one.
    row: Vector4<f64>,
    left: f64,
}

/// Finds the shift near a start.
pub(crate) fn refine(before: &Fine, after: &Fine, start: (f64, f64)) -> Option<Refined> {
    let (mut across, mut down) = start;
    let (mut gain, mut lift) = (1.0, 0.0);
    let mut last = None;
    for _round in 0..ROUNDS {
        let seen = look(before, after, (across, down), (gain, lift));
        if seen.len() < 200 {
            return None;
        }
        let scale = usual_size(&seen);
        let (step, agreement) = solve(&seen, scale)?;
        across += step[0];
        down += step[1];
        gain += step[2];
        lift += step[3];
        if !(across.is_finite() && down.is_finite()) {
            return None;
        }
        last = Some((agreement, scale));
        if step[0].abs().max(step[1].abs()) < SETTLED {
            break;
        }
    }
    let (agreement, left) = last?;
    Some(Refined {
        across,
        down,
        agreement,
        left,
    })
}

fn look(before: &Fine, after: &Fine, shift: (f64, f64), light: (f64, f64)) -> Vec<Seen> {
    let (width, height) = (before.width, before.height);
    let edge = |side: usize| ((side as f64 * EDGE) as usize).max(3);
    let (left, top) = (edge(width), edge(height));
    let mut seen = Vec::with_capacity(width * height);
    for y in top..height - top {
        for x in left..width - left {
            let at = y * width + x;
            let Some(there) = after.between(x as f64 + shift.0, y as f64 + shift.1) else {
                continue;
            };
            let here = f64::from(before.grey[at]);
            let slope =
                |step: usize| f64::from(before.grey[at + step] - before.grey[at - step]) / 2.0;
            // The later picture at x + d is the earlier at x, in another light.
            let (gain, lift) = light;
            let left = f64::from(there) - (gain * here + lift);
            seen.push(Seen {
                row: Vector4::new(-gain * slope(1), -gain * slope(width), here, 1.0),
                left,
            });
        }
    }
    seen
}

/// The usual size of what is left, from the middle one of them.
fn usual_size(seen: &[Seen]) -> f64 {
    let mut sizes: Vec<f64> = seen.iter().map(|s| s.left.abs()).collect();
    let middle = sizes.len() / 2;
    let (_, value, _) = sizes.select_nth_unstable_by(middle, f64::total_cmp);
    (1.4826 * *value).max(0.4)
}

/// One step, and the share of the texture that it speaks for.
fn solve(seen: &[Seen], scale: f64) -> Option<(Vector4<f64>, f64)> {
    let mut normal = Matrix4::<f64>::zeros();
    let mut right = Vector4::<f64>::zeros();
    let (mut texture, mut agreed) = (0.0, 0.0);
    for one in seen {
        let far = one.left / (TUKEY * scale);
        let weight = if far.abs() < 1.0 {
            (1.0 - far * far).powi(2)
        } else {
            0.0
        };
        let strength = one.row[0] * one.row[0] + one.row[1] * one.row[1];
        texture += strength;
        agreed += weight * strength;
        normal += one.row * one.row.transpose() * weight;
        right += one.row * (one.left * weight);
    }
    // Without texture both ways there is nothing to hold on to.
    let least = seen.len() as f64 * 0.02;
    if normal[(0, 0)] < least || normal[(1, 1)] < least {
        return None;
    }
    let step = normal.cholesky()?.solve(&right);
    Some((step, agreed / texture))
}
