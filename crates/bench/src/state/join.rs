//! Joining and opening.

use onestrand_cut::{Bite, JoinTable};

use super::whole::{first_frame, name, range};
use super::{BenchState, CannotBe, Film, Gone, How, Laid, Length, Link, Made, Next, Place};

/// An end of a length, as it lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum End {
    Head,
    Tail,
}

impl End {
    fn of(self, bite: Bite) -> u32 {
        u32::from(match self {
            Self::Head => bite.in_head,
            Self::Tail => bite.out_tail,
        })
    }
}

/// Takes frames off an end of a link, all of it at most, and says which. Leader
/// gives its own.
fn take_off(link: &mut Link, end: End, count: u32, how: How, entry: usize) -> Option<Gone> {
    let low = (end == End::Head) != link.laid.is_tail_first();
    let Film::Roll {
        roll,
        begin,
        end: to,
    } = &mut link.film
    else {
        return None;
    };
    let count = count.min(*to - *begin);
    // End for end, the tail of the film lies where its head would.
    let (first, behind) = if low {
        *begin += count;
        (*begin - count, *begin)
    } else {
        *to -= count;
        (*to, *to + count)
    };
    Some(Gone {
        roll: roll.clone(),
        frames: range(first, behind)?,
        how,
        entry,
    })
}

/// What a join eats of an end; something of the link must be left.
fn eaten(link: &mut Link, end: End, bite: Bite, entry: usize) -> Result<Option<Gone>, CannotBe> {
    match &link.film {
        Film::Roll { roll, begin, .. } if link.film.frames() <= end.of(bite) => {
            let frame = name(roll, *begin);
            Err(CannotBe::TooShort { frame })
        }
        _ => Ok(take_off(link, end, end.of(bite), How::Eaten, entry)),
    }
}

/// Lays a length otherwise.
fn turn(links: &mut [Link], by: Laid) {
    for link in links.iter_mut() {
        link.laid = link.laid.turned(by);
    }
    if by.is_tail_first() {
        links.reverse();
        // A join is kept with what lies behind it.
        let mut joins: Vec<Option<Made>> = links.iter().map(|l| l.join).collect();
        joins.rotate_right(1);
        for (link, join) in links.iter_mut().zip(joins) {
            link.join = join;
        }
        if let Some(first) = links.first_mut() {
            first.join = None;
        }
    }
}

impl BenchState {
    /// The length that comes next: its number if it is one of the bench, and its
    /// links as they will lie.
    fn incoming(&self, next: &Next, laid: Laid) -> Result<(Option<usize>, Vec<Link>), CannotBe> {
        match next {
            Next::Film(frame) => {
                let length = self.loose(frame)?;
                let (_, link) = self.find(&frame.roll, frame.frame.index())?;
                let mut links = self.lengths[length].links.clone();
                let by = links[link].laid.turned(laid);
                let has = &self.lengths[length];
                // A leader stands where it stands: nothing is joined before a head
                // leader, and what has one does not lie end for end.
                if has.head().is_some() || (has.tail.is_some() && by.is_tail_first()) {
                    let frame = frame.clone();
                    return Err(CannotBe::LeaderThere { frame });
                }
                turn(&mut links, by);
                Ok((Some(length), links))
            }
            Next::Other { position, frames } => {
                let (position, frames) = (*position, *frames);
                let film = Film::Other { position, frames };
                // One that came off the reel again is taken before a new one.
                let from = self.lone(&film, false).or_else(|| self.lone(&film, true));
                let mut links = match from {
                    Some(length) => self.lengths[length].links.clone(),
                    None => Length::of(film, Place::Bench).links,
                };
                links.iter_mut().for_each(|l| l.laid = laid);
                Ok((from, links))
            }
            Next::Last { position, frames } => {
                let (position, frames) = (*position, *frames);
                let film = Film::Other { position, frames };
                let from = self.lone(&film, true).ok_or(CannotBe::NoTailLeader)?;
                let mut links = self.lengths[from].links.clone();
                links.iter_mut().for_each(|l| l.laid = laid);
                Ok((Some(from), links))
            }
            Next::TailLeader => Ok((None, Vec::new())),
        }
    }

