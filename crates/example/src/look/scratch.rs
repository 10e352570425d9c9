//! A scratch along the base of the film: dark in the picture, because it bends
//! the projector's light away.

use crate::faults::{FaultKind, fault_on};
use crate::noise::{hash, unit, wander};
use crate::{HEIGHT, WIDTH};

/// Light that is lost where the line is deepest.
const DEPTH: f32 = 0.55;
/// Half its width. Unit: pixels.
const HALF: f32 = 1.1;
/// How far it wanders to either side, and frames of the film to a wandering.
/// Unit: pixels, frames.
const WANDER: f32 = 1.3;
const LONG: f32 = 9.0;
/// Frames in which it begins.
const BEGINS: f32 = 10.0;

/// Draws the line on a frame that it runs through.
pub(crate) fn draw(film: &mut [u8], number: (u8, u32)) {
    let Some(fault) = fault_on(FaultKind::Scratch, number) else {
        return;
    };
    let seed = hash(u64::from(fault.roll) << 32 | u64::from(fault.span_in));
    let middle = (fault.seen[0] + fault.seen[2]) / 2.0 * WIDTH as f32;
    for y in 0..HEIGHT {
        // Along the film: frames follow each other downwards.
        let along = number.1 as f32 + y as f32 / HEIGHT as f32;
        let x = middle + WANDER * wander(seed, along / LONG);
        let since = along - fault.span_in as f32;
        let begun = (since / BEGINS).clamp(0.0, 1.0);
        let rough = 0.75 + 0.25 * unit(seed ^ 3, (along * 60.0) as u64);
        darken(film, y, x, DEPTH * begun * rough);
    }
}

fn darken(film: &mut [u8], y: u32, x: f32, depth: f32) {
    let first = (x - HALF - 1.0).max(0.0) as u32;
    for column in first..(first + 5).min(WIDTH) {
        let off = (column as f32 + 0.5 - x).abs();
        let cover = (HALF + 0.5 - off).clamp(0.0, 1.0);
        let at = (y * WIDTH + column) as usize * 4;
        for value in &mut film[at..at + 3] {
            *value = (f32::from(*value) * (1.0 - depth * cover)) as u8;
        }
    }
}
