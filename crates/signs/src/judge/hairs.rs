//! Things in the gate: those that stand still where the picture does not.

use super::track::{another_picture, at_a_stop, frame_outside, path};
use crate::gate_watch::STANDS;
use crate::limits::SignLimits;
use crate::record::{SignRecord, Take};
use crate::sign::{Place, Sign, SignKind};
use crate::standing_thing::StandingThing;
use onestrand_inspect::{PLANE_HEIGHT, PLANE_WIDTH};
use std::ops::Range;

/// Frames by which a thing's end may miss a camera stop.
const NEAR: usize = 3;

/// Frames over which a thing may be hidden by something dark.
const HIDDEN: usize = 12;

pub(super) fn of_roll(record: &SignRecord, takes: &[Take], limits: &SignLimits) -> Vec<Sign> {
    let found = linked(record, takes).into_iter().filter_map(|hair| {
        let long = hair.span.len() >= limits.shortest_run as usize;
        let measure = 100.0 * hair.thing.share * hair.thing.depth;
        let proved = hair.over_another_picture
            || goes_with_a_stop(takes, &hair)
            || went_by(record, takes, &hair, limits);
        if !long || measure < limits.hair_above || !proved {
            return None;
        }
        let inner = (hair.span.start + hair.span.end) / 2;
        let outside = frame_outside(record, takes, &hair.span);
        let mut sign = Sign::new(SignKind::Hair, hair.span, measure).beside(Some(inner), outside);
        sign.place = Some(place(hair.thing));
        Some(sign)
    });
    joined(found.collect())
}

/// Whether it came and went with camera stops, and nothing else did: the same
/// place was taken up again, with it on one side only.
fn goes_with_a_stop(takes: &[Take], hair: &Hair<'_>) -> bool {
    let at_stop = |at: usize| at_a_stop(takes, at, 0).is_some();
    let (came, went) = hair.without;
    (came || went) && at_stop(hair.span.start) && at_stop(hair.span.end)
}

/// A thing and how long it stood, camera stops counted in.
struct Hair<'a> {
    thing: &'a StandingThing,
    span: Range<usize>,
    /// Frames after which it was found first and last with its outline.
    outlined: (u32, u32),
    /// Whether the picture before it, and after it, is the same without it.
    without: (bool, bool),
    /// Whether it stood before and after the picture became another.
    over_another_picture: bool,
}

/// Things found before and after a camera stop at the same place with the same
/// outline are one.
fn linked<'a>(record: &'a SignRecord, takes: &[Take]) -> Vec<Hair<'a>> {
    let mut hairs: Vec<Hair<'a>> = Vec::new();
    for thing in &record.things {
        let span = at_stops(takes, thing.from as usize..thing.until as usize);
        let before = hairs
            .iter_mut()
            .find(|hair| hair.span.end.abs_diff(span.start) <= HIDDEN && hair.thing.is_like(thing));
        match before {
            Some(hair) => {
                let between = hair.span.end.min(span.start)..hair.span.end.max(span.start) + 1;
                hair.over_another_picture |= takes
                    .iter()
                    .map(|take| take.span.start)
                    .any(|stop| between.contains(&stop) && another_picture(record, stop));
                hair.span.end = span.end.max(hair.span.end);
                hair.outlined.1 = thing.outlined.1.max(hair.outlined.1);
                hair.without.1 = thing.without.1;
            }
            None => hairs.push(Hair {
                thing,
                span,
                outlined: thing.outlined,
                without: thing.without,
                over_another_picture: false,
            }),
        }
    }
    hairs
}

/// The span, with ends that nearly meet a camera stop moved onto it.
fn at_stops(takes: &[Take], span: Range<usize>) -> Range<usize> {
    let moved_on = |at: usize| at_a_stop(takes, at, NEAR).unwrap_or(at);
    moved_on(span.start)..moved_on(span.end)
}

/// Whether the picture moved, while the thing kept its outline, so far that the
/// outline of a thing of the picture would have become another.
fn went_by(record: &SignRecord, takes: &[Take], hair: &Hair<'_>, limits: &SignLimits) -> bool {
    let enough = limits.stands_against / 100.0 * PLANE_WIDTH as f32;
    let outlined = hair.outlined.0 as usize..hair.outlined.1 as usize;
    let take = takes
        .iter()
        .find(|take| take.span.contains(&(outlined.end.saturating_sub(1))));
    let Some(take) = take else { return false };
    let from = outlined.start.saturating_sub(STANDS).max(take.span.start);
    // Each outline is what stood on the frames before it.
    let path = path(record, from..outlined.end);
    let mean = |frames: &[(f32, f32)]| {
        let number = frames.len() as f32;
        let sum = frames
            .iter()
            .fold((0.0, 0.0), |sum, at| (sum.0 + at.0, sum.1 + at.1));
        (sum.0 / number, sum.1 / number)
    };
    let first = mean(&path[..STANDS.min(path.len())]);
    let last = mean(&path[path.len().saturating_sub(STANDS)..]);
    let (right, down) = across(hair.thing, last.0 - first.0, last.1 - first.1);
    right.hypot(down) >= enough && !hair.thing.is_like_itself_moved(right, down)
}

/// The part of a movement that a thing's outline can show: a long thing that goes
/// on beyond the picture looks the same when it moves along itself.
fn across(thing: &StandingThing, right: f32, down: f32) -> (f32, f32) {
    const LONG: f32 = 2.2;
    let [left, top, end, foot] = thing.bounds;
    let (wide, high) = ((end - left) as f32, (foot - top) as f32);
    if wide > LONG * high {
        (0.0, down)
    } else if high > LONG * wide {
        (right, 0.0)
    } else {
        (right, down)
    }
}

fn place(thing: &StandingThing) -> Place {
    let [left, top, right, bottom] = thing.bounds;
    let of = |at: usize, length: usize| ((1000 * at + length / 2) / length) as u16;
    Place::Box {
        left: of(left, PLANE_WIDTH),
        top: of(top, PLANE_HEIGHT),
        right: of(right, PLANE_WIDTH),
        bottom: of(bottom, PLANE_HEIGHT),
    }
}

/// Parts of one thing, found at the same time, told once: the largest.
fn joined(mut signs: Vec<Sign>) -> Vec<Sign> {
    signs.sort_by(|a, b| b.measure.total_cmp(&a.measure));
    let mut kept: Vec<Sign> = Vec::new();
    for sign in signs {
        let told = kept
            .iter()
            .any(|other| meet(other, &sign) && near(other.place, sign.place));
        if !told {
            kept.push(sign);
        }
    }
    kept
}

fn meet(a: &Sign, b: &Sign) -> bool {
    a.from < b.until && b.from < a.until
}

fn near(a: Option<Place>, b: Option<Place>) -> bool {
    const NEAR: u16 = 40;
    let (
        Some(Place::Box {
            left: al,
            top: at,
            right: ar,
            bottom: ab,
        }),
        Some(Place::Box {
            left: bl,
            top: bt,
            right: br,
            bottom: bb,
        }),
    ) = (a, b)
    else {
        return false;
    };
    al < br + NEAR && bl < ar + NEAR && at < bb + NEAR && bt < ab + NEAR
}