    /// Leader or a card that lies alone off the reel; of the film turned back, also one
    /// that more leader or cards hang on.
    fn lone(&self, film: &Film, with_tail: bool) -> Option<usize> {
        let is_other = |l: &Link| matches!(l.film, Film::Other { .. });
        let is_it = |c: &Length| {
            let alone = c.links.len() == 1;
            let made = c.place == Place::Made && c.links.iter().all(is_other);
            (alone || made)
                && c.links.first().is_some_and(|l| l.film == *film)
                && c.tail.is_some() == with_tail
        };
        let off = self.lengths.iter().skip(1);
        off.into_iter().position(is_it).map(|i| i + 1)
    }

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
        let (from, mut incoming) = self.incoming(next, laid)?;
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
        if let Some(length) = from {
            let tail = self.remove_length(length).tail;
            // A leader in the way of leader or a card is simply taken off.
            self.ended = tail.filter(|_| !matches!(next, Next::Other { .. }));
        }
        if let Some(link) = outgoing {
            self.put_last(0, Some(link));
        }
        for link in incoming {
            self.whereabouts.note(&link.film, 0);
            self.lengths[0].links.push(link);
        }
        self.gone.extend(gone);
        if matches!(next, Next::TailLeader) {
            self.ended = Some(made);
        }
        Ok(())
    }

    /// Puts another link in the place of the last one of a length, or none.
    fn put_last(&mut self, length: usize, link: Option<Link>) {
        if let Some(was) = self.lengths[length].links.pop() {
            self.forget(&was.film);
        }
        if let Some(link) = link {
            self.whereabouts.note(&link.film, length);
            self.lengths[length].links.push(link);
        }
    }

    /// Opens a join of the reel.
    pub(super) fn open(
        &mut self,
        join: usize,
        table: &JoinTable,
        entry: usize,
    ) -> Result<(), CannotBe> {
        let made = match (self.reel().get(join), self.ended) {
            (Some(link), _) => link.join,
            (None, Some(made)) if join == self.reel().len() => Some(made),
            _ => None,
        };
        let made = made.ok_or(CannotBe::NoJoin { join })?;
        self.come_apart(0, join, table.row(made.kind).opened, entry);
        Ok(())
    }

    /// Opens a join of a length off the reel.
    pub(super) fn unjoin(
        &mut self,
        length: usize,
        join: usize,
        table: &JoinTable,
        entry: usize,
    ) -> Result<(), CannotBe> {
        let links = &self.lengths[length].links;
        let made = match links.get(join) {
            Some(behind) => behind.join,
            None => self.lengths[length].tail.filter(|_| join == links.len()),
        };
        let made = made.ok_or_else(|| match first_frame(&self.lengths[length]) {
            Some(frame) => CannotBe::NoJoinThere { frame, join },
            None => CannotBe::NoJoin { join },
        })?;
        if self.lengths[length].place == Place::Made {
            self.wind_made_to_join(length, join)?;
        }
        self.come_apart(length, join, table.row(made.kind).opened, entry);
        Ok(())
    }

    /// Parts a length before a link. A snippet that the opening spoils wholly is
    /// no more.
    fn come_apart(&mut self, length: usize, link: usize, opened: Bite, entry: usize) {
        let tail = self.lengths[length].tail.take();
        let tail = tail.filter(|_| link < self.lengths[length].links.len());
        let mut rest = self.lengths[length].links.split_off(link);
        self.ended = self.ended.filter(|_| length != 0);
        let kept = |link: &Link| link.film.frames() > 0;
        if let Some(mut last) = self.lengths[length].links.last().cloned() {
            let lost = take_off(
                &mut last,
                End::Tail,
                End::Tail.of(opened),
                How::Opened,
                entry,
            );
            self.gone.extend(lost);
            self.put_last(length, Some(last).filter(kept));
        }
        if let Some(first) = rest.first_mut() {
            self.whereabouts.forget(&first.film);
            let lost = take_off(first, End::Head, End::Head.of(opened), How::Opened, entry);
            self.gone.extend(lost);
            if !kept(first) {
                rest.remove(0);
            }
        }
        if let Some(first) = rest.first_mut() {
            first.join = None;
        }
        self.set_apart(length, rest, tail);
        if length != 0 && self.lengths[length].links.is_empty() {
            self.remove_length(length);
        }
    }
}
