//! The frames beside a row of holes.

use super::across::Lie;
use super::layout::Layout;
use super::light::BoxLight;
use super::patch::{beyond, frame_at};
use super::{FoundBy, FoundStrip, StripFrame};
use crate::grey::GreyPicture;

/// So many frames beyond its first and its last hole a strip may go on, for their holes are
/// cut through or hidden.
const BEYOND: i32 = 2;

/// The frames beside the holes of a row, from before its first to behind its last.
pub(super) fn frames(
    photo: GreyPicture<'_>,
    (lie, by): (&Lie, usize),
    light: &BoxLight,
    (layout, phase): (&Layout, i32),
) -> Option<FoundStrip> {
    let (first, last) = lie.ends;
    let a_frame = layout.holes_a_frame;
    let at = |place: i32| {
        let hole = place * a_frame + phase;
        let frame = frame_at(
            photo,
            by,
            lie.picture(hole as f32, layout),
            Some(light),
            place,
        )?;
        let within = (first..=last).contains(&hole);
        Some(StripFrame { within, ..frame })
    };
    let (low, high) = (
        (first - phase).div_euclid(a_frame),
        (last - phase).div_euclid(a_frame),
    );
    // Outwards only as far as there is film, or something that lies over it.
    let before = (low - BEYOND..low).rev().map_while(at);
    let mut frames: Vec<StripFrame> = before.collect();
    frames.reverse();
    frames.extend((low..=high).filter_map(at));
    frames.extend((high + 1..=high + BEYOND).map_while(at));
    let ends = (frames.first()?.place - 1, frames.last()?.place + 1);
    let end = |place: i32| {
        let lying = lie.picture((place * a_frame + phase) as f32, layout);
        beyond(photo, by, lying, light)
    };
    let beyond = (end(ends.0), end(ends.1));
    let first = ends.0 + 1;
    for frame in &mut frames {
        frame.place -= first;
    }
    let step = lie.curve.step(0.5 * (lie.ends.0 + lie.ends.1) as f32);
    Some(FoundStrip {
        by: FoundBy::Perforations,
        frames,
        beyond,
        up: (-step.0, -step.1),
    })
}
