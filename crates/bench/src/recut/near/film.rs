//! What one strip costs when it begins and ends at given places.

use std::collections::BTreeMap;
use std::ops::Range;

use onestrand_cut::{Bite, JoinKind, JoinTable, Strand};

use crate::recut::joints::{Film, Films, Joints};

/// How a strip is joined at one end.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Tied {
    /// By a join of the old version that stays.
    Kept(usize),
    /// By a join made anew.
    Made,
}

/// A strip as it might be cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Wished {
    pub(super) film: usize,
    pub(super) begin: i64,
    pub(super) end: i64,
    pub(super) head: Tied,
    pub(super) tail: Tied,
    /// What the joins at both ends take when they are made.
    pub(super) bites: (Bite, Bite),
}

/// Where the old version has a join on one film.
#[derive(Debug, Default)]
struct Places {
    /// Ends of strips, with the join there.
    tails: BTreeMap<i64, (usize, i64)>,
    /// Beginnings of strips.
    heads: BTreeMap<i64, (usize, i64)>,
    /// Where the blade went, with the joins there.
    cuts: BTreeMap<i64, Vec<usize>>,
}

/// The end of a strip: its film and the place; none at head and tail leader.
pub(super) type End = Option<(usize, i64)>;

/// The film as the old version left it.
pub(super) struct Cutting<'a> {
    pub(super) olds: &'a Joints,
    pub(super) news: &'a Joints,
    pub(super) table: &'a JoinTable,
    /// How film is joined back inside a strip.
    usual: Bite,
    lengths: Vec<i64>,
    places: Vec<Places>,
    /// Joins of the old version by the ends they join.
    pub(super) joins: BTreeMap<(End, End), usize>,
    /// How far the acts at a place reach. Unit: frames.
    pub(super) reach: i64,
}

impl<'a> Cutting<'a> {
    pub(super) fn new(
        olds: &'a Joints,
        news: &'a Joints,
        films: &Films,
        strand: &Strand,
        table: &'a JoinTable,
        usual: JoinKind,
    ) -> Self {
        let mut places: Vec<Places> = Vec::new();
        places.resize_with(films.all().len(), Places::default);
        for (index, strip) in olds.strips.iter().enumerate() {
            let Some(roll) = strip.roll() else { continue };
            let (begin, end) = (i64::from(strip.begin), i64::from(strip.end));
            let on = &mut places[roll];
            on.tails.insert(end, (index + 1, begin));
            on.heads.insert(begin, (index, end));
            on.cuts.entry(strip.extent.0).or_default().push(index);
            on.cuts.entry(strip.extent.1).or_default().push(index + 1);
        }
        let ends = |joint: usize| {
            let before = joint.checked_sub(1).and_then(|i| olds.strips.get(i));
            let behind = olds.strips.get(joint);
            let before = before.map(|s| (s.film, i64::from(s.end)));
            (before, behind.map(|s| (s.film, i64::from(s.begin))))
        };
        let length = |film: &Film| match film {
            Film::Roll(roll) => strand.roll(roll).map_or(0, |r| r.frames.count().into()),
            _ => 0,
        };
        let reach = JoinKind::ALL.map(|kind| {
            let row = table.row(kind);
            let sides = [row.bite.out_tail, row.bite.in_head];
            let torn = [row.opened.out_tail, row.opened.in_head];
            i64::from(sides.iter().chain(&torn).copied().max().unwrap_or(0))
        });
        Self {
            olds,
            news,
            table,
            usual: table.row(usual).bite,
            lengths: films.all().iter().map(length).collect(),
            places,
            joins: (0..olds.joints.len()).map(|j| (ends(j), j)).collect(),
            reach: 2 * reach.into_iter().max().unwrap_or(0) + 1,
        }
    }

    /// Frames of a film.
    pub(super) fn length(&self, film: usize) -> i64 {
        self.lengths.get(film).copied().unwrap_or(0)
    }

    /// The join that an old strip ending there has behind it.
    pub(super) fn join_at_tail(&self, film: usize, end: i64) -> Option<usize> {
        Some(self.places.get(film)?.tails.get(&end)?.0)
    }

    /// Whether anything of the old version is within reach of a place.
    pub(super) fn is_touched(&self, film: usize, place: i64) -> bool {
        let near = place - self.reach..=place + self.reach;
        let ends = [0, self.length(film)];
        let Some(on) = self.places.get(film) else {
            return false;
        };
        ends.iter().any(|end| near.contains(end))
            || on.tails.range(near.clone()).next().is_some()
            || on.heads.range(near.clone()).next().is_some()
            || on.cuts.range(near).next().is_some()
    }

    /// What a join takes on each side, kept or made.
    pub(super) fn bite(&self, tied: Tied, made: Bite) -> Bite {
        match tied {
            Tied::Kept(joint) => self.olds.joints[joint].bite,
            Tied::Made => made,
        }
    }

