//! What of the strips of a version is not on the reel, before it is known what
//! joins will eat.

use std::collections::BTreeMap;

use onestrand_film::RollId;

use super::version::Version;
use super::{BenchState, Film, Laid, Part, Place};

/// Film of a strip in one link off the reel. Of leader or a card, all of it.
#[derive(Debug, Clone)]
pub(super) struct Rest {
    pub(super) strip: usize,
    /// The length and the link; none for leader and cards that lie ready.
    pub(super) place: Option<(usize, usize)>,
    /// Frames wanted and not let go.
    pub(super) begin: u32,
    pub(super) end: u32,
}

impl Rest {
    /// As a part of the version, with these frames seen.
    pub(super) fn part(&self, version: &Version<'_>, begin: u32, end: u32) -> Part {
        let strip = &version.strips.strips[self.strip];
        let film = match &strip.span {
            Some(span) => Film::Roll {
                roll: span.roll.clone(),
                begin,
                end,
            },
            None => Film::Other {
                position: strip.positions.0 + 1,
                frames: strip.frames.count(),
            },
        };
        Part {
            strip: Some(self.strip),
            film,
            laid: Laid::Right,
            on_the_reel: false,
        }
    }
}

pub(super) type LetGo<'a> = BTreeMap<&'a RollId, Vec<(u32, u32)>>;

/// What was let go, by roll.
pub(super) fn let_go(state: &BenchState) -> LetGo<'_> {
    let mut all: LetGo<'_> = BTreeMap::new();
    for (roll, frames) in &state.let_go {
        let frames = (frames.begin().index(), frames.end().index());
        all.entry(roll).or_default().push(frames);
    }
    all.values_mut().for_each(|of_roll| of_roll.sort_unstable());
    all
}

/// Whether any of these frames was let go.
pub(super) fn is_let_go(all: &LetGo<'_>, roll: &RollId, begin: u32, end: u32) -> bool {
    let of_roll = all.get(roll).map_or(&[][..], Vec::as_slice);
    of_roll.iter().any(|(b, e)| *b < end && begin < *e)
}

/// All rests in the order of the version. `on_reel` says of each strip whether
/// some of it is on the reel.
pub(super) fn rests(state: &BenchState, version: &Version<'_>, on_reel: &[bool]) -> Vec<Rest> {
    let let_go = let_go(state);
    let loose = loose_others(state);
    let mut rests = Vec::new();
    for (index, strip) in version.strips.strips.iter().enumerate() {
        let Some(span) = &strip.span else {
            if !on_reel[index] {
                let position = strip.positions.0 + 1;
                rests.push(Rest {
                    strip: index,
                    place: loose.get(&position).copied(),
                    begin: 0,
                    end: strip.frames.count(),
                });
            }
            continue;
        };
        let (first, to) = (span.range.begin().index(), span.range.end().index());
        for (length, link) in state.within(&span.roll, first, to) {
            let Film::Roll { begin, end, .. } = state.lengths[length].links[link].film else {
                continue;
            };
            if length == 0 {
                continue;
            }
            let of_roll = let_go.get(&span.roll).map_or(&[][..], Vec::as_slice);
            let kept = without(begin.max(first), end.min(to), of_roll);
            rests.extend(kept.into_iter().map(|(begin, end)| Rest {
                strip: index,
                place: Some((length, link)),
                begin,
                end,
            }));
        }
    }
    rests
}

/// Leader and cards that came off the reel and are still joined to film there, or to
/// the head or tail leader.
pub(super) fn loose_others(state: &BenchState) -> BTreeMap<usize, (usize, usize)> {
    let mut loose = BTreeMap::new();
    for (c, length) in state.lengths.iter().enumerate().skip(1) {
        let is_film = |l: &super::Link| matches!(l.film, Film::Roll { .. });
        let can_be_named = length.place == Place::Made || length.links.iter().any(is_film);
        let is_joined = length.links.len() > 1 && can_be_named;
        if !is_joined && length.head().is_none() && length.tail.is_none() {
            continue;
        }
        for (l, link) in length.links.iter().enumerate() {
            if let Film::Other { position, .. } = link.film {
                // Of two alike that of the film turned back, whatever order they lie in.
                let is_made = length.place == Place::Made;
                if is_made || !loose.contains_key(&position) {
                    loose.insert(position, (c, l));
                }
            }
        }
    }
    loose
}

/// A stretch without others, which are in order.
fn without(mut begin: u32, end: u32, others: &[(u32, u32)]) -> Vec<(u32, u32)> {
    let mut left = Vec::new();
    for (from, to) in others {
        if *from < end && begin < *to {
            if begin < *from {
                left.push((begin, *from));
            }
            begin = begin.max(*to);
        }
    }
    if begin < end {
        left.push((begin, end));
    }
    left
}
