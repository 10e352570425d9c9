//! The lengths of film that a new version is joined of, and where they lie now.

use std::collections::BTreeSet;

use onestrand_cut::Strand;
use onestrand_film::RollId;

use super::RecutSource;
use crate::recut::gone::{Film, Lying};
use crate::recut::joints::{self, Films, Joints};
use crate::wanted::{Wanted, WantedRoll, WantedStrip};

/// How an end of a length comes free.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Freed {
    /// By opening a join of the old version.
    Open(usize),
    /// By the blade.
    Cut,
    /// Film ends there already, or the leader stays on.
    Loose,
}

/// One end of a length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Edge {
    /// Running frame of the old version, or frame of the roll.
    pub(super) place: i64,
    pub(super) freed: Freed,
}

/// Where a length lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Lies {
    OnTheReel,
    /// On what is left of a roll, by the number of its film.
    OnARoll(usize),
    /// Leader or a card, made ready.
    Ready,
}

/// Film that stays in one length.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Length {
    pub(super) source: Lies,
    pub(super) head: Edge,
    pub(super) tail: Edge,
    /// First and last position of the new version, from 1.
    pub(super) positions: (usize, usize),
    /// Whether it is joined to what is before it.
    pub(super) joined: bool,
    /// Whether that join is inside a piece.
    pub(super) put_back: bool,
}

/// The reel or a roll, in the order in which the search knows them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Source {
    pub(super) lies: Lies,
    pub(super) named: RecutSource,
}

/// The lengths in the order of the new version.
pub(super) fn lengths(
    (olds, news): (&Joints, &Joints),
    film: &Film<'_>,
    opened: &BTreeSet<usize>,
    made: &BTreeSet<usize>,
) -> Vec<Length> {
    let finder = Finder {
        olds,
        film,
        lying: film.lying(opened, made),
        made,
        starts: starts(olds),
    };
    let mut lengths: Vec<Length> = Vec::new();
    for (index, strip) in news.strips.iter().enumerate() {
        let whole = (i64::from(strip.begin), i64::from(strip.end));
        let parts = finder.lying.parts.get(&index);
        let parts = parts.cloned().unwrap_or_else(|| vec![whole]);
        let count = parts.len();
        for (nth, part) in parts.into_iter().enumerate() {
            let ends = (nth == 0, nth + 1 == count);
            let length = finder.length(news, index, part, ends);
            let stays = nth == 0 && index > 0 && !made.contains(&index);
            match lengths.last_mut() {
                Some(before) if stays => {
                    before.tail = length.tail;
                    before.positions.1 = length.positions.1;
                }
                _ => lengths.push(length),
            }
        }
    }
    lengths
}

/// Where each strip begins in the running film. Unit: frames.
fn starts(olds: &Joints) -> Vec<i64> {
    let mut at = 0;
    let mut starts = Vec::with_capacity(olds.strips.len());
    for strip in &olds.strips {
        starts.push(at);
        at += i64::from(strip.end) - i64::from(strip.begin);
    }
    starts.push(at);
    starts
}

struct Finder<'a> {
    olds: &'a Joints,
    film: &'a Film<'a>,
    lying: Lying,
    made: &'a BTreeSet<usize>,
    starts: Vec<i64>,
}

