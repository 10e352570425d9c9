//! A hair in the camera gate: it shadows the film at the edge of the picture.

use crate::faults::{FaultKind, fault_on};
use crate::{HEIGHT, WIDTH};

/// Light that passes where the hair lies. It is a little out of the film's
/// plane, so its edge is soft.
const PASS: f32 = 0.12;
/// Half its width, and half the width of its edge. Unit: pixels.
const HALF: f32 = 1.9;
const EDGE: f32 = 1.2;

/// The hair as a curve, from the edge of the gate inwards. Unit: parts of the
/// frame. Four points of a cubic; it starts outside the opening.
const CURVE: [(f32, f32); 4] = [(0.995, 0.88), (0.93, 0.80), (0.84, 0.86), (0.81, 0.955)];

/// Shadows the film where a hair lay in the gate.
pub(crate) fn shadow(film: &mut [u8], number: (u8, u32)) {
    if fault_on(FaultKind::Hair, number).is_none() {
        return;
    }
    const STEPS: usize = 160;
    let points: Vec<(f32, f32)> = (0..=STEPS)
        .map(|step| along(step as f32 / STEPS as f32))
        .collect();
    let reach = HALF + EDGE + 1.0;
    let (left, right) = range(points.iter().map(|p| p.0), reach, WIDTH);
    let (top, bottom) = range(points.iter().map(|p| p.1), reach, HEIGHT);
    for y in top..bottom {
        for x in left..right {
            let (cx, cy) = (x as f32 + 0.5, y as f32 + 0.5);
            let near = points
                .iter()
                .map(|(px, py)| (px - cx).powi(2) + (py - cy).powi(2))
                .fold(f32::INFINITY, f32::min)
                .sqrt();
            let cover = ((HALF + EDGE - near) / (2.0 * EDGE)).clamp(0.0, 1.0);
            let light = 1.0 - cover * (1.0 - PASS);
            let at = (y * WIDTH + x) as usize * 4;
            for value in &mut film[at..at + 3] {
                *value = (f32::from(*value) * light) as u8;
            }
        }
    }
}

/// A point of the curve. Unit: pixels.
fn along(t: f32) -> (f32, f32) {
    let u = 1.0 - t;
    let weights = [u * u * u, 3.0 * u * u * t, 3.0 * u * t * t, t * t * t];
    let mut point = (0.0, 0.0);
    for (weight, (x, y)) in weights.iter().zip(CURVE) {
        point.0 += weight * x * WIDTH as f32;
        point.1 += weight * y * HEIGHT as f32;
    }
    point
}

/// Pixels that some values can touch, within the frame.
fn range(values: impl Iterator<Item = f32> + Clone, reach: f32, most: u32) -> (u32, u32) {
    let low = values.clone().fold(f32::INFINITY, f32::min) - reach;
    let high = values.fold(f32::NEG_INFINITY, f32::max) + reach;
    (low.max(0.0) as u32, (high.max(0.0).ceil() as u32).min(most))
}
