//! Two rows of holes that are one, with something lying over its middle.

use super::curve::Curve;
use super::line::Row;

/// How far a hole may lie off the curve through both rows, on the mean. Unit: steps.
const OFF: f32 = 0.05;
/// How much longer or shorter a step may be where the holes are hidden than beside.
const UNEVEN: f32 = 0.06;
/// Holes that may be hidden between two rows.
const HIDDEN: i32 = 60;
/// Counts of hidden holes that fit so much less well than the best are handed on too.
const ABOUT_AS_WELL: f32 = 0.35;
/// Joined rows that are handed on.
const MOST: usize = 3;

/// Rows made of two that lie on one line with the same step, the best first. Where the
/// number of the hidden holes is not certain, each that may be.
pub(super) fn joined(rows: &[Row]) -> Vec<Row> {
    let mut found: Vec<(f32, Row)> = Vec::new();
    for (at, one) in rows.iter().enumerate() {
        for other in &rows[at + 1..] {
            for (near, far) in directions(one, other) {
                found.extend(across(&near, &far));
            }
        }
    }
    found.sort_by(|a, b| b.1.firmness().total_cmp(&a.1.firmness()));
    found.into_iter().take(MOST).map(|(_, row)| row).collect()
}

/// Both rows run so that the second begins where the first ends.
fn directions(one: &Row, other: &Row) -> [(Row, Row); 4] {
    let (turned, other_turned) = (one.turned(), other.turned());
    [
        (one.clone(), other.clone()),
        (turned.clone(), other.clone()),
        (one.clone(), other_turned.clone()),
        (turned, other_turned),
    ]
}

/// The two as one row, for each number of hidden holes that may be; and how badly it fits.
fn across(near: &Row, far: &Row) -> Vec<(f32, Row)> {
    if !(0.7..1.4).contains(&(near.side / far.side)) {
        return Vec::new();
    }
    let (Some(from), Some(to)) = (end_of(near), end_of(&far.turned())) else {
        return Vec::new();
    };
    let chord = (to.0.0 - from.0.0, to.0.1 - from.0.1);
    let back = (-to.1.0, -to.1.1);
    if !runs_along(from.1, chord) || !runs_along(back, chord) {
        return Vec::new();
    }
    let step = f32::midpoint(length(from.1), length(back));
    let guess = (length(chord) / step).round() as i32;
    let fits = (guess - 2..=guess + 2)
        .filter(|gap| (2..=HIDDEN).contains(gap))
        .filter_map(|gap| laid(near, far, gap));
    let fits: Vec<(f32, Row)> = fits.collect();
    let best = fits.iter().map(|f| f.0).fold(f32::MAX, f32::min);
    let is_good = |fit: &(f32, Row)| fit.0 < best + ABOUT_AS_WELL;
    fits.into_iter().filter(is_good).collect()
}

/// The last hole of a row, and the step there.
fn end_of(row: &Row) -> Option<((f32, f32), (f32, f32))> {
    let last = row.hits.last()?;
    let near = &row.hits[row.hits.len().saturating_sub(7)..];
    let curve = Curve::through(near)?;
    Some(((last.1, last.2), curve.step(last.0 as f32)))
}

/// Whether a way goes within thirty degrees of another.
fn runs_along(one: (f32, f32), other: (f32, f32)) -> bool {
    let dot = one.0 * other.0 + one.1 * other.1;
    dot > 0.87 * length(one) * length(other)
}

fn length((x, y): (f32, f32)) -> f32 {
    x.hypot(y)
}

/// The two rows with so many steps between them, when one smooth line goes through both.
fn laid(near: &Row, far: &Row, gap: i32) -> Option<(f32, Row)> {
    let (last, first) = (near.hits.last()?.0, far.hits.first()?.0);
    let mut hits = near.hits.clone();
    let moved = |&(number, x, y): &(i32, f32, f32)| (number - first + last + gap, x, y);
    hits.extend(far.hits.iter().map(moved));
    let curve = Curve::through(&hits)?;
    let size = |number: f32| length(curve.step(number));
    let (before, after) = (last as f32, (last + gap) as f32);
    let beside = f32::midpoint(size(before), size(after));
    let square = |&(number, x, y): &(i32, f32, f32)| {
        let at = curve.at(number as f32);
        ((at.0 - x).powi(2) + (at.1 - y).powi(2)) / (beside * beside)
    };
    let off = (hits.iter().map(square).sum::<f32>() / hits.len() as f32).sqrt();
    let uneven = (size(f32::midpoint(before, after)) / beside - 1.0).abs();
    let side = f32::midpoint(near.side, far.side);
    let holes = near.holes.iter().chain(&far.holes).copied().collect();
    let row = Row { hits, holes, side };
    (off < OFF && uneven < UNEVEN).then_some((off / OFF + uneven / UNEVEN, row))
}
