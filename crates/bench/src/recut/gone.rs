//! Which frames are lost.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use onestrand_cut::{Bite, JoinKind, JoinTable, Strand};
use onestrand_film::{FrameRange, Span};

use super::apart::Change;
use super::joints::{self, Films, Joints, Laid};

/// A frame or a place, by the number of its film.
type At = (usize, i64);

/// What changes cost in frames.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Cost {
    pub(super) put_back: usize,
    /// What the new version wants, by roll and place.
    pub(super) lost: Vec<Span>,
    /// What is lost of lifted strips.
    pub(super) lost_outs: Vec<Span>,
}

/// How many frames lie in these.
pub(super) fn frames(spans: &[Span]) -> usize {
    let frames = spans.iter().map(|s| s.range.len().count() as usize);
    frames.sum()
}

/// All film as it lies when the old version is made: strips in it, and what is
/// left of the rolls.
pub(super) struct Film<'a> {
    old: &'a Joints,
    new: &'a Joints,
    films: &'a Films,
    table: &'a JoinTable,
    /// Frames of each film by its number; of leader none.
    lengths: Vec<i64>,
    /// How film is joined back inside a strip.
    usual: JoinKind,
    /// Places where the film is cut, with the joins of the old version there.
    cuts: BTreeMap<At, Vec<usize>>,
    /// Strips of the new version by film and first frame.
    wanted: BTreeMap<At, i64>,
    /// The same with the index of each strip.
    strips: BTreeMap<At, usize>,
    /// Strips of the old version of which the new one wants nothing.
    lifted: BTreeMap<At, i64>,
}

fn spans<'a>(strips: impl Iterator<Item = &'a Laid>) -> BTreeMap<At, i64> {
    let span = |s: &Laid| Some(((s.roll()?, i64::from(s.begin)), i64::from(s.end)));
    strips.filter_map(span).collect()
}

fn holds(spans: &BTreeMap<At, i64>, at: &At) -> bool {
    let before = spans.range(..=*at).next_back();
    before.is_some_and(|((roll, _), end)| *roll == at.0 && at.1 < *end)
}

impl<'a> Film<'a> {
    pub(super) fn new(
        (old, new): (&'a Joints, &'a Joints),
        films: &'a Films,
        strand: &Strand,
        table: &'a JoinTable,
        usual: JoinKind,
    ) -> Self {
        let mut cuts: BTreeMap<At, Vec<usize>> = BTreeMap::new();
        for (index, strip) in old.strips.iter().enumerate() {
            if let Some(roll) = strip.roll() {
                let (begin, end) = strip.extent;
                cuts.entry((roll, begin)).or_default().push(index);
                cuts.entry((roll, end)).or_default().push(index + 1);
            }
        }
        let length = |film: &joints::Film| match film {
            joints::Film::Roll(roll) => strand.roll(roll).map_or(0, |r| r.frames.count().into()),
            _ => 0,
        };
        let indexed = new.strips.iter().enumerate();
        let strips = indexed.filter_map(|(i, s)| Some(((s.roll()?, i64::from(s.begin)), i)));
        let wanted = spans(new.strips.iter());
        let apart = |s: &&Laid| s.roll().is_some() && !touches(&wanted, s);
        let lifted = spans(old.strips.iter().filter(apart));
        Self {
            old,
            new,
            films,
            table,
            lengths: films.all().iter().map(length).collect(),
            usual,
            cuts,
            strips: strips.collect(),
            wanted,
            lifted,
        }
    }

    /// What some of the changes cost, the others left undone.
    pub(super) fn cost(&self, changes: &[Change], which: &BTreeSet<usize>) -> Cost {
        let chosen = || which.iter().filter_map(|i| changes.get(*i));
        let opened: BTreeSet<usize> = chosen().flat_map(|c| c.opened.clone()).collect();
        let made: BTreeSet<usize> = chosen().flat_map(|c| c.made.clone()).collect();
        let (gone, put_back) = self.done(&opened, &made);
        let of = |spans: &BTreeMap<At, i64>| {
            let gone = gone.frames.iter().filter(|f| holds(spans, f));
            self.named(gone)
        };
        Cost {
            put_back,
            lost: of(&self.wanted),
            lost_outs: of(&self.lifted),
        }
    }

