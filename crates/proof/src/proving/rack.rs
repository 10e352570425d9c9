//! Joins off the frame line: pictures that stand too high or too low.

use super::judged::{FaultKind, ReelFault};
use crate::rolls::RollSketches;
use crate::sketch::{FINE, likeness};

/// From so many rows of cells on a picture is out of rack; a row is 3.6 % of its height.
const LEAST: usize = 2;
/// More would be another frame.
const MOST: usize = 12;
/// What the rest of the picture must be like.
const LIKE: f32 = 0.6;

/// Foreign pictures that are the wanted ones, shifted, are faults of their own kind.
pub(super) fn out_of_rack(scan: &RollSketches, rolls: &[RollSketches], faults: &mut [ReelFault]) {
    for fault in faults.iter_mut() {
        let (FaultKind::Foreign, Some((roll, first, end))) = (fault.kind, fault.expected) else {
            continue;
        };
        let Some(roll) = rolls.get(roll) else {
            continue;
        };
        let frames = fault.frames.min(end - first).min(scan.frames() - fault.at);
        let mean = |shift: i64| {
            let like = |at: usize| shifted(scan.fine(fault.at + at), roll.fine(first + at), shift);
            (0..frames).map(like).sum::<f32>() / frames.max(1) as f32
        };
        let shifts = LEAST as i64..=MOST as i64;
        let best = shifts
            .flat_map(|s| [s, -s])
            .map(mean)
            .fold(f32::MIN, f32::max);
        if best > LIKE && best > mean(0) + 0.15 {
            fault.kind = FaultKind::OutOfRack;
        }
    }
}

/// The likeness of what two pictures share when one stands so many rows lower.
fn shifted(scan: &[i8], of_roll: &[i8], rows: i64) -> f32 {
    let off = FINE.0 * rows.unsigned_abs() as usize;
    if off >= scan.len() {
        return 0.0;
    }
    if rows >= 0 {
        likeness(&scan[off..], &of_roll[..of_roll.len() - off])
    } else {
        likeness(&scan[..scan.len() - off], &of_roll[off..])
    }
}
