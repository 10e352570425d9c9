//! The fewest rolls that hold all blocks: bins filled one after another, the largest
//! block left always in the next, with every set of blocks that failed remembered.

use std::collections::HashSet;

/// Blocks on rolls, by their places in the list, and how few rolls could do.
#[derive(Debug)]
pub(super) struct Bins {
    /// The blocks of each roll.
    pub(super) bins: Vec<Vec<usize>>,
    /// No plan has fewer rolls than this.
    pub(super) bound: usize,
}

/// Lays `sizes` on as few rolls of `load` as it can within `budget` steps. Every size
/// is at most `load`.
pub(super) fn fewest_rolls(sizes: &[u32], load: u32, budget: u64) -> Bins {
    let mut bins = best_fit(sizes, load);
    let mut bound = lower_bound(sizes, load);
    let mut steps = budget;
    while bound < bins.len() {
        match Fill::new(sizes, load, bound, steps).run() {
            Outcome::Fits(found) => bins = found,
            Outcome::CannotFit { left } => {
                bound += 1;
                steps = left;
            }
            Outcome::TooMuchWork => break,
        }
    }
    Bins { bins, bound }
}

/// Largest first, each on the fullest roll that still takes it.
fn best_fit(sizes: &[u32], load: u32) -> Vec<Vec<usize>> {
    let mut bins: Vec<(u32, Vec<usize>)> = Vec::new();
    for at in largest_first(sizes) {
        let size = sizes[at];
        let fits = bins.iter_mut().filter(|(left, _)| *left >= size);
        match fits.min_by_key(|(left, _)| *left) {
            Some((left, bin)) => {
                *left -= size;
                bin.push(at);
            }
            None => bins.push((load - size, vec![at])),
        }
    }
    bins.into_iter().map(|(_, bin)| bin).collect()
}

pub(super) fn largest_first(sizes: &[u32]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..sizes.len()).collect();
    order.sort_by_key(|at| (std::cmp::Reverse(sizes[*at]), *at));
    order
}

/// The larger of the sum over the load and, for every small limit, the count of those
/// that cannot share a roll together with what then overflows (Martello and Toth 1990,
/// bound L2).
fn lower_bound(sizes: &[u32], load: u32) -> usize {
    let (load, all) = (u64::from(load), sizes.iter().map(|s| u64::from(*s)));
    let sum: u64 = all.clone().sum();
    let mut best = sum.div_ceil(load);
    let half = load / 2;
    for limit in all.clone().filter(|s| *s <= half) {
        let large = all.clone().filter(|s| *s > load - limit).count() as u64;
        let middle: Vec<u64> = all
            .clone()
            .filter(|s| *s > half && *s <= load - limit)
            .collect();
        let small: u64 = all.clone().filter(|s| *s >= limit && *s <= half).sum();
        let room = middle.len() as u64 * load - middle.iter().sum::<u64>();
        let more = small.saturating_sub(room).div_ceil(load);
        best = best.max(large + middle.len() as u64 + more);
    }
    let over_half = all.filter(|s| *s > half && s * 2 > load).count() as u64;
    usize::try_from(best.max(over_half)).unwrap_or(usize::MAX)
}

enum Outcome {
    Fits(Vec<Vec<usize>>),
    CannotFit { left: u64 },
    TooMuchWork,
}

/// The search for a given number of rolls.
struct Fill<'s> {
    sizes: &'s [u32],
    order: Vec<usize>,
    load: u32,
    rolls: usize,
    /// Frames that may stay empty over all rolls.
    waste: u64,
    used: Vec<bool>,
    bins: Vec<Vec<usize>>,
    failed: HashSet<Vec<u64>>,
    steps: u64,
}

impl<'s> Fill<'s> {
    fn new(sizes: &'s [u32], load: u32, rolls: usize, steps: u64) -> Self {
        let sum: u64 = sizes.iter().map(|s| u64::from(*s)).sum();
        Self {
            sizes,
            order: largest_first(sizes),
            load,
            rolls,
            waste: (rolls as u64 * u64::from(load)).saturating_sub(sum),
            used: vec![false; sizes.len()],
            bins: Vec::new(),
            failed: HashSet::new(),
            steps,
        }
    }

    fn run(mut self) -> Outcome {
        let waste = self.waste;
        if self.next_roll(waste) {
            return Outcome::Fits(self.bins);
        }
        match self.steps {
            0 => Outcome::TooMuchWork,
            left => Outcome::CannotFit { left },
        }
    }

    fn next_roll(&mut self, waste: u64) -> bool {
        let Some(first) = self.order.iter().position(|at| !self.used[*at]) else {
            return true;
        };
        if self.bins.len() == self.rolls {
            return false;
        }
        let key = self.key();
        if self.failed.contains(&key) {
            return false;
        }
        let at = self.order[first];
        self.used[at] = true;
        self.bins.push(vec![at]);
        if self.fill(first + 1, self.load - self.sizes[at], waste) {
            return true;
        }
        self.used[at] = false;
        self.bins.pop();
        if self.steps > 0 {
            self.failed.insert(key);
        }
        false
    }

    /// Goes on filling the newest roll from place `from` of the order.
    fn fill(&mut self, from: usize, left: u32, waste: u64) -> bool {
        if self.steps == 0 {
            return false;
        }
        self.steps -= 1;
        let mut tried = None;
        let mut some_fits = false;
        for place in from..self.order.len() {
            let at = self.order[place];
            let size = self.sizes[at];
            if self.used[at] || size > left || tried == Some(size) {
                continue;
            }
            some_fits = true;
            tried = Some(size);
            self.used[at] = true;
            self.last_bin().push(at);
            if self.fill(place + 1, left - size, waste) {
                return true;
            }
            self.last_bin().pop();
            self.used[at] = false;
        }
        // A roll that could take one more block need not be tried without it: the
        // block may always be moved here from a later roll.
        let empty = u64::from(left);
        !some_fits && empty <= waste && self.next_roll(waste - empty)
    }

    fn last_bin(&mut self) -> &mut Vec<usize> {
        self.bins.last_mut().expect("a roll was begun")
    }

    fn key(&self) -> Vec<u64> {
        let mut key = vec![0; self.used.len().div_ceil(64)];
        for (at, used) in self.used.iter().enumerate() {
            key[at / 64] |= u64::from(*used) << (at % 64);
        }
        key
    }
}
