//! A version as strips and the joins between them.

use std::collections::BTreeMap;

use onestrand_cut::{Bite, JoinKind, Piece, PieceKind, Strips, TrialCut};
use onestrand_film::RollId;

/// What film is named by. Leader has no frame names: its pieces are told apart
/// by their length and order, cards by their title and order.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Film {
    Roll(RollId),
    Leader(u32, usize),
    Card(String, usize),
}

/// All film of two versions, numbered.
#[derive(Debug, Default)]
pub(super) struct Films {
    numbers: BTreeMap<Film, usize>,
    films: Vec<Film>,
}

impl Films {
    fn number(&mut self, film: Film) -> usize {
        let next = self.films.len();
        let number = *self.numbers.entry(film.clone()).or_insert(next);
        if number == next {
            self.films.push(film);
        }
        number
    }

    /// The film of a number.
    pub(super) fn film(&self, number: usize) -> Option<&Film> {
        self.films.get(number)
    }

    /// All of them, by number.
    pub(super) fn all(&self) -> &[Film] {
        &self.films
    }
}

/// One strip: the film, first frame, first frame behind it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Laid {
    pub(super) film: usize,
    /// Whether it comes off a roll.
    off_roll: bool,
    pub(super) begin: u32,
    pub(super) end: u32,
    /// What it and its joins take: may reach beyond both ends.
    pub(super) extent: (i64, i64),
    /// First and last position, from 1.
    pub(super) positions: (usize, usize),
}

impl Laid {
    /// The number of its film, if it comes off a roll.
    pub(super) fn roll(&self) -> Option<usize> {
        self.off_roll.then_some(self.film)
    }
}

/// A join: `joints[i]` lies before strip i, the last one behind the last strip.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Joint {
    pub(super) kind: JoinKind,
    pub(super) bite: Bite,
}

/// A version, ready to be compared.
#[derive(Debug)]
pub(super) struct Joints {
    pub(super) strips: Vec<Laid>,
    pub(super) joints: Vec<Joint>,
}

impl Joints {
    pub(super) fn of(cut: &TrialCut, strips: &Strips, films: &mut Films) -> Self {
        let mut seen: BTreeMap<Film, usize> = BTreeMap::new();
        let laid = strips.strips.iter().enumerate().map(|(index, strip)| {
            let positions = (strip.positions.0 + 1, strip.positions.1 + 1);
            let frames = i64::from(strip.frames.count());
            match (&strip.span, strips.extent(index)) {
                (Some(span), Some(extent)) => Laid {
                    film: films.number(Film::Roll(span.roll.clone())),
                    off_roll: true,
                    begin: span.range.begin().index(),
                    end: span.range.end().index(),
                    extent,
                    positions,
                },
                _ => Laid {
                    film: films.number(unnamed(&cut.pieces()[strip.positions.0], &mut seen)),
                    off_roll: false,
                    begin: 0,
                    end: strip.frames.count(),
                    extent: (0, frames),
                    positions,
                },
            }
        });
        let joint = |j: &onestrand_cut::Joint| Joint {
            kind: j.kind,
            bite: j.bite,
        };
        Self {
            strips: laid.collect(),
            joints: strips.joints.iter().map(joint).collect(),
        }
    }
}

fn unnamed(piece: &Piece, seen: &mut BTreeMap<Film, usize>) -> Film {
    let first = match &piece.kind {
        PieceKind::Card { title, .. } => Film::Card(title.clone(), 0),
        _ => Film::Leader(piece.frames().count(), 0),
    };
    let count = seen.entry(first.clone()).or_default();
    *count += 1;
    match first {
        Film::Card(title, _) => Film::Card(title, *count),
        Film::Leader(frames, _) => Film::Leader(frames, *count),
        roll @ Film::Roll(_) => roll,
    }
}
