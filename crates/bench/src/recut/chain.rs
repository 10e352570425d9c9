//! A version as a chain of bits of film.

use std::collections::{BTreeMap, BTreeSet};

use onestrand_cut::{Piece, PieceKind};
use onestrand_film::{FrameRange, Frames, Span};

use super::joints::{Film, Joints, Laid};

/// A bit of film: the number of the film, first frame, first frame behind it.
pub(super) type Bit = (usize, u32, u32);

/// Head leader or a bit before the link, a bit or tail leader behind it.
pub(super) type Ends = (Option<Bit>, Option<Bit>);

/// One link of a chain; `joint` is the index of its join, none inside a strip.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Link {
    pub(super) ends: Ends,
    pub(super) joint: Option<usize>,
}

/// Places on each film where either version begins or ends a strip.
pub(super) fn cuts(old: &Joints, new: &Joints) -> BTreeMap<usize, BTreeSet<u32>> {
    let mut cuts: BTreeMap<usize, BTreeSet<u32>> = BTreeMap::new();
    for strip in old.strips.iter().chain(&new.strips) {
        cuts.entry(strip.film)
            .or_default()
            .extend([strip.begin, strip.end]);
    }
    cuts
}

fn bits(strip: &Laid, cuts: &BTreeMap<usize, BTreeSet<u32>>) -> Vec<Bit> {
    let inside = cuts.get(&strip.film).into_iter();
    let places: Vec<u32> = inside
        .flat_map(|c| c.range(strip.begin..=strip.end))
        .copied()
        .collect();
    let pairs = places.windows(2);
    pairs.map(|p| (strip.film, p[0], p[1])).collect()
}

pub(super) fn chain(version: &Joints, cuts: &BTreeMap<usize, BTreeSet<u32>>) -> Vec<Link> {
    let mut links = Vec::new();
    let mut before = None;
    for (index, strip) in version.strips.iter().enumerate() {
        let mut joint = Some(index);
        for bit in bits(strip, cuts) {
            let ends = (before.replace(bit), Some(bit));
            links.push(Link {
                ends,
                joint: joint.take(),
            });
        }
    }
    if !version.strips.is_empty() {
        links.push(Link {
            ends: (before, None),
            joint: Some(version.strips.len()),
        });
    }
    links
}

/// A bit as a piece of its own.
pub(super) fn piece(film: &Film, begin: u32, end: u32) -> Piece {
    let frames = Frames::new(end - begin).unwrap_or(Frames::MAX);
    match (film, FrameRange::of(begin, end)) {
        (Film::Roll(roll), Ok(range)) => Piece::shot(Span::new(roll.clone(), range)),
        (Film::Card(title, _), _) => Piece {
            kind: PieceKind::Card {
                frames,
                title: title.clone(),
            },
            ..Piece::leader(frames)
        },
        _ => Piece::leader(frames),
    }
}
