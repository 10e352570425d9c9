//! Which frames are lost.

use std::collections::{BTreeMap, BTreeSet};

use onestrand_cut::{Bite, JoinKind, JoinTable, Strand};
use onestrand_film::RollId;

use super::apart::Change;
use super::joints::{Joints, Laid};

/// A frame or a place, by roll.
type At = (RollId, i64);

/// What changes cost in frames.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(super) struct Cost {
    pub(super) put_back: usize,
    pub(super) lost: usize,
    pub(super) lost_outs: usize,
}

/// All film as it lies when the old version is made: strips in it, and what is
/// left of the rolls.
pub(super) struct Film<'a> {
    old: &'a Joints,
    new: &'a Joints,
    table: &'a JoinTable,
    strand: &'a Strand,
    /// How film is joined back inside a strip.
    usual: JoinKind,
    /// Places where the film is cut, with the joins of the old version there.
    cuts: BTreeMap<At, Vec<usize>>,
    /// Strips of the new version by roll and first frame.
    wanted: BTreeMap<At, i64>,
    /// Strips of the old version of which the new one wants nothing.
    lifted: BTreeMap<At, i64>,
}

fn spans<'a>(strips: impl Iterator<Item = &'a Laid>) -> BTreeMap<At, i64> {
    let span = |s: &Laid| Some(((s.roll()?.clone(), i64::from(s.begin)), i64::from(s.end)));
    strips.filter_map(span).collect()
}

fn holds(spans: &BTreeMap<At, i64>, at: &At) -> bool {
    let before = spans.range(..=at.clone()).next_back();
    before.is_some_and(|((roll, _), end)| *roll == at.0 && at.1 < *end)
}

impl<'a> Film<'a> {
    pub(super) fn new(
        old: &'a Joints,
        new: &'a Joints,
        strand: &'a Strand,
        table: &'a JoinTable,
        usual: JoinKind,
    ) -> Self {
        let mut cuts: BTreeMap<At, Vec<usize>> = BTreeMap::new();
        for (index, strip) in old.strips.iter().enumerate() {
            if let Some(roll) = strip.roll() {
                let (begin, end) = strip.extent;
                cuts.entry((roll.clone(), begin)).or_default().push(index);
                cuts.entry((roll.clone(), end)).or_default().push(index + 1);
            }
        }
        let wanted = spans(new.strips.iter());
        let apart = |s: &&Laid| s.roll().is_some() && !touches(&wanted, s);
        let lifted = spans(old.strips.iter().filter(apart));
        Self {
            old,
            new,
            table,
            strand,
            usual,
            cuts,
            wanted,
            lifted,
        }
    }

    /// What some of the changes cost, the others left undone.
    pub(super) fn cost(&self, changes: &[Change], which: &BTreeSet<usize>) -> Cost {
        let chosen = || which.iter().filter_map(|i| changes.get(*i));
        let opened: BTreeSet<usize> = chosen().flat_map(|c| c.opened.clone()).collect();
        let made: BTreeSet<usize> = chosen().flat_map(|c| c.made.clone()).collect();
        let mut gone = Gone {
            film: self,
            frames: BTreeSet::new(),
        };
        opened.iter().for_each(|joint| gone.open(*joint));
        let put_back = gone.put_back(&opened);
        made.iter().for_each(|joint| gone.make(*joint));
        let of = |spans: &BTreeMap<At, i64>| gone.frames.iter().filter(|f| holds(spans, f)).count();
        Cost {
            put_back,
            lost: of(&self.wanted),
            lost_outs: of(&self.lifted),
        }
    }

    /// Whether film goes on from one frame to the next where it lies now.
    fn goes_on(&self, roll: &RollId, place: i64) -> bool {
        let frames = self.strand.roll(roll).map_or(0, |r| r.frames.count());
        place > 0 && place < i64::from(frames) && !self.cuts.contains_key(&(roll.clone(), place))
    }
}

fn touches(wanted: &BTreeMap<At, i64>, strip: &Laid) -> bool {
    let Some(roll) = strip.roll() else {
        return false;
    };
    let first = (roll.clone(), i64::from(strip.begin));
    let last = (roll.clone(), i64::from(strip.end));
    holds(wanted, &first) || wanted.range(first..last).next().is_some()
}

/// Frames gone for good.
struct Gone<'a> {
    film: &'a Film<'a>,
    frames: BTreeSet<At>,
}

