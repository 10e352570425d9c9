//! The version as it comes off the bench: what is on the reel, and what of the
//! rest can still be had.

use onestrand_cut::{JoinTable, Strips};
use onestrand_film::RollId;

use super::{BenchState, Film, Laid, Link};

/// A length of the version as it will be seen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// The strip of the version, counted from 0; none for film that the version
    /// does not have.
    pub strip: Option<usize>,
    /// The film seen.
    pub film: Film,
    /// How it lies.
    pub laid: Laid,
    /// Whether it is on the take-up reel.
    pub on_the_reel: bool,
}

/// The whole version as it is made.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct AsMade {
    /// From head to tail.
    pub parts: Vec<Part>,
    /// Parts whose place on the reel is passed.
    pub passed: Vec<Part>,
}

impl AsMade {
    /// The version on a bench.
    #[must_use]
    pub fn of(state: &BenchState, strips: &Strips, table: &JoinTable) -> Self {
        let mut parts = on_the_reel(state, strips);
        let last = parts.iter().rev().find_map(|p| Some((p.strip?, end_of(p))));
        let mut passed = Vec::new();
        for index in 0..strips.strips.len() {
            for part in rest_of(index, state, strips, table, &parts) {
                let is_passed = last.as_ref().is_some_and(|(strip, end)| {
                    index < *strip || (index == *strip && end_of(&part) <= *end)
                });
                if is_passed {
                    passed.push(part);
                } else {
                    parts.push(part);
                }
            }
        }
        Self { parts, passed }
    }

    /// Its length in frames.
    #[must_use]
    pub fn frames(&self) -> u64 {
        self.parts.iter().map(|p| u64::from(p.film.frames())).sum()
    }

    /// What comes next on the reel.
    #[must_use]
    pub fn next(&self) -> Option<&Part> {
        self.parts.iter().find(|p| !p.on_the_reel)
    }
}

fn end_of(part: &Part) -> u32 {
    match &part.film {
        Film::Roll { end, .. } => *end,
        Film::Other { .. } => 0,
    }
}

fn on_the_reel(state: &BenchState, strips: &Strips) -> Vec<Part> {
    let links = state.reel();
    let seen = |(i, link): (usize, &Link)| {
        let strip = strip_of(&link.film, strips);
        let mut film = link.film.clone();
        // The last tail has still to be joined: what its join will eat is not seen.
        if i + 1 == links.len() && !state.is_ended() {
            let bite = strip.and_then(|s| strips.joints.get(s + 1));
            let eaten = bite.map_or(0, |j| u32::from(j.bite.out_tail));
            shorten(&mut film, 0, eaten, link.laid);
        }
        Part {
            strip,
            film,
            laid: link.laid,
            on_the_reel: true,
        }
    };
    links.iter().enumerate().map(seen).collect()
}

fn shorten(film: &mut Film, head: u32, tail: u32, laid: Laid) {
    if let Film::Roll { begin, end, .. } = film {
        let (low, high) = match laid {
            Laid::EndForEnd => (tail, head),
            Laid::Right | Laid::TurnedOver => (head, tail),
        };
        *begin = (*begin + low).min(*end);
        *end = end.saturating_sub(high).max(*begin);
    }
}

/// The strip of the version that most of a length belongs to.
pub(super) fn strip_of(film: &Film, strips: &Strips) -> Option<usize> {
    match film {
        Film::Roll { roll, begin, end } => {
            let shared = |i: &usize| {
                let wanted = of_roll(strips, *i, roll);
                wanted.map_or(0, |(b, e)| e.min(*end).saturating_sub(b.max(*begin)))
            };
            let best = (0..strips.strips.len()).max_by_key(shared)?;
            (shared(&best) > 0).then_some(best)
        }
        Film::Other { position, .. } => strips
            .strips
            .iter()
            .position(|s| s.span.is_none() && s.positions.0 + 1 == *position),
    }
}

fn of_roll(strips: &Strips, index: usize, roll: &RollId) -> Option<(u32, u32)> {
    let span = strips.strips.get(index)?.span.as_ref()?;
    let (begin, end) = (span.range.begin().index(), span.range.end().index());
    (span.roll == *roll).then_some((begin, end))
}

/// What of a strip is not on the reel and can still be had.
fn rest_of(
    index: usize,
    state: &BenchState,
    strips: &Strips,
    table: &JoinTable,
    reel: &[Part],
) -> Vec<Part> {
    let strip = &strips.strips[index];
    let Some(span) = &strip.span else {
        let position = strip.positions.0 + 1;
        let there = |p: &Part| p.strip == Some(index);
        let frames = strip.frames.count();
        return match reel.iter().any(there) {
            true => Vec::new(),
            false => vec![Part {
                strip: Some(index),
                film: Film::Other { position, frames },
                laid: Laid::Right,
                on_the_reel: false,
            }],
        };
    };
    let mut rests = rests(index, state, strips, &span.roll);
    let shortest = strips
        .joints
        .get(index + 1)
        .map_or(0, |j| table.row(j.kind).shortest);
    let longest = rests.iter().map(|(b, e)| e - b).max().unwrap_or(0);
    let on_reel = reel.iter().any(|p| p.strip == Some(index));
    // A snippet of a strip whose rest is there does not hold between two joins.
    rests.retain(|(b, e)| e - b >= shortest || (!on_reel && e - b == longest));
    rests
        .into_iter()
        .map(|(begin, end)| Part {
            strip: Some(index),
            film: Film::Roll {
                roll: span.roll.clone(),
                begin,
                end,
            },
            laid: Laid::Right,
            on_the_reel: false,
        })
        .collect()
}

/// The rests of a strip off the reel, without what its joins will eat.
fn rests(index: usize, state: &BenchState, strips: &Strips, roll: &RollId) -> Vec<(u32, u32)> {
    let Some((wanted, to)) = of_roll(strips, index, roll) else {
        return Vec::new();
    };
    let head = u32::from(strips.joints[index].bite.in_head);
    let tail = strips
        .joints
        .get(index + 1)
        .map_or(0, |j| u32::from(j.bite.out_tail));
    let off_the_reel = state.lengths.iter().skip(1).flat_map(|c| &c.links);
    let mut rests: Vec<(u32, u32)> = off_the_reel
        .filter_map(|link| match &link.film {
            Film::Roll {
                roll: r,
                begin,
                end,
            } if r == roll => {
                let first = wanted.max(begin + head);
                let last = to.min(end.saturating_sub(tail));
                let (first, last) = without(state, roll, first, last);
                (first < last).then_some((first, last))
            }
            _ => None,
        })
        .collect();
    rests.sort_unstable();
    rests
}

/// A length without what was let go at its ends.
fn without(state: &BenchState, roll: &RollId, mut first: u32, mut last: u32) -> (u32, u32) {
    for (of, frames) in &state.let_go {
        let (begin, end) = (frames.begin().index(), frames.end().index());
        if of == roll && begin <= first && first < end {
            first = end;
        }
        if of == roll && begin < last && last <= end {
            last = begin;
        }
    }
    (first, last)
}
