//! The changes between two versions, told apart.
//!
//! Both versions are thought cut wherever either begins or ends a strip. What
//! then lies between two cuts is a bit of film that both treat alike, and a
//! version is a chain of bits. A change is a set of links of both chains that
//! hang together: it can be made with all others left as they were.

use std::collections::{BTreeMap, BTreeSet};

use onestrand_cut::{Piece, TrialCut};

use super::chain::{Bit, Ends, Link, chain, cuts, piece};
use super::joints::{Films, Joints};

/// Film shorter than this is no piece of its own: the usual limit of cement.
/// Unit: frames.
const SHORT: u32 = 8;

/// Links that change together.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Change {
    /// Joins of the old version opened.
    pub(super) opened: Vec<usize>,
    /// Joins of the new version made.
    pub(super) made: Vec<usize>,
    old_links: Vec<usize>,
    new_links: Vec<usize>,
}

/// All changes, with both chains.
pub(super) struct Changes {
    /// In the order of the old version.
    pub(super) found: Vec<Change>,
    chains: Chains,
}

impl Changes {
    /// The old version with one change alone.
    pub(super) fn alone(
        &self,
        change: &Change,
        (old, new): (&Joints, &Joints),
        films: &Films,
    ) -> Option<TrialCut> {
        let (first, bits) = self.chains.alone(change)?;
        let kind = |joint: JointOf| {
            let version = if joint.new { new } else { old };
            Some(version.joints.get(joint.index?)?.kind)
        };
        let usual = kind(first)?;
        let pieces = bits.into_iter().map(|((film, begin, end), joint)| {
            Some(Piece {
                join: kind(joint),
                ..piece(films.film(*film)?, *begin, *end)
            })
        });
        Some(TrialCut::new(pieces.collect::<Option<_>>()?, usual))
    }
}

/// The changes between two versions.
pub(super) fn changes(old: &Joints, new: &Joints) -> Changes {
    let cuts = cuts(old, new);
    let chains = Chains::new(chain(old, &cuts), chain(new, &cuts));
    let (olds, news) = (&chains.olds, &chains.news);
    let stay: BTreeSet<&Ends> = {
        let both: BTreeSet<&Ends> = olds.iter().map(|l| &l.ends).collect();
        news.iter()
            .map(|l| &l.ends)
            .filter(|e| both.contains(e))
            .collect()
    };
    let mut sets = Sets::of(olds, news, &stay);
    sets.join_eaten(old, olds, news, &stay);
    loop {
        let found = sets.changes(olds, news, &stay);
        let in_pieces = |change: &Change| chains.alone(change).is_none();
        let Some(first) = found.iter().position(in_pieces) else {
            return Changes { found, chains };
        };
        // It leaves the film in pieces unless others are made with it.
        let mates: Vec<usize> = (0..found.len())
            .filter(|i| *i != first && overlap(&found[first], &found[*i]))
            .collect();
        let mates = if mates.is_empty() {
            (0..found.len()).collect()
        } else {
            mates
        };
        for mate in mates {
            sets.join_changes(&found[first], &found[mate]);
        }
        if found.len() == sets.changes(olds, news, &stay).len() {
            return Changes { found, chains };
        }
    }
}

/// Sets of links that hang together, old links first.
struct Sets {
    parent: Vec<usize>,
    olds: usize,
}

impl Sets {
    fn of(olds: &[Link], news: &[Link], stay: &BTreeSet<&Ends>) -> Self {
        let mut sets = Self {
            parent: (0..olds.len() + news.len()).collect(),
            olds: olds.len(),
        };
        // The link on either side of a bit, in each version.
        let mut sides: BTreeMap<(bool, &Option<Bit>), Vec<usize>> = BTreeMap::new();
        for (at, link) in olds.iter().chain(news).enumerate() {
            if !stay.contains(&link.ends) {
                sides.entry((false, &link.ends.0)).or_default().push(at);
                sides.entry((true, &link.ends.1)).or_default().push(at);
            }
        }
        for links in sides.values() {
            for at in &links[1..] {
                sets.join(links[0], *at);
            }
        }
        // A bit of one version only comes or goes with both its links.
        // Between two changes must be as much film as holds by itself: what one
        // takes the other would feel.
        let (was, is) = (bits_of(olds), bits_of(news));
        let short = was.intersection(&is).filter(|bit| is_short(bit));
        for bit in was.symmetric_difference(&is).chain(short) {
            let before = sides.get(&(true, *bit)).and_then(|l| l.first());
            let behind = sides.get(&(false, *bit)).and_then(|l| l.first());
            if let (Some(before), Some(behind)) = (before, behind) {
                sets.join(*before, *behind);
            }
        }
        sets
    }

    /// What a join of the old version ate can come into the new one only when that
    /// join is opened.
    fn join_eaten(&mut self, old: &Joints, olds: &[Link], news: &[Link], stay: &BTreeSet<&Ends>) {
        let changed = |link: &Link| !stay.contains(&link.ends);
        let come: BTreeMap<(usize, u32), (u32, usize)> = news
            .iter()
            .enumerate()
            .filter(|(_, link)| changed(link))
            .filter_map(|(at, link)| {
                let (film, begin, end) = link.ends.1?;
                Some(((film, begin), (end, at)))
            })
            .collect();
        for (at, link) in olds.iter().enumerate() {
            let Some(joint) = link.joint.filter(|_| changed(link)) else {
                continue;
            };
            for (film, frame) in eaten(old, joint) {
                let before = come.range(..=(film, frame)).next_back();
                if let Some(((of, _), (end, new))) = before
                    && *of == film
                    && frame < *end
                {
                    self.join(at, self.olds + new);
                }
            }
        }
    }

