//! The plan of a reel, to be asked what follows what.

use std::collections::HashMap;

use super::Wanted;
use super::course::At;
use crate::way::Way;

/// A plan with its pieces.
#[derive(Debug)]
pub(super) struct Planned<'a> {
    plan: &'a [Wanted],
    /// Where in the plan each frame of a roll stands.
    places: HashMap<(usize, usize), Vec<usize>>,
    /// First place of the plan of each piece and one behind its last.
    pieces: Vec<(usize, usize)>,
    /// Which piece each place of the plan is of.
    pub(super) piece_of: Vec<usize>,
}

impl<'a> Planned<'a> {
    pub(super) fn of(plan: &'a [Wanted]) -> Self {
        let mut places: HashMap<(usize, usize), Vec<usize>> = HashMap::new();
        let mut pieces: Vec<(usize, usize)> = Vec::new();
        let mut piece_of = Vec::with_capacity(plan.len());
        for (place, &wanted) in plan.iter().enumerate() {
            if let Wanted::Frame(roll, frame) = wanted {
                places.entry((roll, frame)).or_default().push(place);
            }
            match pieces.last_mut() {
                Some(piece) if follows(plan[place - 1], wanted) => piece.1 = place + 1,
                _ => pieces.push((place, place + 1)),
            }
            piece_of.push(pieces.len() - 1);
        }
        Self {
            plan,
            places,
            pieces,
            piece_of,
        }
    }

    pub(super) fn wanted(&self, place: usize) -> Option<Wanted> {
        self.plan.get(place).copied()
    }

    /// Where in the plan a frame of a roll stands.
    pub(super) fn places(&self, roll: usize, frame: usize) -> &[usize] {
        self.places.get(&(roll, frame)).map_or(&[], Vec::as_slice)
    }

    /// The first frames of all pieces.
    pub(super) fn starts(&self) -> impl Iterator<Item = At> + '_ {
        let first = |&(first, _): &(usize, usize)| self.at(first, Way::AS_SCANNED);
        self.pieces.iter().filter_map(first)
    }

    /// Where each piece begins when it lies in any of the four ways.
    pub(super) fn begins(&self) -> Vec<At> {
        let begins = (0..self.pieces.len()).flat_map(|piece| self.begins_of(piece));
        begins.collect()
    }

    /// Where the piece begins that follows, when a frame is the last of its piece in the
    /// way it lies: in each of the four ways.
    pub(super) fn next_piece(&self, place: usize, way: Way) -> impl Iterator<Item = At> + '_ {
        let piece = self.piece_of[place];
        let (first, end) = self.pieces[piece];
        let is_last = place == if way.upside_down { first } else { end - 1 };
        let next = is_last.then_some(piece + 1).into_iter();
        next.filter(|&next| next < self.pieces.len())
            .flat_map(|next| self.begins_of(next))
    }

    fn begins_of(&self, piece: usize) -> impl Iterator<Item = At> + '_ {
        let (first, end) = self.pieces[piece];
        Way::ALL.into_iter().filter_map(move |way| {
            let place = if way.upside_down { end - 1 } else { first };
            self.at(place, way)
        })
    }

    fn at(&self, place: usize, way: Way) -> Option<At> {
        match self.plan[place] {
            Wanted::Frame(roll, frame) => Some(At::Frame(roll, frame, way)),
            Wanted::Anything => None,
        }
    }
}

/// Whether one wanted frame follows another on their roll.
fn follows(one: Wanted, next: Wanted) -> bool {
    match (one, next) {
        (Wanted::Frame(roll, frame), Wanted::Frame(r, f)) => (r, f) == (roll, frame + 1),
        (Wanted::Anything, Wanted::Anything) => true,
        _ => false,
    }
}
