//! Which joins off the reel stay: between film that belongs together, and with the
//! leaders of the film turned back.

use super::coming::{Choice, InLink};
use super::rests::{LetGo, Rest, is_let_go, let_go};
use super::{Film, Laid, Place};

impl Choice<'_> {
    /// Whether each rest hangs together with the one that comes before it.
    pub(super) fn joined(&self, in_link: &InLink) -> Vec<bool> {
        let let_go = let_go(self.state);
        let is = |i: usize| {
            let before = i.checked_sub(1)?;
            let (one, other) = (&self.rests[before], &self.rests[i]);
            let ((c, l), (d, m)) = (one.place?, other.place?);
            let links = &self.state.lengths[c].links;
            let laid = links[l].laid;
            let (low, high) = if laid.is_tail_first() { (m, l) } else { (l, m) };
            if c != d || low + 1 != high || links[m].laid != laid {
                return None;
            }
            let last = in_link.get(&(c, l))?.last() == Some(&before);
            let first = in_link.get(&(d, m))?.first() == Some(&i);
            let whole = self.is_whole(&let_go, one, true) && self.is_whole(&let_go, other, false);
            (last && first && whole).then_some(())
        };
        let mut joined: Vec<bool> = (0..self.rests.len()).map(|i| is(i).is_some()).collect();
        self.part_without_film(&mut joined);
        joined
    }

    /// Several pieces of leader or cards that hang together with no film have no frame
    /// to be named by: each is joined by itself.
    fn part_without_film(&self, joined: &mut [bool]) {
        let mut first = 0;
        while first < joined.len() {
            let more = joined[first + 1..].iter().take_while(|j| **j).count();
            let run = first..=first + more;
            let is_film = |i: usize| {
                self.version.strips.strips[self.rests[i].strip]
                    .span
                    .is_some()
            };
            let place = self.rests[first].place;
            let made = place.is_some_and(|(c, _)| self.state.lengths[c].place == Place::Made);
            if !made && !run.clone().any(is_film) {
                joined[run].fill(false);
            }
            first += more + 1;
        }
    }

    /// Whether a rest goes to the end of its link, so that the join there may stay. A
    /// link that is too long is left so where the user let it be; of film that was
    /// turned back to be made anew it is made right.
    fn is_whole(&self, let_go: &LetGo<'_>, rest: &Rest, tail: bool) -> bool {
        let Some((c, l)) = rest.place else {
            return false;
        };
        let length = &self.state.lengths[c];
        let exact = length.place == Place::Made;
        match &length.links[l].film {
            Film::Other { .. } => true,
            Film::Roll { roll, end, .. } if tail => {
                !is_let_go(let_go, roll, rest.end, *end) && (!exact || rest.end == *end)
            }
            Film::Roll { roll, begin, .. } => {
                !is_let_go(let_go, roll, *begin, rest.begin) && (!exact || rest.begin == *begin)
            }
        }
    }

    /// Whether the film comes with its leaders, as it was made.
    pub(super) fn leaders(&self, in_link: &InLink) -> [bool; 2] {
        let let_go = let_go(self.state);
        let keeps = |i: usize, tail: bool| {
            let rest = self.rests.get(i)?;
            let place = rest.place?;
            let length = &self.state.lengths[place.0];
            let has = match tail {
                true => length.tail.filter(|_| place.1 + 1 == length.links.len()),
                false => length.head().filter(|_| place.1 == 0),
            };
            let beside = in_link.get(&place)?;
            let ends = if tail { beside.last() } else { beside.first() };
            let right = length.links[place.1].laid == Laid::Right && ends == Some(&i);
            (has.is_some() && right && self.is_whole(&let_go, rest, tail)).then_some(())
        };
        let head = self.state.reel().is_empty() && !self.state.is_ended();
        let last = self.rests.len().checked_sub(1);
        [
            head && keeps(0, false).is_some(),
            last.is_some_and(|i| keeps(i, true).is_some()),
        ]
    }
}
