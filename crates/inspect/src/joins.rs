//! What a join of two pieces of film leaves to be seen.

use crate::compare::Pair;
use crate::frame::{HeldFrame, thousandths};
use crate::small::{SMALL_HEIGHT, SMALL_WIDTH};
use crate::window::Window;

/// The edge of a tape or of an overlap lies so near the frame line. Unit: rows
/// of the halved plane.
const EDGE_ROWS: usize = SMALL_HEIGHT / 4;
/// A line must be seen in so many of the frame's columns.
const COLUMNS: usize = SMALL_WIDTH * 4 / 5;

/// How far the frames beside a break at `at` sit out of their place, against
/// the settled frames of their own take. Unit: thousandths of the height.
///
/// A camera that tilts goes on tilting: what the settled frames move counts
/// against it. A jump to the side is no frame line.
pub(crate) fn rack(window: &Window, at: usize) -> f32 {
    let side = |near: Option<usize>, settled: Option<usize>, beyond: Option<usize>| {
        let (off, usual) = (
            moved(window, near?, settled?)?,
            moved(window, settled?, beyond?)?,
        );
        let down = off.1.abs() - usual.1.abs() - usual.0.abs();
        let aside = off.0.abs() > 1 + usual.0.abs();
        (!aside && down > 0).then(|| thousandths(down, SMALL_HEIGHT))
    };
    let before = |frames: usize| at.checked_sub(frames);
    let after = side(Some(at), Some(at + 3), Some(at + 6)).unwrap_or(0.0);
    let ahead = side(before(1), before(4), before(7)).unwrap_or(0.0);
    after.max(ahead)
}

/// Movement of the whole picture between two frames: right, down.
fn moved(window: &Window, from: usize, to: usize) -> Option<(i32, i32)> {
    let (a, b) = (window.frame(from)?, window.frame(to)?);
    let pair = Pair::new(&a.small, &b.small, a.step_to(b)).refined();
    Some((pair.step().right, pair.step().down))
}

/// How much a line across the whole width stands out in the last frame before
/// a break at `at` or in the first after it, and in no other near it. Unit:
/// levels.
pub(crate) fn edge(window: &Window, at: usize) -> f32 {
    let before = |frames: usize| at.checked_sub(frames);
    let after = line(window, Some(at), [Some(at + 2), Some(at + 3), Some(at + 4)]);
    let ahead = line(window, before(1), [before(3), before(4), before(5)]);
    after.unwrap_or(0.0).max(ahead.unwrap_or(0.0))
}

/// How much a line in frame `of` stands out against each of three others of
/// its take, beyond what those differ among themselves.
fn line(window: &Window, of: Option<usize>, others: [Option<usize>; 3]) -> Option<f32> {
    let frame = window.frame(of?)?;
    let others = others.map(|other| other.and_then(|number| window.frame(number)));
    let [Some(a), Some(b), Some(c)] = others else {
        return None;
    };
    let here = [a, b, c].map(|other| rows(frame, other));
    let usual = [rows(a, b), rows(b, c), rows(a, c)];
    let mut most: f32 = 0.0;
    let near_edge = (1..EDGE_ROWS).chain(SMALL_HEIGHT - EDGE_ROWS..SMALL_HEIGHT - 1);
    for row in near_edge {
        let least = here
            .iter()
            .map(|rows| rows[row].abs())
            .fold(f32::MAX, f32::min);
        // A horizon that weaves lies in one of three rows.
        let by_itself = (row - 1..=row + 1)
            .flat_map(|near| usual.iter().map(move |rows| rows[near].abs()))
            .fold(0.0, f32::max);
        most = most.max(least - 2.0 * by_itself);
    }
    Some(most)
}

/// By how much each row differs from the two rows about it more in one frame
/// than in the other, where it does so over the whole width; 0 elsewhere.
fn rows(one: &HeldFrame, other: &HeldFrame) -> [f32; SMALL_HEIGHT] {
    let level =
        |frame: &HeldFrame, x: usize, y: usize| f32::from(frame.small.pixels[y * SMALL_WIDTH + x]);
    // Brightness apart, so that flicker is no line.
    let light = (one.small.mean + 1.0) / (other.small.mean + 1.0);
    let bend = |x: usize, y: usize| {
        let of = |frame: &HeldFrame| {
            let about = level(frame, x, y.saturating_sub(2))
                + level(frame, x, (y + 2).min(SMALL_HEIGHT - 1));
            level(frame, x, y) - about / 2.0
        };
        of(one) - light * of(other)
    };
    std::array::from_fn(|y| {
        if (EDGE_ROWS + 1..SMALL_HEIGHT - EDGE_ROWS - 1).contains(&y) {
            return 0.0;
        }
        let bends: [f32; SMALL_WIDTH] = std::array::from_fn(|x| bend(x, y));
        let mean = bends.iter().sum::<f32>() / SMALL_WIDTH as f32;
        let along = bends.iter().filter(|bend| **bend * mean > 0.0).count();
        if along >= COLUMNS { mean } else { 0.0 }
    })
}
