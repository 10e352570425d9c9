//! Outlines to be cut: polygons, soft blobs, limbs, waves.

use tiny_skia::{Path, PathBuilder, Rect};

use crate::noise::signed;

/// A place on the paper: right, down.
pub(crate) type Point = (f32, f32);

fn finish(builder: PathBuilder) -> Path {
    builder.finish().unwrap_or_else(speck)
}

/// What is cut when an outline has no area: next to nothing.
fn speck() -> Path {
    PathBuilder::from_rect(Rect::from_ltrb(-0.01, -0.01, 0.01, 0.01).expect("a real rectangle"))
}

/// Straight scissor cuts from corner to corner.
pub(crate) fn poly(points: &[Point]) -> Path {
    let mut builder = PathBuilder::new();
    for (index, &(x, y)) in points.iter().enumerate() {
        if index == 0 {
            builder.move_to(x, y);
        } else {
            builder.line_to(x, y);
        }
    }
    builder.close();
    finish(builder)
}

/// A closed soft outline through all points (Catmull-Rom, tension one half).
pub(crate) fn smooth(points: &[Point]) -> Path {
    let mut builder = PathBuilder::new();
    let count = points.len();
    let at = |index: usize| points[index % count];
    builder.move_to(points[0].0, points[0].1);
    for index in 0..count {
        let (before, from, to, after) = (
            at(index + count - 1),
            at(index),
            at(index + 1),
            at(index + 2),
        );
        builder.cubic_to(
            from.0 + (to.0 - before.0) / 6.0,
            from.1 + (to.1 - before.1) / 6.0,
            to.0 - (after.0 - from.0) / 6.0,
            to.1 - (after.1 - from.1) / 6.0,
            to.0,
            to.1,
        );
    }
    builder.close();
    finish(builder)
}

/// An open soft line through all points, to be stroked.
pub(crate) fn curve(points: &[Point]) -> Path {
    let mut builder = PathBuilder::new();
    let last = points.len() - 1;
    builder.move_to(points[0].0, points[0].1);
    for index in 0..last {
        let before = points[index.saturating_sub(1)];
        let (from, to) = (points[index], points[index + 1]);
        let after = points[(index + 2).min(last)];
        builder.cubic_to(
            from.0 + (to.0 - before.0) / 6.0,
            from.1 + (to.1 - before.1) / 6.0,
            to.0 - (after.0 - from.0) / 6.0,
            to.1 - (after.1 - from.1) / 6.0,
            to.0,
            to.1,
        );
    }
    finish(builder)
}

/// An oval about a middle.
pub(crate) fn oval(x: f32, y: f32, rx: f32, ry: f32) -> Path {
    Rect::from_ltrb(x - rx, y - ry, x + rx, y + ry)
        .and_then(PathBuilder::from_oval)
        .unwrap_or_else(speck)
}

/// A rectangle cut by hand: its corners are a little off.
pub(crate) fn sheet(left: f32, top: f32, right: f32, bottom: f32, slip: f32) -> Path {
    let seed = (left * 7.0 + top * 13.0 + right * 3.0) as i64 as u64;
    let off = |index| signed(seed, index) * slip;
    poly(&[
        (left + off(0), top + off(1)),
        (right + off(2), top + off(3)),
        (right + off(4), bottom + off(5)),
        (left + off(6), bottom + off(7)),
    ])
}

/// A limb: two round ends, the first at the joint, the second `length` below.
pub(crate) fn limb(length: f32, top: f32, bottom: f32) -> Path {
    smooth(&[
        (-top, 0.0),
        (-top * 0.7, -top * 0.75),
        (top * 0.7, -top * 0.75),
        (top, 0.0),
        (bottom, length),
        (bottom * 0.6, length + bottom * 0.7),
        (-bottom * 0.6, length + bottom * 0.7),
        (-bottom, length),
    ])
}

/// The top edge of a range of hills, filled down to `bottom`.
pub(crate) fn ridge(seed: u64, width: f32, top: f32, bottom: f32, height: f32, step: f32) -> Path {
    let mut x = -60.0;
    let mut points = vec![(x, bottom)];
    let mut index = 0;
    while points.last().is_some_and(|last| last.0 < width + 40.0) {
        let tall = 0.5 + 0.5 * signed(seed, index);
        points.push((x, top + height * (1.0 - tall)));
        x += step * (0.7 + 0.6 * crate::noise::unit(seed ^ 77, index));
        index += 1;
    }
    let last = points.last().map_or(width, |last| last.0);
    points.push((last, bottom));
    smooth_open_top(&points)
}

/// Soft through the inner points, straight along the bottom.
fn smooth_open_top(points: &[Point]) -> Path {
    let last = points.len() - 1;
    let inner = &points[1..last];
    let mut builder = PathBuilder::new();
    builder.move_to(points[0].0, points[0].1);
    builder.line_to(inner[0].0, inner[0].1);
    for index in 0..inner.len() - 1 {
        let before = inner[index.saturating_sub(1)];
        let (from, to) = (inner[index], inner[index + 1]);
        let after = inner[(index + 2).min(inner.len() - 1)];
        builder.cubic_to(
            from.0 + (to.0 - before.0) / 6.0,
            from.1 + (to.1 - before.1) / 6.0,
            to.0 - (after.0 - from.0) / 6.0,
            to.1 - (after.1 - from.1) / 6.0,
            to.0,
            to.1,
        );
    }
    builder.line_to(points[last].0, points[last].1);
    builder.close();
    finish(builder)
}
