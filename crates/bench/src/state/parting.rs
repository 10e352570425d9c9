//! A length that came off the reel, parted from what does not belong to it.

use super::coming::{Coming, join_at};
use super::left::pos;
use super::writer::Writer;
use super::{CannotBe, Deed, Film};

impl Writer<'_> {
    /// Opens the joins at the ends of pieces that hang together, where they are
    /// joined to what does not belong there, and cuts off what is too much.
    pub(super) fn part_from_wrong(&mut self, first: usize, last: usize) -> Result<(), CannotBe> {
        let Some(film) = (first..=last).find(|i| self.frame(*i).is_some()) else {
            return Ok(());
        };
        for (i, tail) in [(first, false), (last, true)] {
            let blade = self.coming[i].blades[usize::from(tail)];
            if let (Some(join), Some(frame)) = (self.wrong_join(film, i, tail), self.frame(film)) {
                self.does(Deed::Unjoin { frame, join }, Some(i))?;
            }
            if let (Film::Roll { roll, .. }, Some(at)) = (self.coming[i].part.film.clone(), blade)
                && self.hangs_on(&roll, at)
            {
                let before = pos(at);
                self.does(Deed::Cut { roll, before }, Some(i))?;
            }
        }
        Ok(())
    }

    /// The join at an end of a run of pieces, if there is one.
    fn wrong_join(&self, film: usize, i: usize, tail: bool) -> Option<usize> {
        let at = self.place(film)?;
        let by = match self.place(i) {
            Some(place) => place,
            // Leader or a card: as far along the length as it is in the run.
            None => {
                let laid = self.state.lengths[at.0].links[at.1].laid;
                let away = if (i < film) == laid.is_tail_first() {
                    at.1 + i.abs_diff(film)
                } else {
                    at.1.checked_sub(i.abs_diff(film))?
                };
                (at.0, away)
            }
        };
        let (join, _) = join_at(&self.state, by, tail)?;
        let link = &self.state.lengths[by.0].links.get(by.1)?.film;
        let part = &self.coming[i].part.film;
        let (
            Film::Roll { begin, end, .. },
            Film::Roll {
                begin: b,
                end: e,
                roll,
            },
        ) = (link, part)
        else {
            return Some(join);
        };
        // Where another piece of the same link lies between, the blade goes there.
        let between = |c: &Coming| match &c.part.film {
            Film::Roll {
                roll: r,
                begin: x,
                end: y,
            } => {
                r == roll
                    && if tail {
                        x >= e && y <= end
                    } else {
                        y <= b && x >= begin
                    }
            }
            Film::Other { .. } => false,
        };
        (!self.coming.iter().any(between)).then_some(join)
    }
}
