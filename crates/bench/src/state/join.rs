//! Joining and opening.

use onestrand_cut::{Bite, JoinTable};

use super::whole::{name, range};
use super::{BenchState, CannotBe, Film, Gone, How, Laid, Length, Link, Made, Next, Place};

/// An end of a length, as it lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum End {
    Head,
    Tail,
}

/// Takes frames off an end of a link, and says which. Leader gives its own.
fn take_off(link: &mut Link, end: End, count: u8) -> Result<Option<(u32, u32)>, CannotBe> {
    let Film::Roll {
        roll,
        begin,
        end: to,
    } = &mut link.film
    else {
        return Ok(None);
    };
    let count = u32::from(count);
    if count == 0 {
        return Ok(None);
    }
    if *to - *begin <= count {
        let frame = name(roll, *begin);
        return Err(CannotBe::TooShort { frame });
    }
    // End for end, the tail of the film lies where its head would.
    let low = (end == End::Head) != (link.laid == Laid::EndForEnd);
    let off = if low {
        let off = (*begin, *begin + count);
        *begin += count;
        off
    } else {
        let off = (*to - count, *to);
        *to -= count;
        off
    };
    Ok(Some(off))
}

impl BenchState {
    pub(super) fn join(
        &mut self,
        next: &Next,
        made: Made,
        laid: Laid,
        table: &JoinTable,
    ) -> Result<(), CannotBe> {
        if self.ended.is_some() {
            return Err(CannotBe::Ended);
        }
        let from = self.is_next_known(next)?;
        let mut incoming = match (next, from) {
            (Next::Film(_), Some(length)) => self.lengths[length].links.clone(),
            (Next::Other { position, frames }, _) => {
                let (position, frames) = (*position, *frames);
                let film = Film::Other { position, frames };
                Length::of(film, Place::Bench).links
            }
            _ => Vec::new(),
        };
        match laid {
            Laid::Right => {}
            Laid::TurnedOver => incoming.iter_mut().for_each(|l| l.laid = laid),
            Laid::EndForEnd => {
                incoming.reverse();
                incoming.iter_mut().for_each(|l| l.laid = laid);
            }
        }
        let bite = table.row(made.kind).bite;
        let mut outgoing = self.reel().last().cloned();
        let mut gone = Vec::new();
        if let Some(link) = &mut outgoing {
            gone.extend(eaten(link, End::Tail, bite, made.entry)?);
        }
        if let Some(link) = incoming.first_mut() {
            gone.extend(eaten(link, End::Head, bite, made.entry)?);
            link.join = Some(made);
        }
        // Nothing fails from here on.
        if let (Some(link), Some(last)) = (outgoing, self.lengths[0].links.last_mut()) {
            *last = link;
        }
        self.gone.extend(gone);
        if matches!(next, Next::TailLeader) {
            self.ended = Some(made);
        }
        self.lengths[0].links.extend(incoming);
        if let Some(length) = from {
            self.lengths.remove(length);
        }
        Ok(())
    }

    pub(super) fn open(
        &mut self,
        join: usize,
        table: &JoinTable,
        entry: usize,
    ) -> Result<(), CannotBe> {
        let links = self.reel().len();
        let made = match (self.reel().get(join), self.ended) {
            (Some(link), _) => link.join,
            (None, Some(made)) if join == links => Some(made),
            _ => None,
        };
        let made = made.ok_or(CannotBe::NoJoin { join })?;
        let opened = table.row(made.kind).opened;
        let mut before = join.checked_sub(1).map(|i| self.reel()[i].clone());
        let mut behind = self.reel().get(join).cloned();
        let mut gone = Vec::new();
        if let Some(link) = &mut before {
            gone.extend(spoiled(link, End::Tail, opened, entry)?);
        }
        if let Some(link) = &mut behind {
            gone.extend(spoiled(link, End::Head, opened, entry)?);
            link.join = None;
        }
        let mut rest = self.lengths[0].links.split_off(join);
        if let (Some(link), Some(last)) = (before, self.lengths[0].links.last_mut()) {
            *last = link;
        }
        match (behind, rest.first_mut()) {
            (Some(link), Some(first)) => {
                *first = link;
                self.ended = None;
                self.lengths.push(Length {
                    links: rest,
                    place: Place::Bench,
                });
            }
            _ => self.ended = None,
        }
        self.gone.extend(gone);
        Ok(())
    }
}

fn eaten(link: &mut Link, end: End, bite: Bite, entry: usize) -> Result<Option<Gone>, CannotBe> {
    lost(link, end, bite, How::Eaten, entry)
}

fn spoiled(link: &mut Link, end: End, bite: Bite, entry: usize) -> Result<Option<Gone>, CannotBe> {
    lost(link, end, bite, How::Opened, entry)
}

fn lost(
    link: &mut Link,
    end: End,
    bite: Bite,
    how: How,
    entry: usize,
) -> Result<Option<Gone>, CannotBe> {
    let count = match end {
        End::Head => bite.in_head,
        End::Tail => bite.out_tail,
    };
    let off = take_off(link, end, count)?;
    let Film::Roll { roll, .. } = &link.film else {
        return Ok(None);
    };
    Ok(off.and_then(|(begin, end)| {
        Some(Gone {
            roll: roll.clone(),
            frames: range(begin, end)?,
            how,
            entry,
        })
    }))
}
