//! A length that came off the reel, parted from what does not belong to it.

use super::coming::{Coming, join_at};
use super::left::pos;
use super::writer::Writer;
use super::{CannotBe, Deed, Film, Place};

impl Writer<'_> {
    /// Opens the joins at the ends of pieces that hang together, where they are
    /// joined to what does not belong there, and cuts off what is too much.
    pub(super) fn part_from_wrong(&mut self, first: usize, last: usize) -> Result<(), CannotBe> {
        let Some(film) = (first..=last).find(|i| self.frame(*i).is_some()) else {
            return Ok(());
        };
        for (i, tail) in [(first, false), (last, true)] {
            self.part_end(film, i, tail)?;
        }
        Ok(())
    }

    /// One end of a piece, or of pieces that hang together; `film` is one of them that
    /// is film of a roll.
    pub(super) fn part_end(&mut self, film: usize, i: usize, tail: bool) -> Result<(), CannotBe> {
        let join = self.wrong_join(film, i, tail);
        // Named by the piece beside it, where that has a name.
        let frame = self.frame(i).or_else(|| self.frame(film));
        if let (Some(join), Some(frame), false) = (join, frame, self.is_freed_by_blade(i, tail)) {
            self.does(Deed::Unjoin { frame, join }, Some(i))?;
        }
        if let (Film::Roll { roll, .. }, Some(at)) = self.blade(i, tail)
            && self.hangs_on(&roll, at)
        {
            let before = pos(at);
            self.does(Deed::Cut { roll, before }, Some(i))?;
        }
        Ok(())
    }

    /// Whether the blade frees an end of a piece on the film turned back, so that the
    /// join behind what is cut off may stay until something else wants it opened.
    fn is_freed_by_blade(&self, i: usize, tail: bool) -> bool {
        let (Film::Roll { roll, .. }, Some(at)) = self.blade(i, tail) else {
            return false;
        };
        let Some((c, l)) = self.place(i) else {
            return false;
        };
        let length = &self.state.lengths[c];
        let Film::Roll { begin, end, .. } = length.links[l].film else {
            return false;
        };
        let lost = join_at(&self.state, (c, l), tail).map_or(0, |(join, behind)| {
            let made = length.links.get(join).map_or(length.tail, |l| l.join);
            let opened = made.map(|made| self.table.row(made.kind).opened);
            opened.map_or(0, |o| {
                u32::from(if behind { o.in_head } else { o.out_tail })
            })
        });
        // Where opening would tear all that is too much, it frees the end itself.
        let too_much = if tail {
            end.checked_sub(at)
        } else {
            at.checked_sub(begin)
        };
        length.place == Place::Made
            && self.hangs_on(&roll, at)
            && too_much.is_some_and(|frames| frames > lost)
    }

    /// The film of a piece, and where the blade goes at an end of it.
    fn blade(&self, i: usize, tail: bool) -> (Film, Option<u32>) {
        let coming = &self.coming[i];
        (coming.part.film.clone(), coming.blades[usize::from(tail)])
    }

    /// Whether something must still be opened or cut at an end of pieces that hang
    /// together.
    pub(super) fn is_held(&self, film: usize, i: usize, tail: bool) -> bool {
        let by_blade = match self.blade(i, tail) {
            (Film::Roll { roll, .. }, Some(at)) => self.hangs_on(&roll, at),
            _ => false,
        };
        by_blade || self.wrong_join(film, i, tail).is_some()
    }

    /// The join at an end of a run of pieces, if there is one.
    fn wrong_join(&self, film: usize, i: usize, tail: bool) -> Option<usize> {
        let ends = [i == 0, i + 1 == self.coming.len()];
        if self.leaders[usize::from(tail)] && ends[usize::from(tail)] {
            return None;
        }
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