impl Gone<'_> {
    fn take(&mut self, roll: &RollId, frames: std::ops::Range<i64>) {
        let all = frames.map(|f| (roll.clone(), f));
        self.frames.extend(all);
    }

    fn has(&self, roll: &RollId, frame: i64) -> bool {
        self.frames.contains(&(roll.clone(), frame))
    }

    /// Opens a join: what it ate stays spoiled, and it takes more with it.
    fn open(&mut self, index: usize) {
        let film = self.film;
        let Some(joint) = film.old.joints.get(index) else {
            return;
        };
        let opened = film.table.row(joint.kind).opened;
        if let Some(out) = index.checked_sub(1).and_then(|i| film.old.strips.get(i))
            && let Some(roll) = out.roll()
        {
            let (begin, end) = (i64::from(out.begin), i64::from(out.end));
            let from = begin.max(end - i64::from(opened.out_tail));
            self.take(roll, from..end + i64::from(joint.bite.out_tail));
        }
        if let Some(incoming) = film.old.strips.get(index)
            && let Some(roll) = incoming.roll()
        {
            let (begin, end) = (i64::from(incoming.begin), i64::from(incoming.end));
            let to = end.min(begin + i64::from(opened.in_head));
            self.take(roll, begin - i64::from(joint.bite.in_head)..to);
        }
    }

    /// Joins film back where it was cut inside strips of the new version, as far
    /// as the joins opened cut it. How many places.
    fn put_back(&mut self, opened: &BTreeSet<usize>) -> usize {
        let film = self.film;
        let bite = film.table.row(film.usual).bite;
        let mut count = 0;
        for strip in &film.new.strips {
            let Some(roll) = strip.roll() else { continue };
            let (begin, end) = (i64::from(strip.begin), i64::from(strip.end));
            let from = (roll.clone(), begin + 1);
            for ((_, place), joints) in film.cuts.range(from..(roll.clone(), end)) {
                if !joints.iter().any(|j| opened.contains(j)) {
                    continue;
                }
                let here = |f: &i64| !self.has(roll, *f);
                let left = (begin..*place).rfind(here);
                let right = (*place..end).find(here);
                if left.is_some() && right.is_some() {
                    count += 1;
                    self.eat(strip, bite, *place);
                }
            }
        }
        count
    }

    /// A join at a place inside a strip eats of what is wanted.
    fn eat(&mut self, strip: &Laid, bite: Bite, place: i64) {
        let Some(roll) = strip.roll() else { return };
        let left: Vec<i64> = self.still(roll, i64::from(strip.begin)..place);
        let right: Vec<i64> = self.still(roll, place..i64::from(strip.end));
        let tail = left.iter().rev().take(usize::from(bite.out_tail));
        let head = right.iter().take(usize::from(bite.in_head));
        let eaten: Vec<i64> = tail.chain(head).copied().collect();
        for frame in eaten {
            self.take(roll, frame..frame + 1);
        }
    }

    fn still(&self, roll: &RollId, frames: std::ops::Range<i64>) -> Vec<i64> {
        frames.filter(|f| !self.has(roll, *f)).collect()
    }

    /// Makes a join: film that goes on behind the tail or before the head is
    /// given; where none is left, the strip gives of its own.
    fn make(&mut self, index: usize) {
        let film = self.film;
        let Some(joint) = film.new.joints.get(index) else {
            return;
        };
        if let Some(out) = index.checked_sub(1).and_then(|i| film.new.strips.get(i))
            && let Some(roll) = out.roll()
        {
            let (begin, end) = (i64::from(out.begin), i64::from(out.end));
            let wants = i64::from(joint.bite.out_tail);
            let has = (0..wants).take_while(|i| {
                let whole = *i > 0 || !self.has(roll, end - 1);
                whole && film.goes_on(roll, end + i) && !self.has(roll, end + i)
            });
            let own = usize::try_from(wants).unwrap_or(0) - has.count();
            let last: Vec<i64> = self
                .still(roll, begin..end)
                .into_iter()
                .rev()
                .take(own)
                .collect();
            for frame in last {
                self.take(roll, frame..frame + 1);
            }
        }
        if let Some(incoming) = film.new.strips.get(index)
            && let Some(roll) = incoming.roll()
        {
            let (begin, end) = (i64::from(incoming.begin), i64::from(incoming.end));
            let wants = i64::from(joint.bite.in_head);
            let has = (0..wants).take_while(|i| {
                let whole = *i > 0 || !self.has(roll, begin);
                whole && film.goes_on(roll, begin - i) && !self.has(roll, begin - i - 1)
            });
            let own = usize::try_from(wants).unwrap_or(0) - has.count();
            let first: Vec<i64> = self.still(roll, begin..end).into_iter().take(own).collect();
            for frame in first {
                self.take(roll, frame..frame + 1);
            }
        }
    }
}
