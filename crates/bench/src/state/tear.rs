//! Film that comes apart: by the blade, or torn.

use onestrand_film::{FrameRange, RollId};

use super::{BenchState, CannotBe, Film, Gone, How, Length, Link, Made, Place};

impl BenchState {
    /// Divides a link before a frame that it holds, and its length with it.
    pub(super) fn divide(&mut self, length: usize, link: usize, before: u32) {
        let Film::Roll { roll, begin, end } = self.lengths[length].links[link].film.clone() else {
            return;
        };
        let film = |begin, end| Film::Roll {
            roll: roll.clone(),
            begin,
            end,
        };
        let laid = self.lengths[length].links[link].laid;
        let (first, second) = match laid.is_tail_first() {
            true => (film(before, end), film(begin, before)),
            false => (film(begin, before), film(before, end)),
        };
        self.whereabouts.note(&first, length);
        self.lengths[length].links[link].film = first;
        let tail = self.lengths[length].tail.take();
        let mut rest = self.lengths[length].links.split_off(link + 1);
        rest.insert(
            0,
            Link {
                film: second,
                laid,
                join: None,
            },
        );
        self.set_apart(length, rest, tail);
    }

    /// What came off a length becomes one of its own. Off the reel it lies on the
    /// bench, and the tail leader comes off it; film turned back keeps its own.
    pub(super) fn set_apart(&mut self, length: usize, links: Vec<Link>, tail: Option<Made>) {
        if links.is_empty() {
            return;
        }
        let place = match &self.lengths[length].place {
            // Two lengths on one pin would be one too many to find.
            Place::TakeUp | Place::Pin(_) | Place::Bench => Place::Bench,
            other => other.clone(),
        };
        if length == 0 {
            self.ended = None;
        }
        self.add_length(Length { links, tail, place });
    }

    /// Frames torn out of whatever they hang in. A join at their edge goes too.
    pub(super) fn tear(
        &mut self,
        roll: &RollId,
        frames: FrameRange,
        entry: usize,
    ) -> Result<(), CannotBe> {
        let (begin, end) = (frames.begin().index(), frames.end().index());
        for frame in begin..end {
            self.find(roll, frame)?;
        }
        let mut at = begin;
        while at < end {
            let (length, link) = self.find(roll, at)?;
            let Film::Roll { end: to, .. } = self.lengths[length].links[link].film else {
                break;
            };
            let upto = end.min(to);
            self.isolate(roll, at, upto)?;
            let (length, link) = self.find(roll, at)?;
            self.take_out(length, link);
            at = upto;
        }
        self.gone.push(Gone {
            roll: roll.clone(),
            frames,
            how: How::Torn,
            entry,
        });
        Ok(())
    }

    /// Makes a link of exactly these frames, which lie in one link.
    fn isolate(&mut self, roll: &RollId, begin: u32, end: u32) -> Result<(), CannotBe> {
        for place in [begin, end] {
            let Some(behind) = place.checked_sub(1) else {
                continue;
            };
            let (Ok((length, link)), Ok(other)) = (self.find(roll, place), self.find(roll, behind))
            else {
                continue;
            };
            if (length, link) == other {
                self.divide(length, link, place);
            }
        }
        Ok(())
    }

    /// Takes a link out of its length: what was behind it comes apart.
    fn take_out(&mut self, length: usize, link: usize) {
        let tail = self.lengths[length].tail.take();
        let mut rest = self.lengths[length].links.split_off(link);
        let torn = rest.remove(0);
        self.forget(&torn.film);
        if let Some(first) = rest.first_mut() {
            first.join = None;
        }
        if rest.is_empty() && length == 0 {
            self.ended = None;
        }
        self.set_apart(length, rest, tail);
        if self.lengths[length].links.is_empty() && length != 0 {
            self.remove_length(length);
        }
    }
}