    fn done(&self, opened: &BTreeSet<usize>, made: &BTreeSet<usize>) -> (Gone<'_>, usize) {
        let mut gone = Gone {
            film: self,
            frames: BTreeSet::new(),
            lying: Lying::default(),
        };
        opened.iter().for_each(|joint| gone.open(*joint));
        let put_back = gone.put_back(opened);
        made.iter().for_each(|joint| gone.make(*joint));
        (gone, put_back)
    }

    /// What each strip of the new version is put together of.
    pub(super) fn lying(&self, opened: &BTreeSet<usize>, made: &BTreeSet<usize>) -> Lying {
        self.done(opened, made).0.lying
    }

    /// Frames torn from the head and from the tail of a strip of the old version when
    /// the joins there are opened.
    pub(super) fn torn(&self, strip: usize) -> (i64, i64) {
        let opened = |joint: usize| {
            let joint = self.old.joints.get(joint);
            joint.map_or_else(Bite::default, |j| self.table.row(j.kind).opened)
        };
        let (head, tail) = (opened(strip), opened(strip + 1));
        (head.in_head.into(), tail.out_tail.into())
    }

    /// Whether film ends at a place: there the blade was before, or the roll ends.
    pub(super) fn ends_at(&self, roll: usize, place: i64) -> bool {
        !self.goes_on(roll, place)
    }

    /// Frames in their order as stretches of their rolls.
    fn named<'f>(&self, frames: impl Iterator<Item = &'f At>) -> Vec<Span> {
        let mut runs: Vec<(usize, i64, i64)> = Vec::new();
        for (film, frame) in frames {
            match runs.last_mut() {
                Some((of, _, end)) if of == film && *end == *frame => *end += 1,
                _ => runs.push((*film, *frame, frame + 1)),
            }
        }
        let span = |(film, begin, end): (usize, i64, i64)| {
            let Some(joints::Film::Roll(roll)) = self.films.film(film) else {
                return None;
            };
            let (begin, end) = (u32::try_from(begin).ok()?, u32::try_from(end).ok()?);
            Some(Span::new(roll.clone(), FrameRange::of(begin, end).ok()?))
        };
        let mut spans: Vec<Span> = runs.into_iter().filter_map(span).collect();
        spans.sort();
        spans
    }

    /// Whether film goes on from one frame to the next where it lies now.
    fn goes_on(&self, roll: usize, place: i64) -> bool {
        let frames = self.lengths.get(roll).copied().unwrap_or(0);
        place > 0 && place < frames && !self.cuts.contains_key(&(roll, place))
    }

    /// Where a join of the old version cut strips of the new one: the strip, and
    /// the place inside it.
    fn cut_inside(&self, joint: usize) -> impl Iterator<Item = (usize, i64)> {
        let tail = joint.checked_sub(1).and_then(|i| self.old.strips.get(i));
        let tail = tail.and_then(|s| Some((s.roll()?, s.extent.1)));
        let head = self.old.strips.get(joint);
        let head = head.and_then(|s| Some((s.roll()?, s.extent.0)));
        tail.into_iter().chain(head).filter_map(|(roll, place)| {
            let before = self.strips.range(..(roll, place)).next_back();
            let (_, index) = before.filter(|((of, _), _)| *of == roll)?;
            let strip = &self.new.strips[*index];
            (place < i64::from(strip.end)).then_some((*index, place))
        })
    }
}

fn touches(wanted: &BTreeMap<At, i64>, strip: &Laid) -> bool {
    let Some(roll) = strip.roll() else {
        return false;
    };
    let first = (roll, i64::from(strip.begin));
    let last = (roll, i64::from(strip.end));
    holds(wanted, &first) || wanted.range(first..last).next().is_some()
}

