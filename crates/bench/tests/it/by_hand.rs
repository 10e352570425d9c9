//! A version made by hand of the rolls, and then made into another, act by act.

use std::collections::BTreeSet;

use onestrand_cut::{JoinKind, TrialCut};
use onestrand_film::Gauge;

use crate::strip::{Cell, Length, Wish, hides, is_leader, wishes};

/// What the hand did and what came of it.
#[derive(Debug, Default)]
pub(crate) struct Found {
    pub(crate) opened: usize,
    pub(crate) made: usize,
    pub(crate) kept: usize,
    pub(crate) leader_opened: usize,
    pub(crate) leader_made: usize,
    pub(crate) put_back: usize,
    /// What is shown in the end, the leaders at both ends left out.
    pub(crate) shown: Vec<Cell>,
    /// Wanted, and gone.
    pub(crate) lost: BTreeSet<Cell>,
    /// Torn from strips of which nothing is wanted.
    pub(crate) lost_outs: BTreeSet<Cell>,
}

fn head() -> Cell {
    ("head leader".to_owned(), 0)
}

fn tail() -> Cell {
    ("tail leader".to_owned(), 0)
}

fn leader(cell: Cell) -> Length {
    Length {
        cells: vec![cell],
        ..Length::default()
    }
}

/// The reel as a version says, and what is left of the rolls.
pub(crate) struct Bench {
    gauge: Gauge,
    lengths: Vec<Length>,
}

/// How many frames a strip hands to the joins on both its sides.
fn tongues(wishes: &[Wish], usual: JoinKind, gauge: Gauge, at: usize) -> (usize, usize) {
    let before = match at.checked_sub(1) {
        Some(before) => wishes[before].join,
        None => usual,
    };
    (hides(gauge, before).1, hides(gauge, wishes[at].join).0)
}

impl Bench {
    /// Cuts a version out of whole rolls and joins it.
    pub(crate) fn first_cut(cut: &TrialCut, rolls: &[(&str, u32)], gauge: Gauge) -> Self {
        let whole = rolls.iter().map(|(name, frames)| Length {
            cells: (0..*frames).map(|f| ((*name).to_owned(), f)).collect(),
            ..Length::default()
        });
        let mut bench = Self {
            gauge,
            lengths: whole.collect(),
        };
        let wishes = wishes(cut);
        let mut reel = leader(head());
        let mut kind = cut.usual_join();
        for (at, wish) in wishes.iter().enumerate() {
            let over = tongues(&wishes, cut.usual_join(), gauge, at);
            let strip = match is_leader(&wish.cells[0]) {
                true => Length {
                    cells: wish.cells.clone(),
                    ..Length::default()
                },
                false => bench.take_out(&wish.cells, over),
            };
            reel = reel.join(strip, kind, gauge);
            kind = wish.join;
        }
        bench.lengths.push(reel.join(leader(tail()), kind, gauge));
        bench
    }

    /// The reel, and what is left of the rolls.
    pub(crate) fn laid_out(mut self) -> (Length, Vec<Length>) {
        let reel = self.find(&head()).expect("the head leader").0;
        (self.lengths.swap_remove(reel), self.lengths)
    }

    /// Cuts so much film out of one length, with what is to hang over.
    fn take_out(&mut self, cells: &[Cell], (over_head, over_tail): (usize, usize)) -> Length {
        let (of, first) = self.find(&cells[0]).expect("it is there");
        let length = self.lengths.swap_remove(of);
        let begin = first.checked_sub(over_head).expect("film to hang over");
        let end = first + cells.len() + over_tail;
        assert_eq!(&length.cells[first..end - over_tail], cells);
        assert!(end <= length.cells.len(), "film to hang over");
        let mut strip = length;
        if end < strip.cells.len() {
            let (here, rest) = strip.cut(end);
            self.lengths.push(rest);
            strip = here;
        }
        if begin > 0 {
            let (rest, here) = strip.cut(begin);
            self.lengths.push(rest);
            strip = here;
        }
        Length {
            over_head,
            over_tail,
            ..strip
        }
    }

    fn find(&self, cell: &Cell) -> Option<(usize, usize)> {
        let of = |length: &Length| length.cells.iter().position(|c| c == cell);
        let mut all = self.lengths.iter().enumerate();
        all.find_map(|(i, length)| Some((i, of(length)?)))
    }

