//! The frames beside a row of holes.

use super::across::{Layout, Lie};
use super::light::BoxLight;
use super::patch::{beyond, frame_at};
use super::{FoundBy, FoundStrip, StripFrame};
use crate::grey::GreyPicture;

/// The frames beside the holes of a row, from before its first to behind its last.
pub(super) fn frames(
    photo: GreyPicture<'_>,
    (lie, by): (&Lie, usize),
    light: &BoxLight,
    (layout, phase): (&Layout, i32),
) -> Option<FoundStrip> {
    let (first, last) = lie.ends;
    let a_frame = layout.holes_a_frame;
    let mut frames = Vec::new();
    for place in (first - a_frame) / a_frame - 1..=(last + a_frame) / a_frame + 1 {
        let hole = place * a_frame + phase;
        if hole < first - a_frame || hole > last + a_frame {
            continue;
        }
        let (centre, across, along) = lie.picture(hole as f32, layout);
        let frame = frame_at(photo, by, (centre, across, along), Some(light), place);
        frames.extend(frame.map(|frame| StripFrame {
            within: (first..=last).contains(&hole),
            ..frame
        }));
    }
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
