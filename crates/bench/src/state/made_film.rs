//! The film as it was made, turned back on the rewinds to be made anew.

use super::{BenchState, CannotBe, Film, Laid, Length, Place};

/// The made film as it ran when it was turned back: running frames are counted so
/// from then on, whatever is taken out of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct MadeFilm {
    /// Each link, how it lay, and its first running frame.
    links: Vec<(Film, Laid, u32)>,
    frames: u32,
    stands: u32,
    is_mounted: bool,
    /// How often film was turned back so far.
    times: usize,
}

impl MadeFilm {
    fn of(length: &Length, times: usize) -> Self {
        let mut at = 0;
        let links = length.links.iter().map(|link| {
            let first = at;
            at += link.film.frames();
            (link.film.clone(), link.laid, first)
        });
        Self {
            links: links.collect(),
            frames: at,
            stands: 0,
            is_mounted: false,
            times,
        }
    }

    /// The running frame of an edge of film: its head as it lies, or its tail.
    fn edge(&self, of: &Film, tail: bool) -> Option<u32> {
        self.links.iter().find_map(|(film, laid, first)| {
            match (film, of) {
                (
                    Film::Roll { roll, begin, end },
                    Film::Roll {
                        roll: r,
                        begin: b,
                        end: e,
                    },
                ) => {
                    let holds = roll == r && begin <= b && e <= end;
                    let lies = match (laid.is_tail_first(), tail) {
                        (false, false) => b.checked_sub(*begin),
                        (false, true) => e.checked_sub(*begin),
                        (true, false) => end.checked_sub(*e),
                        (true, true) => end.checked_sub(*b),
                    };
                    lies.filter(|_| holds)
                }
                (Film::Other { .. }, Film::Other { frames, .. }) => {
                    (film == of).then_some(if tail { *frames } else { 0 })
                }
                _ => None,
            }
            .map(|within| first + within)
        })
    }
}

impl BenchState {
    /// The running frame of the made film that lies at the splicer, and how many it
    /// had when it was turned back; none when no film was.
    #[must_use]
    pub fn made_stands(&self) -> Option<(u32, u32)> {
        self.made.as_ref().map(|m| (m.stands, m.frames))
    }

    /// How often the made film was turned back.
    #[must_use]
    pub fn turned_back(&self) -> usize {
        self.made.as_ref().map_or(0, |m| m.times)
    }

    /// Whether the made film is on the rewinds.
    #[must_use]
    pub fn is_made_mounted(&self) -> bool {
        self.made.as_ref().is_some_and(|m| m.is_mounted)
    }

    /// The running frame of an edge of a link of the made film.
    pub(super) fn running(&self, film: &Film, tail: bool) -> Option<u32> {
        self.made.as_ref()?.edge(film, tail)
    }

    pub(super) fn unmount(&mut self) {
        self.mounted = None;
        if let Some(made) = &mut self.made {
            made.is_mounted = false;
        }
    }

    pub(super) fn turn_back(&mut self, others: &[(usize, usize)]) -> Result<(), CannotBe> {
        if self.reel().is_empty() {
            return Err(CannotBe::NothingToTurn);
        }
        self.unmount();
        for length in &mut self.lengths {
            if length.place == Place::Made {
                length.place = Place::Bench;
            }
            for link in &mut length.links {
                if let Film::Other { position, .. } = &mut link.film
                    && let Some((_, now)) = others.iter().find(|(was, _)| was == position)
                {
                    *position = *now;
                }
            }
        }
        let length = Length {
            links: std::mem::take(&mut self.lengths[0].links),
            tail: self.ended.take(),
            place: Place::Made,
        };
        self.made = Some(MadeFilm::of(&length, self.turned_back() + 1));
        self.add_length(length);
        Ok(())
    }

    pub(super) fn mount_made(&mut self) -> Result<(), CannotBe> {
        let is_left = self.lengths.iter().any(|l| l.place == Place::Made);
        let made = self.made.as_mut().filter(|_| is_left);
        let made = made.ok_or(CannotBe::NothingMade)?;
        if !made.is_mounted {
            made.is_mounted = true;
            self.mounted = None;
            self.mountings += 1;
        }
        Ok(())
    }

    pub(super) fn wind_made(&mut self, to: u32) -> Result<(), CannotBe> {
        let made = self.made.as_mut().ok_or(CannotBe::NothingMade)?;
        if !made.is_mounted {
            return Err(CannotBe::MadeNotMounted);
        }
        let to = to.min(made.frames);
        self.wound += u64::from(made.stands.abs_diff(to));
        made.stands = to;
        Ok(())
    }

    /// Wound to where the blade goes, before a frame of a link.
    pub(super) fn wind_made_to(
        &mut self,
        length: usize,
        link: usize,
        before: u32,
    ) -> Result<(), CannotBe> {
        let link = &self.lengths[length].links[link];
        let Film::Roll { roll, end, .. } = &link.film else {
            return Ok(());
        };
        let behind = Film::Roll {
            roll: roll.clone(),
            begin: before,
            end: *end,
        };
        let at = self.running(&behind, link.laid.is_tail_first());
        self.wind_made(at.unwrap_or(0))
    }

    /// Wound to a join of a length, counted as in [`super::Deed::Unjoin`].
    pub(super) fn wind_made_to_join(&mut self, length: usize, join: usize) -> Result<(), CannotBe> {
        let links = &self.lengths[length].links;
        let at = match (links.get(join), links.last()) {
            (Some(behind), _) => self.running(&behind.film, false),
            (None, last) => last.and_then(|l| self.running(&l.film, true)),
        };
        self.wind_made(at.unwrap_or(0))
    }

    pub(super) fn lead(&mut self) -> Result<(), CannotBe> {
        if !self.reel().is_empty() || self.is_ended() {
            return Err(CannotBe::ReelNotEmpty);
        }
        let length = self.with_head_leader().ok_or(CannotBe::NoLeader)?;
        let led = self.remove_length(length);
        self.ended = led.tail;
        for link in led.links {
            self.whereabouts.note(&link.film, 0);
            self.lengths[0].links.push(link);
        }
        Ok(())
    }

    /// The length off the reel that a head leader hangs on: of the made film, if it is
    /// still there.
    pub(super) fn with_head_leader(&self) -> Option<usize> {
        let off = self.lengths.iter().enumerate().skip(1);
        let has = off.filter(|(_, l)| l.head().is_some());
        has.max_by_key(|(_, l)| l.place == Place::Made)
            .map(|(i, _)| i)
    }
}