    /// Makes the film into another version. The order of the acts is drawn.
    pub(crate) fn recut(mut self, old: &TrialCut, new: &TrialCut, draw: &mut Draw) -> Found {
        let is = wishes(new);
        let mut found = Found::default();
        self.open_all(&wishes(old), &is, draw, &mut found);
        let mut loose = self.gather(&is, new, &mut found);
        // Which joins are there still, and which are to be made.
        let mut open: Vec<usize> = Vec::new();
        for joint in 0..=is.len() {
            let (before, behind) = ends_at(&is, joint);
            let inner = joint > 0 && joint < is.len();
            if self.is_joined(&before, &behind) {
                found.kept += usize::from(inner);
                continue;
            }
            match inner {
                true => found.made += 1,
                false => found.leader_made += 1,
            }
            open.push(joint);
        }
        while !open.is_empty() {
            let joint = open.swap_remove(draw.below(open.len()));
            let kind = match joint.checked_sub(1) {
                Some(before) => is[before].join,
                None => new.usual_join(),
            };
            self.make(&mut loose, joint, kind);
        }
        let all: BTreeSet<&Cell> = is.iter().flat_map(|w| &w.cells).collect();
        let reel = self.find(&head()).expect("the head leader").0;
        let cells = &self.lengths[reel].cells;
        assert_eq!((&cells[0], cells.last()), (&head(), Some(&tail())));
        found.shown = cells[1..cells.len() - 1].to_vec();
        let shown: BTreeSet<&Cell> = found.shown.iter().collect();
        found.lost = all.difference(&shown).map(|c| (*c).clone()).collect();
        found
    }

    fn is_joined(&self, before: &Cell, behind: &Cell) -> bool {
        let Some((of, at)) = self.find(behind) else {
            return false;
        };
        let length = &self.lengths[of];
        at > 0 && length.joined_before(at) && length.cells[at - 1] == *before
    }

    /// Opens every join that the new version has not.
    fn open_all(&mut self, was: &[Wish], is: &[Wish], draw: &mut Draw, found: &mut Found) {
        let wanted: BTreeSet<&Cell> = is.iter().flat_map(|w| &w.cells).collect();
        let stays: Vec<(Cell, Cell)> = (0..=is.len()).map(|j| ends_at(is, j)).collect();
        let reel = self.find(&head()).expect("the head leader").0;
        let mut todo: Vec<(Cell, Cell)> = Vec::new();
        for splice in &self.lengths[reel].splices {
            let cells = &self.lengths[reel].cells;
            let pair = (
                cells[splice.before - 1].clone(),
                cells[splice.before].clone(),
            );
            if !stays.contains(&pair) {
                todo.push(pair);
            }
        }
        while !todo.is_empty() {
            let (before, behind) = todo.swap_remove(draw.below(todo.len()));
            match before == head() || behind == tail() {
                true => found.leader_opened += 1,
                false => found.opened += 1,
            }
            // Of a strip so short that the join before has torn all of it there is
            // no end left to look for; such strips are not drawn.
            let (of, at) = self.splice_after(&before, &behind);
            let length = self.lengths.swap_remove(of);
            let (out, incoming, torn) = length.open(at, self.gauge);
            self.lengths.extend([out, incoming]);
            for cell in torn {
                let strip = was.iter().find(|w| w.cells.contains(&cell));
                let strip = strip.expect("it was shown");
                if !strip.cells.iter().any(|c| wanted.contains(c)) {
                    found.lost_outs.insert(cell);
                }
            }
        }
        self.lengths.retain(|l| !l.cells.is_empty());
    }

    /// The join of two ends; the frames at its sides may be torn by now.
    fn splice_after(&self, before: &Cell, behind: &Cell) -> (usize, usize) {
        for (of, length) in self.lengths.iter().enumerate() {
            for (at, splice) in length.splices.iter().enumerate() {
                let sides = (
                    &length.cells[splice.before - 1],
                    &length.cells[splice.before],
                );
                if sides == (before, behind) {
                    return (of, at);
                }
            }
        }
        panic!("no join between {before:?} and {behind:?}");
    }

    /// Cuts out and joins back what belongs into each strip. Strips whose joins
    /// stay are not touched there. For each strip the cells at its two ends.
    fn gather(&mut self, is: &[Wish], new: &TrialCut, found: &mut Found) -> Vec<(Cell, Cell)> {
        let mut ends = Vec::new();
        for (at, wish) in is.iter().enumerate() {
            if is_leader(&wish.cells[0]) {
                if self.find(&wish.cells[0]).is_none() {
                    self.lengths.push(Length {
                        cells: wish.cells.clone(),
                        ..Length::default()
                    });
                }
                let last = wish.cells.last().expect("a frame");
                ends.push((wish.cells[0].clone(), last.clone()));
                continue;
            }
            let over = tongues(is, new.usual_join(), self.gauge, at);
            let mut parts = self.parts(&wish.cells);
            for part in &parts {
                self.free(part, &wish.cells, over);
            }
            while parts.len() > 1 {
                let (left, right) = (parts.remove(0), parts.remove(0));
                let (tail, head) = hides(self.gauge, new.usual_join());
                // A part of which the join would leave nothing is not joined back.
                let part = if right.len() <= head {
                    left
                } else if left.len() <= tail {
                    right
                } else {
                    found.put_back += 1;
                    self.put_back(&left, &right, new.usual_join())
                };
                parts.insert(0, part);
            }
            let part = parts.pop().expect("some of it is there");
            ends.push((part[0].clone(), part[part.len() - 1].clone()));
        }
        ends
    }

