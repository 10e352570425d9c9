//! The changes between two versions, told apart.
//!
//! Both versions are thought cut wherever either begins or ends a strip. What
//! then lies between two cuts is a bit of film that both treat alike, and a
//! version is a chain of bits. A change is a set of links of both chains that
//! hang together: it can be made with all others left as they were.

use std::collections::{BTreeMap, BTreeSet};

use super::joints::{Film, Joints, Laid};

/// A bit of film, by name.
type Bit = (Film, u32, u32);

/// Head leader or a bit before the link, a bit or tail leader behind it.
type Ends = (Option<Bit>, Option<Bit>);

/// One link of a chain; `joint` is the index of its join, none inside a strip.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Link {
    ends: Ends,
    joint: Option<usize>,
}

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

/// Every change, in the order of the old version.
pub(super) fn changes(old: &Joints, new: &Joints) -> Vec<Change> {
    let cuts = cuts(old, new);
    let (olds, news) = (chain(old, &cuts), chain(new, &cuts));
    let stay: BTreeSet<&Ends> = {
        let both: BTreeSet<&Ends> = olds.iter().map(|l| &l.ends).collect();
        news.iter()
            .map(|l| &l.ends)
            .filter(|e| both.contains(e))
            .collect()
    };
    let mut sets = Sets::of(&olds, &news, &stay);
    loop {
        let found = sets.changes(&olds, &news, &stay);
        let alone = |change: &Change| stands_alone(change, &olds, &news);
        let Some(first) = found.iter().position(|c| !alone(c)) else {
            return found;
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
        if found.len() == sets.changes(&olds, &news, &stay).len() {
            return found;
        }
    }
}

/// Places on each film where either version begins or ends a strip.
fn cuts(old: &Joints, new: &Joints) -> BTreeMap<Film, BTreeSet<u32>> {
    let mut cuts: BTreeMap<Film, BTreeSet<u32>> = BTreeMap::new();
    for strip in old.strips.iter().chain(&new.strips) {
        cuts.entry(strip.film.clone())
            .or_default()
            .extend([strip.begin, strip.end]);
    }
    cuts
}

fn bits(strip: &Laid, cuts: &BTreeMap<Film, BTreeSet<u32>>) -> Vec<Bit> {
    let inside = cuts.get(&strip.film).into_iter();
    let places: Vec<u32> = inside
        .flat_map(|c| c.range(strip.begin..=strip.end))
        .copied()
        .collect();
    let pairs = places.windows(2);
    pairs.map(|p| (strip.film.clone(), p[0], p[1])).collect()
}

fn chain(version: &Joints, cuts: &BTreeMap<Film, BTreeSet<u32>>) -> Vec<Link> {
    let mut links = Vec::new();
    let mut before = None;
    for (index, strip) in version.strips.iter().enumerate() {
        let mut joint = Some(index);
        for bit in bits(strip, cuts) {
            let ends = (before.replace(bit.clone()), Some(bit));
            links.push(Link {
                ends,
                joint: joint.take(),
            });
        }
    }
    if !version.strips.is_empty() {
        links.push(Link {
            ends: (before, None),
            joint: Some(version.strips.len()),
        });
    }
    links
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
        let (was, is) = (bits_of(olds), bits_of(news));
        for bit in was.symmetric_difference(&is) {
            let before = sides.get(&(true, *bit)).and_then(|l| l.first());
            let behind = sides.get(&(false, *bit)).and_then(|l| l.first());
            if let (Some(before), Some(behind)) = (before, behind) {
                sets.join(*before, *behind);
            }
        }
        sets
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

/// Whether the old version with this change alone is one film, every bit of it
/// on the way from head to tail leader.
fn stands_alone(change: &Change, olds: &[Link], news: &[Link]) -> bool {
    let mut next: BTreeMap<&Option<Bit>, &Option<Bit>> = BTreeMap::new();
    for (at, link) in olds.iter().enumerate() {
        if !change.old_links.contains(&at) {
            next.insert(&link.ends.0, &link.ends.1);
        }
    }
    for at in &change.new_links {
        next.insert(&news[*at].ends.0, &news[*at].ends.1);
    }
    let links = next.len();
    let mut at = &None;
    for step in 1..=links {
        match next.get(at) {
            Some(None) => return step == links,
            Some(bit) => at = bit,
            None => return false,
        }
    }
    false
}

fn overlap(one: &Change, other: &Change) -> bool {
    let span = |c: &Change| Some((*c.old_links.first()?, *c.old_links.last()?));
    match (span(one), span(other)) {
        (Some(a), Some(b)) => a.0 <= b.1 && b.0 <= a.1,
        _ => false,
    }
}
