//! Which frames of one version stand where in another: by name alone.

use std::collections::{BTreeMap, BTreeSet};

use onestrand_film::{Frames, RollId};

use crate::{PieceKind, TrialCut};

/// A run of frames that stands in both versions.
///
/// Unit: running frames of the old and of the new version.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Run {
    pub(super) old: u32,
    pub(super) new: u32,
    pub(super) frames: u32,
}

/// What frames are named by. Leader has no names; its pieces are told apart by
/// their length, and where that does not serve, by their order.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
enum Film {
    Roll(RollId),
    Card(String, usize),
    Leader(u32, usize),
    OtherLeader(usize),
}

/// A piece on its film, and where it begins in its version.
#[derive(Debug, Clone, Copy)]
struct Laid {
    begin: u32,
    end: u32,
    at: u32,
}

/// The runs that stand in both, in the order of the old version. Where a frame
/// stands in a version more than once, the first goes with the first.
///
/// Time: O(n log n) in the pieces, unless many pieces want the same frames.
pub(super) fn matched(old: &TrialCut, new: &TrialCut) -> Vec<Run> {
    let (before, after) = by_film(old, new);
    let mut runs = Vec::new();
    for (film, olds) in &before {
        if let Some(news) = after.get(film) {
            sweep(olds, news, &mut runs);
        }
    }
    runs.sort_unstable_by_key(|r| r.old);
    let mut out: Vec<Run> = Vec::with_capacity(runs.len());
    for run in runs {
        match out.last_mut() {
            Some(last)
                if last.old + last.frames == run.old && last.new + last.frames == run.new =>
            {
                last.frames += run.frames;
            }
            _ => out.push(run),
        }
    }
    out
}

type ByFilm = BTreeMap<Film, Vec<Laid>>;

fn by_film(old: &TrialCut, new: &TrialCut) -> (ByFilm, ByFilm) {
    let (was, is) = (leaders(old), leaders(new));
    let alike = |frames: &u32| {
        let of = |all: &BTreeMap<u32, usize>| all.get(frames).copied().unwrap_or(0);
        of(&was).min(of(&is))
    };
    (lay_out(old, &alike), lay_out(new, &alike))
}

/// How many pieces of leader there are of each length.
fn leaders(cut: &TrialCut) -> BTreeMap<u32, usize> {
    let mut out = BTreeMap::new();
    for piece in cut.pieces() {
        if let PieceKind::Leader(frames) = &piece.kind {
            *out.entry(frames.count()).or_insert(0) += 1;
        }
    }
    out
}

fn lay_out(cut: &TrialCut, alike: &dyn Fn(&u32) -> usize) -> ByFilm {
    let mut out = ByFilm::new();
    let mut cards: BTreeMap<&str, usize> = BTreeMap::new();
    let mut of_length: BTreeMap<u32, usize> = BTreeMap::new();
    let mut others = 0;
    let mut at = 0;
    // A piece without frames is none of several alike.
    for piece in cut.pieces().iter().filter(|p| p.frames() > Frames::ZERO) {
        let frames = piece.frames().count();
        let (film, begin) = match &piece.kind {
            PieceKind::Shot(span) => (Film::Roll(span.roll.clone()), span.range.begin().index()),
            PieceKind::Card { title, .. } => {
                (Film::Card(title.clone(), next(&mut cards, title)), 0)
            }
            PieceKind::Leader(_) => {
                let which = next(&mut of_length, frames);
                let film = if which < alike(&frames) {
                    Film::Leader(frames, which)
                } else {
                    others += 1;
                    Film::OtherLeader(others)
                };
                (film, 0)
            }
        };
        let end = begin + frames;
        out.entry(film).or_default().push(Laid { begin, end, at });
        at += frames;
    }
    out
}

/// How many of a kind came before, counting this one for the next.
fn next<K: Ord>(counts: &mut BTreeMap<K, usize>, key: K) -> usize {
    let count = counts.entry(key).or_insert(0);
    *count += 1;
    *count - 1
}

/// Runs of one film that stand in both: a sweep over the ends of all pieces.
fn sweep(olds: &[Laid], news: &[Laid], out: &mut Vec<Run>) {
    let mut ends: Vec<(u32, bool, bool, usize)> = Vec::new();
    for (is_new, list) in [(false, olds), (true, news)] {
        for (which, laid) in list.iter().enumerate().filter(|l| l.1.begin < l.1.end) {
            ends.push((laid.begin, true, is_new, which));
            ends.push((laid.end, false, is_new, which));
        }
    }
    ends.sort_unstable();
    // Pieces that hold the place now, in the order of their versions.
    let mut open: [BTreeSet<usize>; 2] = [BTreeSet::new(), BTreeSet::new()];
    let mut at = 0;
    for (place, begins, is_new, which) in ends {
        if place > at {
            for (old, new) in open[0].iter().zip(&open[1]) {
                let (old, new) = (olds[*old], news[*new]);
                out.push(Run {
                    old: old.at + (at - old.begin),
                    new: new.at + (at - new.begin),
                    frames: place - at,
                });
            }
        }
        at = place;
        let side = &mut open[usize::from(is_new)];
        if begins {
            side.insert(which);
        } else {
            side.remove(&which);
        }
    }
}
