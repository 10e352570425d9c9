//! Taking what is wanted off the film that was turned back.

use onestrand_cut::JoinKind;
use onestrand_film::{FrameName, RollId};

use super::left::pos;
use super::rests::loose_others;
use super::whole::name;
use super::writer::Writer;
use super::{CannotBe, Deed, Film, Place};

/// Pieces that hang together on the made film.
#[derive(Debug, Clone, Copy)]
pub(super) struct Run {
    pub(super) first: usize,
    pub(super) last: usize,
    /// One of them that is film of a roll; where there is none, `first`.
    film: usize,
}

impl Writer<'_> {
    /// The pieces that a piece hangs together with, as they should.
    pub(super) fn run(&self, i: usize) -> Run {
        let joined = |i: &usize| self.coming.get(*i).is_some_and(|c| c.joined_before);
        let first = (1..=i).rev().take_while(joined).last().map_or(i, |k| k - 1);
        let last = (i + 1..).take_while(joined).last().unwrap_or(i);
        let film = (first..=last).find(|k| self.frame(*k).is_some());
        let film = film.unwrap_or(first);
        Run { first, last, film }
    }

    /// Where a piece is; also leader or a card that is joined to other film.
    fn lies(&self, i: usize) -> Option<(usize, usize)> {
        match &self.coming[i].part.film {
            Film::Roll { .. } => self.place(i),
            Film::Other { position, .. } => loose_others(&self.state).get(position).copied(),
        }
    }

    /// The running frame of an end of a piece on the made film.
    fn end_on_made(&self, i: usize, tail: bool) -> Option<u32> {
        let (c, l) = self.lies(i)?;
        let link = &self.state.lengths[c].links[l];
        let film = match &self.coming[i].part.film {
            // What is seen of it: more of the link may hang on.
            film @ Film::Roll { .. } => film,
            Film::Other { .. } => &link.film,
        };
        self.state.running(film, tail != link.laid.is_tail_first())
    }

    /// The ends of a run in the order in which they are parted: the piece, whether it
    /// is its tail, and its running frame.
    fn ends(&self, run: Run, backward: bool) -> Option<[(usize, bool, u32); 2]> {
        let head = (run.first, false, self.end_on_made(run.first, false)?);
        let tail = (run.last, true, self.end_on_made(run.last, true)?);
        Some(if backward { [tail, head] } else { [head, tail] })
    }

    /// Whether a run is taken from its tail.
    fn is_run_backward(&self, run: Run) -> bool {
        (run.first..=run.last).any(|i| self.is_backward(i))
    }

    /// Whether a piece must still be taken off the made film.
    pub(super) fn is_on_made(&self, i: usize) -> bool {
        let Some((c, _)) = self.lies(i) else {
            return false;
        };
        if self.state.lengths[c].place != Place::Made {
            return false;
        }
        let run = self.run(i);
        if self.is_end_held(run, run.first, false) || self.is_end_held(run, run.last, true) {
            return true;
        }
        let backward = self.is_run_backward(run);
        let (Some([_, far]), Some((stands, _))) =
            (self.ends(run, backward), self.state.made_stands())
        else {
            return false;
        };
        if backward {
            stands > far.2
        } else {
            stands < far.2
        }
    }

    fn is_end_held(&self, run: Run, i: usize, tail: bool) -> bool {
        if self.frame(run.film).is_some() {
            return self.is_held(run.film, i, tail);
        }
        self.other_join(i, tail).is_some()
    }

    /// The position of leader or a card that hangs on other film, and the join at an
    /// end of it.
    fn other_join(&self, i: usize, tail: bool) -> Option<(usize, usize)> {
        let ends = [i == 0, i + 1 == self.coming.len()];
        if self.leaders[usize::from(tail)] && ends[usize::from(tail)] {
            return None;
        }
        let (c, l) = self.lies(i)?;
        let (join, _) = super::coming::join_at(&self.state, (c, l), tail)?;
        match &self.state.lengths[c].links[l].film {
            Film::Other { position, .. } => Some((*position, join)),
            Film::Roll { .. } => None,
        }
    }

    /// Where a run begins as the made film runs; where it stands, if it is free there.
    pub(super) fn place_on_made(&self, i: usize) -> Option<u32> {
        let run = self.run(i);
        let [head, tail] = self.ends(run, false)?;
        let (stands, _) = self.state.made_stands()?;
        Some(match self.is_end_held(run, run.first, false) {
            true => head.2,
            false => stands.clamp(head.2, tail.2.max(head.2)),
        })
    }

    /// Takes a run off the made film: wound to one end of it, parted there, and so at
    /// the other.
    pub(super) fn take_off_made(&mut self, i: usize) -> Result<(), CannotBe> {
        let run = self.run(i);
        let backward = self.is_run_backward(run);
        let Some([near, far]) = self.ends(run, backward) else {
            return Ok(());
        };
        if !self.state.is_made_mounted() {
            self.does(Deed::MountMade, Some(i))?;
        }
        self.part_run(run, near.0, near.1)?;
        // Leader or a card that is freed lies in the hand, wherever the film stands.
        if self.lies(run.last).is_some() && !self.is_end_held(run, far.0, far.1) {
            let stands = self.state.made_stands().map_or(0, |(at, _)| at);
            let is_short = if backward {
                stands > far.2
            } else {
                stands < far.2
            };
            if is_short {
                self.wind_made(far.2, i)?;
            }
        }
        self.part_run(run, far.0, far.1)?;
        self.put(run.first)
    }

    fn wind_made(&mut self, to: u32, about: usize) -> Result<(), CannotBe> {
        let to = pos(to);
        self.does(Deed::WindMade { to }, Some(about))
    }

    fn part_run(&mut self, run: Run, i: usize, tail: bool) -> Result<(), CannotBe> {
        if self.frame(run.film).is_some() {
            return self.part_end(run.film, i, tail);
        }
        match self.other_join(i, tail) {
            Some((position, join)) => self.does(Deed::UnjoinOther { position, join }, Some(i)),
            None => Ok(()),
        }
    }

    /// What is opened, and the frames on either side of it: of a join off the reel, and of
    /// a cut in film turned back, which opens nothing.
    pub(super) fn parted(&self, deed: &Deed) -> Option<Parted> {
        let ((c, _), join) = match deed {
            Deed::Unjoin { frame, join } => {
                let place = self.state.where_is(&frame.roll, frame.frame.index());
                (place?, *join)
            }
            Deed::UnjoinOther { position, join } => {
                (loose_others(&self.state).get(position).copied()?, *join)
            }
            Deed::Cut { roll, before } => return self.cut_apart(roll, before.index()),
            _ => return None,
        };
        let length = &self.state.lengths[c];
        let before = join.checked_sub(1).and_then(|i| length.links.get(i));
        let behind = length.links.get(join);
        let made = behind.map_or(length.tail, |l| l.join);
        Some((
            made.map(|m| m.kind),
            before.and_then(|l| l.film.last_seen(l.laid)),
            behind.and_then(|l| l.film.first_seen(l.laid)),
        ))
    }

    fn cut_apart(&self, roll: &RollId, before: u32) -> Option<Parted> {
        let (c, l) = self.state.where_is(roll, before)?;
        let length = &self.state.lengths[c];
        let sides = [before.checked_sub(1)?, before].map(|frame| Some(name(roll, frame)));
        let [low, high] = sides;
        let (out, into) = match length.links[l].laid.is_tail_first() {
            true => (high, low),
            false => (low, high),
        };
        (length.place == Place::Made).then_some((None, out, into))
    }
}

/// The kind of join that is opened, and what lies before and behind.
pub(super) type Parted = (Option<JoinKind>, Option<FrameName>, Option<FrameName>);
