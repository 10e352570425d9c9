//! The smallest set of setups in which every action is shown: an exact search, scene by
//! scene, since setups of different scenes seldom share an action.

use std::collections::{BTreeMap, BTreeSet};

/// Steps of the search over all parts.
const STEPS: u64 = 2_000_000;

/// Setups by their places, and how few could do.
pub(super) struct Chosen {
    pub(super) chosen: Vec<usize>,
    pub(super) bound: usize,
}

/// `wanted` are the setups that show each action, none of them empty.
pub(super) fn fewest_setups(wanted: &[Vec<usize>]) -> Chosen {
    let mut all = Chosen {
        chosen: Vec::new(),
        bound: 0,
    };
    let mut steps = STEPS;
    for part in parts(wanted) {
        let mut search = Search::new(&part, steps);
        search.go_on(&mut Vec::new());
        steps = search.steps;
        all.bound += if steps > 0 {
            search.best.len()
        } else {
            search.apart(&[])
        };
        all.chosen.extend(search.best);
    }
    all.chosen.sort_unstable();
    all
}

/// Actions parted so that no setup shows actions of two parts.
fn parts(wanted: &[Vec<usize>]) -> Vec<Vec<Vec<usize>>> {
    let mut label: Vec<usize> = (0..wanted.len()).collect();
    let mut first: BTreeMap<usize, usize> = BTreeMap::new();
    for (at, setups) in wanted.iter().enumerate() {
        for setup in setups {
            let other = *first.entry(*setup).or_insert(at);
            join(&mut label, at, other);
        }
    }
    let mut parts: BTreeMap<usize, Vec<Vec<usize>>> = BTreeMap::new();
    for (at, setups) in wanted.iter().enumerate() {
        let root = root(&mut label, at);
        parts.entry(root).or_default().push(setups.clone());
    }
    parts.into_values().collect()
}

fn root(label: &mut [usize], at: usize) -> usize {
    let mut at = at;
    while label[at] != at {
        label[at] = label[label[at]];
        at = label[at];
    }
    at
}

fn join(label: &mut [usize], one: usize, other: usize) {
    let (one, other) = (root(label, one), root(label, other));
    label[one.max(other)] = one.min(other);
}

struct Search {
    wanted: Vec<BTreeSet<usize>>,
    best: Vec<usize>,
    steps: u64,
}

impl Search {
    fn new(part: &[Vec<usize>], steps: u64) -> Self {
        let sets: BTreeSet<BTreeSet<usize>> =
            part.iter().map(|s| s.iter().copied().collect()).collect();
        // An action shown by all that show another one is shown with that one.
        let needless = |set: &BTreeSet<usize>| {
            sets.iter()
                .any(|other| other != set && other.is_subset(set))
        };
        let wanted: Vec<_> = sets.iter().filter(|set| !needless(set)).cloned().collect();
        let best = greedy(&wanted);
        Self {
            wanted,
            best,
            steps,
        }
    }

    /// Actions not shown yet.
    fn open<'a>(&'a self, chosen: &'a [usize]) -> impl Iterator<Item = &'a BTreeSet<usize>> {
        let shown = |set: &&BTreeSet<usize>| !chosen.iter().any(|setup| set.contains(setup));
        self.wanted.iter().filter(shown)
    }

    /// At least so many more setups: open actions of which no setup shows two.
    fn apart(&self, chosen: &[usize]) -> usize {
        let mut open: Vec<&BTreeSet<usize>> = self.open(chosen).collect();
        open.sort_by_key(|set| set.len());
        let mut taken: BTreeSet<usize> = BTreeSet::new();
        let mut count = 0;
        for set in open {
            if taken.is_disjoint(set) {
                taken.extend(set);
                count += 1;
            }
        }
        count
    }

    fn go_on(&mut self, chosen: &mut Vec<usize>) {
        if self.steps == 0 {
            return;
        }
        self.steps -= 1;
        let Some(rarest) = self.open(chosen).min_by_key(|set| set.len()).cloned() else {
            if chosen.len() < self.best.len() {
                self.best.clone_from(chosen);
            }
            return;
        };
        if chosen.len() + self.apart(chosen) >= self.best.len() {
            return;
        }
        for setup in rarest {
            chosen.push(setup);
            self.go_on(chosen);
            chosen.pop();
        }
    }
}

/// The setup that shows most of what is open, again and again.
fn greedy(wanted: &[BTreeSet<usize>]) -> Vec<usize> {
    let mut open: Vec<&BTreeSet<usize>> = wanted.iter().collect();
    let mut chosen = Vec::new();
    while !open.is_empty() {
        let mut shows: BTreeMap<usize, usize> = BTreeMap::new();
        for setup in open.iter().copied().flatten() {
            *shows.entry(*setup).or_default() += 1;
        }
        let most = shows
            .iter()
            .max_by_key(|(at, n)| (**n, std::cmp::Reverse(**at)));
        let Some((setup, _)) = most else { break };
        open.retain(|set| !set.contains(setup));
        chosen.push(*setup);
    }
    chosen
}
