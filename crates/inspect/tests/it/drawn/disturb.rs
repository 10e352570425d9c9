//! What happens to frames and is no break.

use super::RollPlan;
use super::draw;
use super::noise::Noise;
use super::take::Take;
use onestrand_inspect::{PLANE_HEIGHT, PLANE_WIDTH};

#[derive(Debug, Clone, Copy)]
pub(super) enum Disturbance {
    /// The whole picture over, in stops.
    Lightning(f32),
    /// A bright spot at a place.
    Spot(f32, f32),
    /// A frame of one level.
    Blank(f32),
    /// A hand before the lens, so far across it. Range: 0 to 1 covers it all.
    Hand(f32),
}

impl Disturbance {
    /// Lays it on a picture; what it adds to the light is given back, in stops.
    pub(super) fn lay_on(self, light: &mut [f32]) -> f32 {
        match self {
            Self::Lightning(more) => return more,
            Self::Spot(x, y) => draw::spot(light, (x, y)),
            Self::Blank(level) => light.fill(level),
            Self::Hand(across) => hand(light, across),
        }
        0.0
    }
}

/// A dark shape without a sharp edge that has come in from the left.
fn hand(light: &mut [f32], across: f32) {
    /// Width of the edge, out of focus so near the lens. Unit: pixels.
    const SOFT: f32 = 24.0;
    let reach = across * (PLANE_WIDTH as f32 + 3.0 * SOFT) - SOFT;
    for y in 0..PLANE_HEIGHT {
        // Fingers: the edge is no straight line.
        let finger = 12.0 * (y as f32 * 0.11).sin();
        for x in 0..PLANE_WIDTH {
            let covered = ((reach + finger - x as f32) / SOFT + 0.5).clamp(0.0, 1.0);
            let value = &mut light[y * PLANE_WIDTH + x];
            *value += (0.012 - *value) * covered;
        }
    }
}

/// Frames between two disturbances.
const APART: u32 = 6;

/// Disturbances well inside takes, so that they cannot be meant as breaks.
pub(super) fn disturb(
    plan: &RollPlan,
    takes: &[Take],
    noise: &mut Noise,
) -> Vec<(u32, Disturbance)> {
    let mut list: Vec<(u32, Disturbance)> = Vec::new();
    if plan.disturbed_one_in == 0 {
        return list;
    }
    for take in takes {
        let drawn = take.drawn;
        let first = drawn.from + drawn.comes_up + 6;
        for frame in first..drawn.until.saturating_sub(drawn.goes_down + 7) {
            let near = list.last().is_some_and(|&(last, _)| frame < last + APART);
            if near || noise.below(plan.disturbed_one_in) != 0 {
                continue;
            }
            let kind = match noise.below(4) {
                0 | 1 => Disturbance::Lightning(0.5 + 1.2 * noise.unit()),
                2 => Disturbance::Spot(noise.unit(), noise.unit()),
                _ => Disturbance::Blank(if noise.below(2) == 0 { 0.9 } else { 0.01 }),
            };
            list.push((frame, kind));
            if noise.below(2) == 0 && !matches!(kind, Disturbance::Blank(_)) {
                list.push((frame + 1, kind));
            }
        }
    }
    list
}

/// A hand across the lens in the middle of every take that is long enough.
pub(super) fn hands(takes: &[Take], noise: &mut Noise) -> Vec<(u32, Disturbance)> {
    let mut list = Vec::new();
    for take in takes {
        let drawn = take.drawn;
        let length = 8 + noise.below(14);
        let middle = drawn.from + (drawn.until - drawn.from) / 2;
        if drawn.until - drawn.from < 60 {
            continue;
        }
        // All of the lens, or most of it; in and out again.
        let most = 0.7 + 0.3 * noise.unit();
        for frame in 0..length {
            let phase = (frame as f32 + 0.5) / length as f32;
            let across = most * (1.4 * (phase * std::f32::consts::PI).sin()).min(1.0);
            list.push((middle - length / 2 + frame, Disturbance::Hand(across)));
        }
    }
    list
}