    /// The runs of frames still hanging together.
    fn parts(&self, cells: &[Cell]) -> Vec<Vec<Cell>> {
        let mut parts: Vec<Vec<Cell>> = Vec::new();
        let mut last: Option<(usize, usize)> = None;
        for cell in cells {
            let place = self.find(cell);
            match (place, last) {
                (Some((of, at)), Some((was, before))) if of == was && at == before + 1 => {
                    parts.last_mut().expect("a part").push(cell.clone());
                }
                (Some(_), _) => parts.push(vec![cell.clone()]),
                (None, _) => {}
            }
            last = place.or(last);
        }
        parts
    }

    /// Cuts a part free on both sides, unless a join that stays is there. At the
    /// ends of the strip film that goes on is left hanging over.
    fn free(&mut self, part: &[Cell], cells: &[Cell], over: (usize, usize)) {
        let (of, first) = self.find(&part[0]).expect("it is there");
        let mut length = self.lengths.swap_remove(of);
        let last = first + part.len();
        let at_end = part.last() == cells.last();
        if last < length.cells.len() && !length.joined_before(last) {
            let goes_on = run_behind(&length, last).min(over.1);
            let keep = if at_end { goes_on } else { 0 };
            if last + keep < length.cells.len() && !length.joined_before(last + keep) {
                let (here, rest) = length.cut(last + keep);
                self.lengths.push(rest);
                length = here;
                length.over_tail = keep;
            } else if last + keep == length.cells.len() {
                length.over_tail = keep;
            } else {
                panic!("a tongue reaches into a join");
            }
        }
        let at_begin = part.first() == cells.first();
        if first > 0 && !length.joined_before(first) {
            let keep = if at_begin {
                run_before(&length, first).min(over.0)
            } else {
                0
            };
            if first > keep {
                let (rest, here) = length.cut(first - keep);
                self.lengths.push(rest);
                length = here;
            }
            length.over_head = keep;
        }
        self.lengths.push(length);
    }

    fn put_back(&mut self, left: &[Cell], right: &[Cell], kind: JoinKind) -> Vec<Cell> {
        let (tail, head) = hides(self.gauge, kind);
        let (of, _) = self.find(&left[0]).expect("it is there");
        let one = self.lengths.swap_remove(of);
        let (of, _) = self.find(&right[0]).expect("it is there");
        let other = self.lengths.swap_remove(of);
        let (kept, then) = (&left[..left.len() - tail], &right[head..]);
        let over = (one.over_tail, other.over_head);
        assert_eq!(over, (0, 0), "film was cut there");
        self.lengths.push(one.join(other, kind, self.gauge));
        kept.iter().chain(then).cloned().collect()
    }

    fn make(&mut self, strips: &mut [(Cell, Cell)], joint: usize, kind: JoinKind) {
        let before = joint
            .checked_sub(1)
            .map_or_else(head, |i| strips[i].1.clone());
        let behind = strips.get(joint).map_or_else(tail, |s| s.0.clone());
        for end in [head(), tail()] {
            if self.find(&end).is_none() {
                self.lengths.push(leader(end));
            }
        }
        let (of, at) = self.find(&before).expect("the end of a strip");
        let one = self.lengths.swap_remove(of);
        assert_eq!(at + 1 + one.over_tail, one.cells.len(), "a loose end");
        let (of, at) = self.find(&behind).expect("the head of a strip");
        let other = self.lengths.swap_remove(of);
        assert_eq!(at, other.over_head, "a loose end");
        self.lengths.push(one.join(other, kind, self.gauge));
    }
}

fn ends_at(wishes: &[Wish], joint: usize) -> (Cell, Cell) {
    let before = joint.checked_sub(1).map(|i| &wishes[i].cells);
    let before = before.map_or_else(head, |c| c[c.len() - 1].clone());
    let behind = wishes.get(joint).map_or_else(tail, |w| w.cells[0].clone());
    (before, behind)
}

/// Frames of whole film from here on.
fn run_behind(length: &Length, from: usize) -> usize {
    let whole = |at: &usize| !length.joined_before(*at) && !is_leader(&length.cells[*at]);
    (from..length.cells.len()).take_while(whole).count()
}

/// Frames of whole film before here.
fn run_before(length: &Length, to: usize) -> usize {
    let whole = |at: &usize| !length.joined_before(*at + 1) && !is_leader(&length.cells[*at]);
    (0..to).rev().take_while(whole).count()
}

/// Numbers drawn from a seed.
pub(crate) struct Draw(pub(crate) u64);

impl Draw {
    pub(crate) fn below(&mut self, count: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 % count as u64).expect("small")
    }
}
