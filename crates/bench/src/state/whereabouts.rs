//! Where a frame is, found without going through all the film on the bench.

use std::collections::BTreeMap;

use onestrand_film::RollId;

use super::whole::name;
use super::{BenchState, CannotBe, Film, How, Length};

/// For each roll its links by their first frame, and the length that each is in.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Whereabouts(BTreeMap<RollId, BTreeMap<u32, usize>>);

impl Whereabouts {
    pub(super) fn note(&mut self, film: &Film, length: usize) {
        let Film::Roll { roll, begin, .. } = film else {
            return;
        };
        if let Some(of_roll) = self.0.get_mut(roll) {
            of_roll.insert(*begin, length);
        } else {
            let first = BTreeMap::from([(*begin, length)]);
            self.0.insert(roll.clone(), first);
        }
    }

    pub(super) fn forget(&mut self, film: &Film) {
        if let Film::Roll { roll, begin, .. } = film
            && let Some(of_roll) = self.0.get_mut(roll)
        {
            of_roll.remove(begin);
        }
    }
}

impl BenchState {
    pub(super) fn note(&mut self, length: usize) {
        for link in &self.lengths[length].links {
            self.whereabouts.note(&link.film, length);
        }
    }

    pub(super) fn forget(&mut self, film: &Film) {
        self.whereabouts.forget(film);
    }

    pub(super) fn add_length(&mut self, length: Length) {
        self.lengths.push(length);
        self.note(self.lengths.len() - 1);
    }

    /// Takes a length out; the last one gets its number.
    pub(super) fn remove_length(&mut self, length: usize) -> Length {
        let removed = self.lengths.swap_remove(length);
        for link in &removed.links {
            self.whereabouts.forget(&link.film);
        }
        if length < self.lengths.len() {
            self.note(length);
        }
        removed
    }

    /// Where a frame is: the length and the link.
    pub(super) fn find(&self, roll: &RollId, frame: u32) -> Result<(usize, usize), CannotBe> {
        self.where_is(roll, frame)
            .ok_or_else(|| self.why_not(roll, frame))
    }

    pub(super) fn where_is(&self, roll: &RollId, frame: u32) -> Option<(usize, usize)> {
        let before = self.whereabouts.0.get(roll)?.range(..=frame).next_back();
        let length = *before?.1;
        let holds = |l: &super::Link| l.film.holds(roll, frame);
        let link = self.lengths[length].links.iter().position(holds)?;
        Some((length, link))
    }

    /// The links that hold frames of a stretch of a roll, in the order of the roll.
    pub(super) fn within(&self, roll: &RollId, begin: u32, end: u32) -> Vec<(usize, usize)> {
        let Some(of_roll) = self.whereabouts.0.get(roll) else {
            return Vec::new();
        };
        let from = of_roll
            .range(..=begin)
            .next_back()
            .map_or(begin, |(b, _)| *b);
        let of_link = |(first, length): (&u32, &usize)| {
            let holds = |l: &super::Link| l.film.holds(roll, *first);
            let link = self.lengths[*length].links.iter().position(holds)?;
            Some((*length, link))
        };
        let all = of_roll.range(from..end.max(from)).filter_map(of_link);
        all.filter(|(c, l)| {
            matches!(self.lengths[*c].links[*l].film, Film::Roll { end: to, .. } if to > begin)
        })
        .collect()
    }

    fn why_not(&self, roll: &RollId, frame: u32) -> CannotBe {
        let Some(frames) = self.rolls.get(roll) else {
            return CannotBe::NoRoll { roll: roll.clone() };
        };
        let at = name(roll, frame);
        let went = |g: &&super::Gone| g.roll == *roll && g.frames.contains(at.frame);
        match self.gone.iter().find(went) {
            Some(gone) => CannotBe::NoMore {
                frame: at,
                how: match gone.how {
                    How::Eaten => "eaten by a join",
                    How::Opened => "spoiled when a join was opened",
                    How::Torn => "torn",
                },
            },
            None if frame >= *frames => CannotBe::Beyond { frame: at },
            None => CannotBe::NoRoll { roll: roll.clone() },
        }
    }
}