    fn root(&self, mut at: usize) -> usize {
        while self.parent[at] != at {
            at = self.parent[at];
        }
        at
    }

    fn join(&mut self, one: usize, other: usize) {
        let (one, other) = (self.root(one), self.root(other));
        self.parent[one.max(other)] = one.min(other);
    }

    fn join_changes(&mut self, one: &Change, other: &Change) {
        if let (Some(a), Some(b)) = (self.first(one), self.first(other)) {
            self.join(a, b);
        }
    }

    fn first(&self, change: &Change) -> Option<usize> {
        let new = change.new_links.first().map(|n| n + self.olds);
        change.old_links.first().copied().or(new)
    }

    fn changes(&self, olds: &[Link], news: &[Link], stay: &BTreeSet<&Ends>) -> Vec<Change> {
        let mut changes: BTreeMap<usize, Change> = BTreeMap::new();
        for (at, link) in olds.iter().chain(news).enumerate() {
            if stay.contains(&link.ends) {
                continue;
            }
            let change = changes.entry(self.root(at)).or_default();
            if at < self.olds {
                change.old_links.push(at);
                change.opened.extend(link.joint);
            } else {
                change.new_links.push(at - self.olds);
                change.made.extend(link.joint);
            }
        }
        changes.into_values().collect()
    }
}

fn bits_of(links: &[Link]) -> BTreeSet<&Option<Bit>> {
    let behind = links.iter().map(|l| &l.ends.1);
    behind.filter(|bit| bit.is_some()).collect()
}

fn is_short(bit: &Option<Bit>) -> bool {
    bit.as_ref()
        .is_some_and(|(_, begin, end)| end - begin < SHORT)
}

/// The frames that a join of the old version ate.
fn eaten(old: &Joints, joint: usize) -> Vec<(usize, u32)> {
    let mut frames = Vec::new();
    let bite = old.joints[joint].bite;
    if let Some(out) = joint.checked_sub(1).and_then(|i| old.strips.get(i)) {
        frames.extend((0..u32::from(bite.out_tail)).map(|i| (out.film, out.end + i)));
    }
    if let Some(incoming) = old.strips.get(joint) {
        let before = 1..=u32::from(bite.in_head);
        let before = before.filter_map(|i| incoming.begin.checked_sub(i));
        frames.extend(before.map(|f| (incoming.film, f)));
    }
    frames
}

/// Both versions link by link, with the bits numbered; the leaders are number 0.
struct Chains {
    olds: Vec<Link>,
    news: Vec<Link>,
    /// From which bit to which, of each link.
    old_ends: Vec<(usize, usize)>,
    new_ends: Vec<(usize, usize)>,
    /// The old link that goes on from a bit.
    from: Vec<Option<usize>>,
}

/// A version from head to tail leader: each bit with the join behind it.
type Walk<'a> = (JointOf, Vec<(&'a Bit, JointOf)>);

impl Chains {
    fn new(olds: Vec<Link>, news: Vec<Link>) -> Self {
        let mut numbers: BTreeMap<Option<Bit>, usize> = BTreeMap::from([(None, 0)]);
        let mut number = |bit: Option<Bit>| {
            let next = numbers.len();
            *numbers.entry(bit).or_insert(next)
        };
        let mut ends = |links: &[Link]| -> Vec<(usize, usize)> {
            let ends = links.iter().map(|l| (number(l.ends.0), number(l.ends.1)));
            ends.collect()
        };
        let (old_ends, new_ends) = (ends(&olds), ends(&news));
        let mut from = vec![None; numbers.len()];
        for (link, (before, _)) in old_ends.iter().enumerate() {
            from[*before] = Some(link);
        }
        Self {
            olds,
            news,
            old_ends,
            new_ends,
            from,
        }
    }

    /// The old version with one change alone; nothing when it is not one film.
    fn alone(&self, change: &Change) -> Option<Walk<'_>> {
        let come: BTreeMap<usize, usize> = change
            .new_links
            .iter()
            .map(|link| (self.new_ends[*link].0, *link))
            .collect();
        let fresh = |bit: &&usize| {
            let old = self.from[**bit];
            old.is_none_or(|link| change.old_links.contains(&link))
        };
        let links = self.olds.len() - change.old_links.len() + come.keys().filter(fresh).count();
        let mut bits: Vec<(&Bit, JointOf)> = Vec::with_capacity(links);
        let mut first = JointOf::default();
        let mut at = 0;
        for _ in 0..links {
            let (link, to, new) = match come.get(&at) {
                Some(link) => (&self.news[*link], self.new_ends[*link].1, true),
                None => {
                    let link = self.from[at].filter(|l| !change.old_links.contains(l))?;
                    (&self.olds[link], self.old_ends[link].1, false)
                }
            };
            let joint = JointOf {
                index: link.joint,
                new,
            };
            match bits.last_mut() {
                Some(bit) => bit.1 = joint,
                None => first = joint,
            }
            at = to;
            match &link.ends.1 {
                Some(bit) => bits.push((bit, JointOf::default())),
                None => break,
            }
        }
        // All links are used up exactly when the tail leader is reached.
        (at == 0 && bits.len() + 1 == links).then_some((first, bits))
    }
}

/// A join by its index in one of the versions; no join inside a strip.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
struct JointOf {
    index: Option<usize>,
    new: bool,
}

fn overlap(one: &Change, other: &Change) -> bool {
    let span = |c: &Change| Some((*c.old_links.first()?, *c.old_links.last()?));
    match (span(one), span(other)) {
        (Some(a), Some(b)) => a.0 <= b.1 && b.0 <= a.1,
        _ => false,
    }
}
