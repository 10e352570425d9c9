//! Joins off the frame line: pictures that stand too high or too low.

use super::course::At;
use super::judged::{FaultKind, ReelFault};
use crate::rolls::RollSketches;
use crate::sketch::{FINE, likeness};

/// From so many rows of cells on a picture is out of rack; a row is 3.6 % of its height.
const LEAST: usize = 2;
/// So many missing pictures are looked for as standing out of rack.
const FEWEST: usize = 4;
/// More would be another frame.
const MOST: usize = 12;
/// What the rest of the picture must be like.
const LIKE: f32 = 0.6;

/// Foreign pictures that are the wanted ones, shifted, are faults of their own kind; so
/// are missing ones that stand before the first or after the last picture recognised.
pub(super) fn out_of_rack(
    (scan, rolls): (&RollSketches, &[RollSketches]),
    course: &[At],
    faults: &mut [ReelFault],
) {
    for fault in faults.iter_mut() {
        let Some((roll, first, end)) = fault.expected else {
            continue;
        };
        let Some(roll) = rolls.get(roll) else {
            continue;
        };
        let frames = end - first;
        let places = match fault.kind {
            FaultKind::Foreign => vec![fault.at],
            FaultKind::Missing if frames >= FEWEST => at_an_end(course, fault.at, frames),
            _ => Vec::new(),
        };
        let frames = fault.frames.min(frames);
        let like = |at: usize, shift: i64| {
            let frames = frames.min(scan.frames() - at);
            let like = |n: usize| shifted(scan.fine(at + n), roll.fine(first + n), shift);
            (0..frames).map(like).sum::<f32>() / frames.max(1) as f32
        };
        let shifts = || (LEAST as i64..=MOST as i64).flat_map(|s| [s, -s]);
        let best_at = |&at: &usize| {
            let best = shifts()
                .map(|shift| like(at, shift))
                .fold(f32::MIN, f32::max);
            (best, at)
        };
        let found = places
            .iter()
            .map(best_at)
            .max_by(|a, b| a.0.total_cmp(&b.0));
        let Some((best, at)) = found else { continue };
        if best > LIKE && best > like(at, 0) + 0.15 {
            fault.kind = FaultKind::OutOfRack;
            (fault.at, fault.earliest, fault.latest) = (at, at, at);
        }
    }
}

/// Where so many frames may stand before the first picture that is recognised, or after
/// the last: beside it, or at the very end of the reel.
fn at_an_end(course: &[At], at: usize, frames: usize) -> Vec<usize> {
    let is_known = |at: &At| matches!(at, At::Frame(..));
    let ends = (
        course.iter().position(is_known),
        course.iter().rposition(is_known),
    );
    let (Some(head), Some(last)) = ends else {
        return Vec::new();
    };
    if at == 0 && head + 2 >= frames {
        return vec![head.saturating_sub(frames), 0];
    }
    // The piece before may seem to run on for a frame.
    let is_behind = at + 2 > last && course.len() + 2 >= at + frames && at < course.len();
    let places = [at, last + 1, course.len().saturating_sub(frames)];
    let mut places = places.to_vec();
    places.retain(|&place| is_behind && place < course.len());
    places
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
