//! The cheapest way along the cut, strip after strip.
//!
//! What a strip costs hangs on its two ends and on how it is joined there, so the
//! best way to every end can be carried along.

use super::Worth;
use super::film::{Cutting, End, Tied, Wished};
use super::windows::Windows;

/// How a join is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Joined {
    Kept(usize),
    Made,
    Grown,
}

/// Where every strip begins and ends, and how every join is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Laying {
    pub(super) ends: Vec<(i64, i64)>,
    pub(super) joints: Vec<Joined>,
}

/// The best way so far to one end.
#[derive(Debug, Clone, Copy)]
struct Way {
    worth: Worth,
    place: i64,
    tied: Tied,
    /// The way it comes from, in the list before it.
    from: usize,
    /// The first strip of those grown together.
    first: usize,
}

/// The ways to the beginning or the end of each strip.
pub(super) struct Course<'a> {
    cutting: &'a Cutting<'a>,
    windows: &'a Windows,
    heads: Vec<Vec<Way>>,
    tails: Vec<Vec<Way>>,
}

impl<'a> Course<'a> {
    pub(super) const fn new(cutting: &'a Cutting<'a>, windows: &'a Windows) -> Self {
        Self {
            cutting,
            windows,
            heads: Vec::new(),
            tails: Vec::new(),
        }
    }

    /// The cheapest laying; nothing when the windows leave none.
    pub(super) fn best(mut self) -> Option<(Worth, Laying)> {
        let count = self.cutting.news.strips.len();
        for strip in 0..count {
            let ways = self.to_head(strip);
            self.heads.push(ways);
            let ways = self.to_tail(strip);
            self.tails.push(ways);
        }
        let last = self.to_leader(count)?;
        let joins = i64::try_from(self.cutting.olds.joints.len()).unwrap_or(i64::MAX);
        let worth = plus(last.worth, [joins, 0, 0]);
        Some((worth, self.walked_back(last)))
    }

    /// Ways to the beginning of a strip, over the join before it.
    fn to_head(&self, strip: usize) -> Vec<Way> {
        let film = self.cutting.news.strips[strip].film;
        let begins = self.windows.begins_of(strip, self.cutting);
        let mut ways: Vec<Way> = Vec::new();
        for place in begins {
            let behind = Some((film, place));
            if strip == 0 {
                if let Some((tied, worth)) = self.joined(0, None, behind, None) {
                    ways.push(Way {
                        worth,
                        place,
                        tied,
                        from: 0,
                        first: 0,
                    });
                }
                continue;
            }
            let before = self.cutting.news.strips[strip - 1].film;
            for (from, tail) in self.tails[strip - 1].iter().enumerate() {
                let ends = (Some((before, tail.place)), behind);
                let joined = self.joined(strip, ends.0, ends.1, Some(tail.tied));
                if let Some((tied, worth)) = joined {
                    let way = Way {
                        worth: plus(tail.worth, worth),
                        place,
                        tied,
                        from,
                        first: 0,
                    };
                    keep_best(&mut ways, way);
                }
            }
        }
        for way in &mut ways {
            way.worth[2] +=
                way.place
                    .abs_diff(self.cutting.news.strips[strip].begin.into()) as i64;
        }
        ways
    }

    /// How two ends are joined, if they may be and as the strip before it expects.
    fn joined(
        &self,
        joint: usize,
        before: End,
        behind: End,
        expected: Option<Tied>,
    ) -> Option<(Tied, Worth)> {
        let may = self.windows.joints[joint];
        let kept = self.cutting.joins.get(&(before, behind));
        let (tied, worth) = match kept {
            Some(old) if may.kept => (Tied::Kept(*old), [-1, 0, 0]),
            // Film that goes on has no join.
            None if may.made && before != behind => (Tied::Made, [1, 0, 0]),
            _ => return None,
        };
        (expected.is_none() || expected == Some(tied)).then_some((tied, worth))
    }

    /// Ways to the end of a strip, from its own beginning or from that of one that it
    /// has grown together with.
    fn to_tail(&self, last: usize) -> Vec<Way> {
        let mut ways: Vec<Way> = Vec::new();
        let laid = &self.cutting.news.strips[last];
        let mut first = last;
        loop {
            for place in self.windows.ends_of(last, self.cutting) {
                let old = self.cutting.join_at_tail(laid.film, place);
                let old = old.or_else(|| self.leader_join(last));
                let ties = old.map(Tied::Kept).into_iter().chain([Tied::Made]);
                for tied in ties {
                    self.over(first, last, (place, tied), &mut ways);
                }
            }
            if first == 0 || !self.windows.joints[first].grown {
                return ways;
            }
            first -= 1;
        }
    }