    /// Places joined back inside a strip, and frames of it that are lost; nothing
    /// when it reaches beyond its roll.
    pub(super) fn cost(&self, wished: &Wished) -> Option<(i64, i64)> {
        let head = self.bite(wished.head, wished.bites.0).in_head;
        let tail = self.bite(wished.tail, wished.bites.1).out_tail;
        let (first, last) = (wished.begin - i64::from(head), wished.end + i64::from(tail));
        if first < 0 || last > self.length(wished.film) {
            return None;
        }
        let mut strip = Strip {
            cutting: self,
            wished,
            gone: Vec::new(),
        };
        strip.open();
        let put_back = strip.put_back();
        strip.make();
        let shown = wished.begin..wished.end;
        let lost = strip.gone.iter().filter(|f| shown.contains(f)).count();
        Some((put_back, i64::try_from(lost).unwrap_or(i64::MAX)))
    }
}

/// One strip while it is cut and joined.
struct Strip<'a> {
    cutting: &'a Cutting<'a>,
    wished: &'a Wished,
    /// Frames gone, in and beside it.
    gone: Vec<i64>,
}

impl Strip<'_> {
    fn is_gone(&self, frame: i64) -> bool {
        self.gone.contains(&frame)
    }

    fn lose(&mut self, frames: Range<i64>) {
        for frame in frames {
            if !self.is_gone(frame) {
                self.gone.push(frame);
            }
        }
    }

    fn stays(&self, joint: usize) -> bool {
        [self.wished.head, self.wished.tail].contains(&Tied::Kept(joint))
    }

    /// Every join of the old version in reach that does not stay is opened.
    fn open(&mut self) {
        let (cutting, wished) = (self.cutting, self.wished);
        let Some(on) = cutting.places.get(wished.film) else {
            return;
        };
        let near = wished.begin - cutting.reach..=wished.end + cutting.reach;
        for (end, (joint, begin)) in on.tails.range(near.clone()) {
            if !self.stays(*joint) {
                let (bite, opened) = self.row(*joint);
                let from = (*begin).max(end - i64::from(opened.out_tail));
                self.lose(from..end + i64::from(bite.out_tail));
            }
        }
        for (begin, (joint, end)) in on.heads.range(near) {
            if !self.stays(*joint) {
                let (bite, opened) = self.row(*joint);
                let to = (*end).min(begin + i64::from(opened.in_head));
                self.lose(begin - i64::from(bite.in_head)..to);
            }
        }
    }

    fn row(&self, joint: usize) -> (Bite, Bite) {
        let joint = self.cutting.olds.joints[joint];
        (joint.bite, self.cutting.table.row(joint.kind).opened)
    }

    fn put_back(&mut self) -> i64 {
        let (cutting, wished) = (self.cutting, self.wished);
        let Some(on) = cutting.places.get(wished.film) else {
            return 0;
        };
        if wished.end - wished.begin < 2 {
            return 0;
        }
        let cuts = on.cuts.range(wished.begin + 1..wished.end);
        let opened = cuts.filter(|(_, joints)| joints.iter().any(|j| !self.stays(*j)));
        let places: Vec<i64> = opened.map(|(place, _)| *place).collect();
        let mut count = 0;
        let bite = cutting.usual;
        for (at, place) in places.iter().enumerate() {
            let next = places.get(at + 1).copied().unwrap_or(wished.end);
            let right = self.here(*place..next, usize::from(bite.in_head) + 1);
            let left = self.here(wished.begin..*place, usize::from(bite.out_tail) + 1);
            if right <= usize::from(bite.in_head) {
                self.lose(*place..next);
            } else if left <= usize::from(bite.out_tail) {
                self.lose(wished.begin..*place);
            } else {
                count += 1;
                self.own((wished.begin..*place).rev(), bite.out_tail.into());
                self.own(*place..wished.end, bite.in_head.into());
            }
        }
        count
    }

    /// How many of these are there, as far as is asked.
    fn here(&self, frames: Range<i64>, enough: usize) -> usize {
        let there = frames.filter(|f| !self.is_gone(*f));
        there.take(enough).count()
    }

    /// Takes the first of these that are still there.
    fn own(&mut self, frames: impl Iterator<Item = i64>, count: usize) {
        let there = frames.filter(|f| !self.is_gone(*f));
        let taken: Vec<i64> = there.take(count).collect();
        self.gone.extend(taken);
    }

    fn goes_on(&self, place: i64) -> bool {
        let on = &self.cutting.places[self.wished.film];
        place > 0 && place < self.cutting.length(self.wished.film) && !on.cuts.contains_key(&place)
    }

    /// Joins it at the ends where no join stays: film that goes on is given, else
    /// frames of its own.
    fn make(&mut self) {
        let (begin, end) = (self.wished.begin, self.wished.end);
        if self.wished.head == Tied::Made {
            let wants = i64::from(self.wished.bites.0.in_head);
            let has = (0..wants).take_while(|i| {
                let whole = *i > 0 || !self.is_gone(begin);
                whole && self.goes_on(begin - i) && !self.is_gone(begin - i - 1)
            });
            let own = usize::try_from(wants).unwrap_or(0) - has.count();
            self.own(begin..end, own);
        }
        if self.wished.tail == Tied::Made {
            let wants = i64::from(self.wished.bites.1.out_tail);
            let has = (0..wants).take_while(|i| {
                let whole = *i > 0 || !self.is_gone(end - 1);
                whole && self.goes_on(end + i) && !self.is_gone(end + i)
            });
            let own = usize::try_from(wants).unwrap_or(0) - has.count();
            self.own((begin..end).rev(), own);
        }
    }
}
