//! How sure a name is.

use super::StripPlace;
use super::fit::{Fitter, Placed};
use super::like::{mean_uncovered, uncovered};
use super::query::{Looked, Query};
use super::still::{Rest, possible};
use crate::strip::Beyond;

/// Likeness under which a strip is not known.
const LEAST: f32 = 0.5;
/// The likeness of which half is believed: frames of another film that are as flat and
/// still as the strip's were met at 0.87.
const EVEN: f32 = 0.82;
/// Of what speaks against a place this part is believed: frames of one shot err alike.
const BELIEVED: f32 = 0.1;
/// So few frames of a still shot say where it is, but hardly where its stillness ends:
/// the span is told as a guess.
const FEW: usize = 9;
/// See there.
const FEW_AND_STILL: f32 = 0.85;
/// Places told at most.
const TOLD: usize = 4;
/// Confidence under which a place is not told.
const TOLD_FROM: f32 = 0.05;

/// The places of one reading, with the span each may be.
pub(super) fn judged(query: &Query, fitter: &Fitter<'_>, places: Vec<Placed>) -> Vec<StripPlace> {
    let Some(first) = places.first() else {
        return Vec::new();
    };
    let rest = Rest::of(fitter, first);
    let mut places: Vec<(f32, Placed)> = places
        .into_iter()
        .map(|placed| (rest.less_likely(fitter, &placed), placed))
        .collect();
    places.sort_by(|a, b| a.0.total_cmp(&b.0));
    let least = places.first().map_or(0.0, |p| p.0);
    let mut judged: Vec<StripPlace> = Vec::new();
    for (less, placed) in places {
        let mut place = spanned(query, fitter, &placed);
        place.weight = (-(less - least) * BELIEVED).exp();
        // A still shot has many places that are one.
        let within = |other: &StripPlace| {
            other.roll == place.roll
                && other.way == place.way
                && (other.still || place.still)
                && other.first < place.end
                && place.first < other.end
        };
        if place.likeness >= LEAST && !judged.iter().any(within) {
            judged.push(place);
        }
        if judged.len() == TOLD {
            break;
        }
    }
    judged
}

fn spanned(query: &Query, fitter: &Fitter<'_>, placed: &Placed) -> StripPlace {
    let each = fitter.each(placed, placed.window, Looked::All);
    let seen = uncovered(&each);
    let likeness = mean_uncovered(&each);
    let (low, high) = possible(fitter, placed);
    // Dark frames at an end are of the strip as well.
    let (mut from, mut to) = (
        seen.first().copied().unwrap_or(0),
        seen.last().copied().unwrap_or(0),
    );
    let is_dark = |at: usize| each[at].is_faint() && query.is_within(at);
    while from > 0 && is_dark(from - 1) {
        from -= 1;
    }
    while to + 1 < each.len() && is_dark(to + 1) {
        to += 1;
    }
    let ends = (from, to);
    let mut frames = Vec::new();
    for begin in [low, high] {
        let other = Placed { begin, ..*placed };
        frames.extend([ends.0, ends.1].map(|at| other.frame(query.places[at])));
    }
    let unsigned = |frame: Option<&i64>| usize::try_from(*frame.unwrap_or(&0)).unwrap_or(0);
    StripPlace {
        roll: placed.roll,
        first: unsigned(frames.iter().min()),
        end: unsigned(frames.iter().max()) + 1,
        way: placed.way,
        backwards: placed.backwards,
        confidence: if low != high && seen.len() < FEW {
            alone(likeness, seen.len()).min(FEW_AND_STILL)
        } else {
            alone(likeness, seen.len())
        },
        likeness,
        frames: seen.len(),
        still: low != high,
        beyond: beyond(query, ends, placed.backwards),
        likeliest: usize::try_from(placed.frame(query.places[ends.0])).unwrap_or(0),
        weight: 1.0,
        strip: 0,
        seen: (ends.0, ends.1 + 1),
    }
}

/// What is seen beyond the frames that were matched, in the order of the roll: something
/// that lies over the strip is often taken for frames of it.
fn beyond(query: &Query, (from, to): (usize, usize), backwards: bool) -> (Beyond, Beyond) {
    let hidden = |is: bool, seen: Beyond| if is { Beyond::Hidden } else { seen };
    let before = hidden(from > 0, query.beyond.0);
    let behind = hidden(to + 1 < query.frames(), query.beyond.1);
    if backwards {
        (behind, before)
    } else {
        (before, behind)
    }
}

/// How sure a place is when there is no other: by likeness and by how many frames say so.
fn alone(likeness: f32, frames: usize) -> f32 {
    let frames = (frames as f32 / 6.0).min(1.0);
    let at = (likeness - EVEN) / 0.03 + 2.0 * (frames - 1.0);
    1.0 / (1.0 + (-at).exp())
}

/// The places of a reading against each other: two that are as like share what is
/// believed.
pub(super) fn weighed(places: Vec<StripPlace>) -> Vec<StripPlace> {
    let mut apart: Vec<StripPlace> = Vec::new();
    for place in places {
        let same = |other: &StripPlace| {
            other.roll == place.roll && other.first < place.end && place.first < other.end
        };
        if !apart.iter().any(same) {
            apart.push(place);
        }
    }
    let sum: f32 = apart.iter().map(|place| place.weight).sum();
    for place in &mut apart {
        place.confidence *= place.weight / sum;
    }
    apart.retain(|place| place.confidence >= TOLD_FROM);
    apart.truncate(TOLD);
    apart
}