    /// The join behind a strip of leader, or a card, if the old version has it.
    fn leader_join(&self, strip: usize) -> Option<usize> {
        let laid = &self.cutting.news.strips[strip];
        if laid.roll().is_some() {
            return None;
        }
        let is = |old: &crate::recut::joints::Laid| old.film == laid.film && old.end == laid.end;
        Some(self.cutting.olds.strips.iter().position(is)? + 1)
    }

    fn over(&self, first: usize, last: usize, (place, tied): (i64, Tied), ways: &mut Vec<Way>) {
        let (news, windows) = (self.cutting.news, self.windows);
        let laid = &news.strips[last];
        for (from, head) in self.heads[first].iter().enumerate() {
            let Some(grown) = self.grown(first, last, (head.place, place)) else {
                continue;
            };
            if place - head.place < windows.floors[first].min(windows.floors[last]) {
                continue;
            }
            let wished = Wished {
                film: laid.film,
                begin: head.place,
                end: place,
                head: head.tied,
                tail: tied,
                bites: (news.joints[first].bite, news.joints[last + 1].bite),
            };
            let cost = match laid.roll() {
                Some(_) => self.cutting.cost(&wished),
                None => Some((0, 0)),
            };
            let Some((put_back, lost)) = cost else {
                continue;
            };
            let shift = place.abs_diff(laid.end.into()) as i64;
            let way = Way {
                worth: plus(head.worth, [put_back, lost, shift + grown]),
                place,
                tied,
                from,
                first,
            };
            keep_best(ways, way);
        }
    }

    /// How far boundaries are shifted so that strips grow together.
    fn grown(&self, first: usize, last: usize, ends: (i64, i64)) -> Option<i64> {
        let mut shift = 0;
        for joint in first + 1..=last {
            self.meeting(joint, (first, last), ends)?;
            let strips = &self.cutting.news.strips;
            shift += i64::from(strips[joint].begin) - i64::from(strips[joint - 1].end);
        }
        Some(shift)
    }

    /// Where two strips meet that grow together: between their ends.
    fn meeting(
        &self,
        joint: usize,
        (first, last): (usize, usize),
        ends: (i64, i64),
    ) -> Option<i64> {
        let strips = &self.cutting.news.strips;
        let (end, begin) = (self.windows.ends[joint - 1], self.windows.begins[joint]);
        let mut low = i64::from(strips[joint - 1].end).max(end.0).max(begin.0);
        let mut high = i64::from(strips[joint].begin).min(end.1).min(begin.1);
        if joint == first + 1 {
            low = low.max(ends.0 + 1);
        }
        if joint == last {
            high = high.min(ends.1 - 1);
        }
        (low <= high).then_some(low)
    }

    fn to_leader(&self, count: usize) -> Option<Way> {
        let before = self.cutting.news.strips.last()?.film;
        let ways = self.tails.last()?.iter().enumerate();
        let ended = ways.filter_map(|(from, tail)| {
            let end = Some((before, tail.place));
            let (tied, worth) = self.joined(count, end, None, Some(tail.tied))?;
            Some(Way {
                worth: plus(tail.worth, worth),
                place: tail.place,
                tied,
                from,
                first: 0,
            })
        });
        ended.min_by_key(|way| way.worth)
    }

    fn walked_back(&self, end: Way) -> Laying {
        let count = self.cutting.news.strips.len();
        let mut laying = Laying {
            ends: vec![(0, 0); count],
            joints: vec![Joined::Grown; count + 1],
        };
        laying.joints[count] = joined(end.tied);
        let mut from = end.from;
        let mut strip = count;
        while strip > 0 {
            let last = strip - 1;
            let tail = self.tails[last][from];
            let head = self.heads[tail.first][tail.from];
            let ends = (head.place, tail.place);
            laying.ends[last].1 = tail.place;
            laying.ends[tail.first].0 = head.place;
            for joint in tail.first + 1..=last {
                // It was found before.
                let place = self.meeting(joint, (tail.first, last), ends).unwrap_or(0);
                laying.ends[joint - 1].1 = place;
                laying.ends[joint].0 = place;
            }
            laying.joints[tail.first] = joined(head.tied);
            from = head.from;
            strip = tail.first;
        }
        laying
    }
}

const fn joined(tied: Tied) -> Joined {
    match tied {
        Tied::Kept(joint) => Joined::Kept(joint),
        Tied::Made => Joined::Made,
    }
}

fn plus(one: Worth, other: Worth) -> Worth {
    [one[0] + other[0], one[1] + other[1], one[2] + other[2]]
}

/// Of two ways to the same end the cheaper one.
fn keep_best(ways: &mut Vec<Way>, way: Way) {
    let same = |w: &&mut Way| w.place == way.place && w.tied == way.tied;
    match ways.iter_mut().find(same) {
        Some(known) if way.worth < known.worth => *known = way,
        Some(_) => {}
        None => ways.push(way),
    }
}
