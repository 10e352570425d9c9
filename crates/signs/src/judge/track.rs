//! What speaks for a thing that stands still being no part of the picture.

use crate::light::SAME;
use crate::record::{SignRecord, Take};
use std::ops::Range;

/// Frames of one side must be seen at least this long past a camera stop.
const PAST: usize = 3;

/// Where the picture is sure to have stood, frame by frame, from the first of a
/// span on.
/// Unit: pixels of the plane, to the right and down.
pub(super) fn path(record: &SignRecord, span: Range<usize>) -> Vec<(f32, f32)> {
    let (mut x, mut y) = (0.0_f32, 0.0_f32);
    let frames = record.frames.get(span).unwrap_or_default();
    let steps = frames.iter().enumerate().map(|(place, frame)| {
        if place > 0 {
            x += frame.went.0;
            y += frame.went.1;
        }
        (x, y)
    });
    steps.collect()
}

/// From the least to the greatest of some values.
pub(super) fn range(values: impl IntoIterator<Item = f32>) -> f32 {
    let ends = values
        .into_iter()
        .fold((f32::INFINITY, f32::NEG_INFINITY), |(low, high), value| {
            (low.min(value), high.max(value))
        });
    (ends.1 - ends.0).max(0.0)
}

/// The parts of a span that lie in one take each.
pub(super) fn parts<'a>(
    takes: &'a [Take],
    span: &'a Range<usize>,
) -> impl Iterator<Item = Range<usize>> + 'a {
    takes
        .iter()
        .map(|take| take.span.start.max(span.start)..take.span.end.min(span.end))
        .filter(|part| !part.is_empty())
}

/// Camera stops that a span runs over.
pub(super) fn stops_crossed<'a>(
    takes: &'a [Take],
    span: &'a Range<usize>,
) -> impl Iterator<Item = usize> + 'a {
    takes
        .iter()
        .skip(1)
        .map(|take| take.span.start)
        .filter(|&stop| stop >= span.start + PAST && stop + PAST <= span.end)
}

/// Whether the picture became another at a camera stop.
pub(super) fn another_picture(record: &SignRecord, stop: usize) -> bool {
    let frames = record.frames.get(stop..stop + 1).unwrap_or_default();
    frames.iter().all(|frame| frame.alike < SAME)
}

/// Whether a frame is where a take begins or ends, within `near` frames.
pub(super) fn at_a_stop(takes: &[Take], at: usize, near: usize) -> Option<usize> {
    takes
        .iter()
        .flat_map(|take| [take.span.start, take.span.end])
        .find(|stop| stop.abs_diff(at) <= near)
}

/// A frame near a span that lies outside it, in the same take if it can be.
pub(super) fn frame_outside(
    record: &SignRecord,
    takes: &[Take],
    span: &Range<usize>,
) -> Option<usize> {
    /// The frames next to a span may have a trace of what it has.
    const AWAY: usize = 2;
    /// Missing frames are passed over.
    const REACH: usize = 12;
    let seen = |at: &usize| record.frames.get(*at).is_some_and(|frame| frame.seen);
    let before = (AWAY..REACH)
        .filter_map(|by| span.start.checked_sub(by))
        .find(seen);
    let after = (AWAY..REACH).map(|by| span.end + by - 1).find(seen);
    let same_take = |at: usize, inner: usize| {
        takes
            .iter()
            .any(|take| take.span.contains(&at) && take.span.contains(&inner))
    };
    let before_in_take = before.filter(|&at| same_take(at, span.start));
    let after_in_take = after.filter(|&at| same_take(at, span.end - 1));
    after_in_take.or(before_in_take).or(after).or(before)
}