/// How the film lies that a new version is made of.
#[derive(Debug, Default)]
pub(super) struct Lying {
    /// Strips that are put together of several stretches: which, from cut to cut.
    pub(super) parts: BTreeMap<usize, Vec<(i64, i64)>>,
    /// Frames that go on beyond the ends and are given to a join: behind the tail
    /// before it, and before the head behind it.
    pub(super) given: BTreeMap<usize, (i64, i64)>,
}

/// Frames gone for good.
struct Gone<'a> {
    film: &'a Film<'a>,
    frames: BTreeSet<At>,
    lying: Lying,
}

impl Gone<'_> {
    fn take(&mut self, roll: usize, frames: Range<i64>) {
        let all = frames.map(|f| (roll, f));
        self.frames.extend(all);
    }

    fn has(&self, roll: usize, frame: i64) -> bool {
        self.frames.contains(&(roll, frame))
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
        // From head to tail of each strip, each place once.
        let places: BTreeSet<(usize, i64)> = opened
            .iter()
            .flat_map(|joint| film.cut_inside(*joint))
            .collect();
        let places: Vec<(usize, i64)> = places.into_iter().collect();
        let mut count = 0;
        for (at, (index, place)) in places.iter().enumerate() {
            let strip = &film.new.strips[*index];
            let Some(roll) = strip.roll() else { continue };
            let next = places.get(at + 1).filter(|(of, _)| of == index);
            let end = next.map_or(i64::from(strip.end), |(_, next)| *next);
            let here = |range: Range<i64>| range.filter(|f| !self.has(roll, *f)).count();
            let left = here(i64::from(strip.begin)..*place);
            let right = here(*place..end);
            let first = i64::from(strip.begin)..*place;
            let parts = self.lying.parts.entry(*index);
            let parts = parts.or_insert_with(|| vec![(first.start, first.end)]);
            // A part of which the join would leave nothing is not joined back.
            if right <= usize::from(bite.in_head) {
                self.take(roll, *place..end);
            } else if left <= usize::from(bite.out_tail) {
                *parts = vec![(*place, end)];
                self.take(roll, first);
            } else {
                parts.push((*place, end));
                count += 1;
                self.eat(strip, bite, *place);
            }
        }
        count
    }

    /// A join at a place inside a strip eats of what is wanted.
    fn eat(&mut self, strip: &Laid, bite: Bite, place: i64) {
        let Some(roll) = strip.roll() else { return };
        let (begin, end) = (i64::from(strip.begin), i64::from(strip.end));
        self.own_tail(roll, begin..place, usize::from(bite.out_tail));
        self.own_head(roll, place..end, usize::from(bite.in_head));
    }

    /// Takes so many of the last frames still there.
    fn own_tail(&mut self, roll: usize, frames: Range<i64>, count: usize) {
        let there = frames.rev().filter(|f| !self.has(roll, *f));
        let last: Vec<At> = there.take(count).map(|f| (roll, f)).collect();
        self.frames.extend(last);
    }

    /// Takes so many of the first frames still there.
    fn own_head(&mut self, roll: usize, frames: Range<i64>, count: usize) {
        let there = frames.filter(|f| !self.has(roll, *f));
        let first: Vec<At> = there.take(count).map(|f| (roll, f)).collect();
        self.frames.extend(first);
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
            let has = has.count();
            self.lying.given.entry(index).or_default().0 = i64::try_from(has).unwrap_or(0);
            let own = usize::try_from(wants).unwrap_or(0) - has;
            self.own_tail(roll, begin..end, own);
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
            let has = has.count();
            self.lying.given.entry(index).or_default().1 = i64::try_from(has).unwrap_or(0);
            let own = usize::try_from(wants).unwrap_or(0) - has;
            self.own_head(roll, begin..end, own);
        }
    }
}