impl Finder<'_> {
    /// One stretch of a strip of the new version; `ends` says whether the strip
    /// begins and ends with it.
    fn length(
        &self,
        news: &Joints,
        index: usize,
        (begin, end): (i64, i64),
        (first, last): (bool, bool),
    ) -> Length {
        let strip = &news.strips[index];
        let given = |joint: usize| self.lying.given.get(&joint).copied().unwrap_or_default();
        // A strip that begins within a stretch gives what goes on before it.
        let from = match first && begin == i64::from(strip.begin) {
            true => begin - given(index).1,
            false => begin,
        };
        let to = match last && end == i64::from(strip.end) {
            true => end + given(index + 1).0,
            false => end,
        };
        let held = self.olds.strips.iter().position(|old| {
            let inside = old.extent.0 <= begin && end <= old.extent.1;
            old.film == strip.film && inside
        });
        let (source, mut head, mut tail) = match (held, strip.roll()) {
            (Some(old), _) => (
                Lies::OnTheReel,
                self.on_reel(old, from),
                self.on_reel(old, to),
            ),
            (None, Some(roll)) => (
                Lies::OnARoll(roll),
                self.on_roll(roll, from),
                self.on_roll(roll, to),
            ),
            (None, None) => (Lies::Ready, loose(0), loose(end)),
        };
        // A leader that stays on.
        if index == 0 && first && !self.made.contains(&0) {
            head = loose(0);
        }
        if index + 1 == news.strips.len() && last && !self.made.contains(&(index + 1)) {
            tail = loose(self.starts[self.olds.strips.len()]);
        }
        Length {
            source,
            head,
            tail,
            positions: strip.positions,
            joined: !first || self.made.contains(&index),
            put_back: !first,
        }
    }

    fn on_reel(&self, old: usize, at: i64) -> Edge {
        let strip = &self.olds.strips[old];
        let (begin, end) = (i64::from(strip.begin), i64::from(strip.end));
        let start = self.starts[old];
        // Where opening tears all of what would be cut off, it frees the end itself.
        let (torn_before, torn_behind) = self.film.torn(old);
        if at <= begin + torn_before {
            return Edge {
                place: start,
                freed: Freed::Open(old),
            };
        }
        if at >= end - torn_behind {
            return Edge {
                place: start + end - begin,
                freed: Freed::Open(old + 1),
            };
        }
        Edge {
            place: start + at - begin,
            freed: Freed::Cut,
        }
    }

    fn on_roll(&self, roll: usize, at: i64) -> Edge {
        let freed = match self.film.ends_at(roll, at) {
            true => Freed::Loose,
            false => Freed::Cut,
        };
        Edge { place: at, freed }
    }
}

const fn loose(place: i64) -> Edge {
    Edge {
        place,
        freed: Freed::Loose,
    }
}

/// The lengths as the search knows them: the made reel is one roll more.
pub(super) fn wanted(
    lengths: &[Length],
    olds: &Joints,
    films: &Films,
    strand: &Strand,
) -> (Wanted, Vec<Source>) {
    let mut lies: Vec<Lies> = lengths.iter().map(|l| l.source).collect();
    lies.sort_unstable();
    lies.dedup();
    lies.retain(|l| *l != Lies::Ready);
    let whole = starts(olds).last().copied().unwrap_or(0);
    let mut rolls: Vec<WantedRoll> = Vec::new();
    let mut sources: Vec<Source> = Vec::new();
    for lies in lies {
        let (id, frames, named) = match lies {
            Lies::OnARoll(number) => match films.film(number) {
                Some(joints::Film::Roll(roll)) => (
                    roll.clone(),
                    strand.roll(roll).map_or(0, |r| r.frames.count()),
                    RecutSource::Roll(roll.clone()),
                ),
                _ => continue,
            },
            Lies::OnTheReel | Lies::Ready => match a_name_of_its_own(strand) {
                Some(id) => (id, number(whole), RecutSource::Reel),
                None => continue,
            },
        };
        rolls.push(WantedRoll {
            id,
            frames,
            strips: Vec::new(),
            by_turn: Vec::new(),
        });
        sources.push(Source { lies, named });
    }
    let mut turns = 0;
    for (index, length) in lengths.iter().enumerate() {
        if let Some(roll) = sources.iter().position(|s| s.lies == length.source) {
            rolls[roll].strips.push(WantedStrip {
                begin: number(length.head.place),
                end: number(length.tail.place),
                turn: turns,
                strip: index,
            });
            turns += 1;
        }
    }
    (Wanted::from_rolls(rolls, turns), sources)
}

/// The search knows rolls by name; the reel gets one that no roll has.
fn a_name_of_its_own(strand: &Strand) -> Option<RollId> {
    let names = (0..=strand.rolls().count()).map(|n| RollId::new(&format!("reel{n}")));
    names.flatten().find(|name| strand.roll(name).is_none())
}

fn number(place: i64) -> u32 {
    u32::try_from(place).unwrap_or(0)
}
