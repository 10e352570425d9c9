//! Which frames of which roll a strip is.

mod closer;
mod coarse;
mod confidence;
mod fit;
mod like;
mod query;
mod side_by_side;
mod still;
mod warp;

use crate::rolls::RollSketches;
use crate::strip::{Beyond, FoundStrip};
use crate::way::Way;

use coarse::coarse_places;
use fit::Fitter;
pub(crate) use fit::Placed;
use query::Query;
use side_by_side::each;

/// Places that are looked at closely after the coarse search.
const CLOSELY: usize = 240;
/// Places for which the window is found.
const WINDOWED: usize = 36;
/// Places that are looked at at the full fineness.
const FINELY: usize = 10;
/// Places at which the frames are laid as closely as they can be.
const CLOSELY_LAID: usize = 6;
/// Places beside which it is looked once more.
const SHIFTED: usize = 2;
/// From here on no further reading of a photograph is tried.
const SURE: f32 = 0.9;
/// By so much likeness a closer look may raise one place above another.
const MADE_UP: f32 = 0.2;

/// A place in the rolls where a strip may belong.
#[derive(Debug, Clone, PartialEq)]
pub struct StripPlace {
    /// Number of the roll, in the order they were handed in.
    pub roll: usize,
    /// First frame it may be.
    pub first: usize,
    /// One behind the last frame it may be. Longer than the strip where the shot is
    /// still.
    pub end: usize,
    /// How it lies beside the scan of the roll, seen with its holes left.
    pub way: Way,
    /// Its frames count down along the photograph, from the end of [`FoundStrip::up`].
    pub backwards: bool,
    /// How sure it is. Range: 0 to 1.
    pub confidence: f32,
    /// Likeness of its frames to the roll's. Range: -1 to 1.
    pub likeness: f32,
    /// Frames of the strip that were matched.
    pub frames: usize,
    /// The span is longer than the strip, for nothing in it moves enough to tell.
    pub still: bool,
    /// What is seen of the strip before the first of these frames, and behind the last,
    /// in the order of the roll. Where it does not end these frames are the least it is.
    pub beyond: (Beyond, Beyond),
    /// The likeliest frame of the first that is seen.
    pub likeliest: usize,
    pub(crate) weight: f32,
    /// Which of the readings handed in it belongs to.
    pub strip: usize,
    /// Of the reading's frames the first and one behind the last that film is seen in.
    pub seen: (usize, usize),
}

/// Looks for a strip in all rolls. Gives the likeliest place first, further ones only
/// where they are about as like; none when it is not known.
///
/// All readings of one photograph are tried; the one that fits best counts.
#[must_use]
pub fn name_strip(strips: &[FoundStrip], rolls: &[RollSketches]) -> Vec<StripPlace> {
    let mut best: Vec<StripPlace> = Vec::new();
    let sure = |places: &[StripPlace]| places.first().map_or(0.0, |p| p.confidence);
    for (number, strip) in strips.iter().enumerate() {
        let mut places = confidence::weighed(places_of(strip, rolls));
        for place in &mut places {
            place.strip = number;
        }
        if sure(&places) > sure(&best) {
            best = places;
        }
        // Readings come with the most of the strip first: a part of it, surer, is no better.
        if sure(&best) > SURE {
            break;
        }
    }
    best
}

fn places_of(strip: &FoundStrip, rolls: &[RollSketches]) -> Vec<StripPlace> {
    let query = Query::of(strip);
    if query.frames() < 2 {
        return Vec::new();
    }
    let fitter = Fitter::new(&query, rolls);
    let mut places = coarse_places(&query, rolls, CLOSELY);
    each(&mut places, |place| {
        place.likeness = fitter.middle(place, place.window);
    });
    let mut places = apart(places, WINDOWED);
    each(&mut places, |place| fitter.windowed(place));
    let mut places = near_best(apart(places, FINELY));
    each(&mut places, |place| fitter.fine(place));
    let mut places = near_best(apart(places, CLOSELY_LAID));
    each(&mut places, |place| fitter.closely(place));
    let mut places = apart(places, CLOSELY_LAID);
    let first = places.len().min(SHIFTED);
    each(&mut places[..first], |place| fitter.shifted(place));
    let places = apart(places, CLOSELY_LAID);
    confidence::judged(&query, &fitter, places)
}

/// Without those so much less like than the best that no closer look makes up for it.
fn near_best(mut places: Vec<Placed>) -> Vec<Placed> {
    let best = places.first().map_or(0.0, |place| place.likeness);
    places.retain(|place| place.likeness >= best - MADE_UP);
    places
}

/// The best places, each standing for those beside it.
fn apart(mut places: Vec<Placed>, most: usize) -> Vec<Placed> {
    places.sort_by(|a, b| b.likeness.total_cmp(&a.likeness));
    let mut kept: Vec<Placed> = Vec::new();
    for place in places {
        if kept.iter().all(|k| !k.is_beside(&place, 4)) {
            kept.push(place);
        }
        if kept.len() == most {
            break;
        }
    }
    kept
}
