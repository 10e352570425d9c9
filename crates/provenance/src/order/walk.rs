//! All orders weighed: few strips by every order there is, many by a long walk among them.

use super::cost::Costs;
use crate::chance::Chance;

/// Up to so many strips every order is looked at.
const EVERY: usize = 7;
/// Steps of a walk, its first tenth not counted.
const STEPS: usize = 60_000;
/// So many walks begin at different orders.
const WALKS: usize = 4;

/// The likeliest order and what all orders together say of each pair.
pub(super) struct Walked {
    pub(super) order: Vec<usize>,
    pub(super) before: Vec<Vec<f64>>,
    pub(super) beside: Vec<Vec<f64>>,
}

/// Orders seen, each with its weight.
struct Tally {
    best: (f64, Vec<usize>),
    before: Vec<Vec<f64>>,
    beside: Vec<Vec<f64>>,
    weight: f64,
}

impl Tally {
    fn new(many: usize) -> Self {
        Self {
            best: (f64::MAX, Vec::new()),
            before: vec![vec![0.0; many]; many],
            beside: vec![vec![0.0; many]; many],
            weight: 0.0,
        }
    }

    fn best(&mut self, cost: f64, order: &[usize]) {
        // Of orders that cost the same the one nearest to that handed in is told.
        if cost < self.best.0 - 1e-9 {
            self.best = (cost, order.to_vec());
        }
    }

    fn add(&mut self, weight: f64, order: &[usize]) {
        for (place, &first) in order.iter().enumerate() {
            for &second in &order[place + 1..] {
                self.before[first][second] += weight;
            }
        }
        for pair in order.windows(2) {
            self.beside[pair[0]][pair[1]] += weight;
            self.beside[pair[1]][pair[0]] += weight;
        }
        self.weight += weight;
    }

    fn told(mut self) -> Walked {
        let weight = self.weight.max(f64::MIN_POSITIVE);
        for row in self.before.iter_mut().chain(&mut self.beside) {
            row.iter_mut().for_each(|share| *share /= weight);
        }
        Walked {
            order: self.best.1,
            before: self.before,
            beside: self.beside,
        }
    }
}

pub(super) fn walked(costs: &Costs) -> Walked {
    let many = costs.strips();
    let mut tally = Tally::new(many);
    let mut order: Vec<usize> = (0..many).collect();
    if many <= EVERY {
        every(costs, &mut order, 0, &mut tally);
    } else {
        (0..WALKS).for_each(|walk| one_walk(costs, walk, &mut tally));
    }
    tally.told()
}

/// Every order of what stands from a place on.
fn every(costs: &Costs, order: &mut Vec<usize>, from: usize, tally: &mut Tally) {
    if from >= order.len() {
        let cost = costs.cost(order);
        tally.best(cost, order);
        tally.add((-cost).exp(), order);
        return;
    }
    for next in from..order.len() {
        // Turned rather than swapped, so that the first ones stay near what was handed in.
        order[from..=next].rotate_right(1);
        every(costs, order, from + 1, tally);
        order[from..=next].rotate_left(1);
    }
}

/// A walk after Metropolis and others, 1953: a step that costs more is taken the seldomer.
fn one_walk(costs: &Costs, walk: usize, tally: &mut Tally) {
    let many = costs.strips();
    let mut chance = Chance::new(walk as u64);
    let mut order: Vec<usize> = (0..many).collect();
    if walk % 2 == 1 {
        order.reverse();
    }
    let mut cost = costs.cost(&order);
    tally.best(cost, &order);
    for step in 0..STEPS {
        // From warm to usual: the first tenth finds the way.
        let heat = 1.0 + 3.0 * (1.0 - step as f64 * 10.0 / STEPS as f64).max(0.0);
        let tried = moved(&order, &mut chance);
        let new = costs.cost(&tried);
        if new <= cost || chance.share() < ((cost - new) / heat).exp() {
            (order, cost) = (tried, new);
            tally.best(cost, &order);
        }
        if step * 10 > STEPS && step % 5 == 0 {
            tally.add(1.0, &order);
        }
    }
}

/// A stretch of strips laid elsewhere, or turned about.
fn moved(order: &[usize], chance: &mut Chance) -> Vec<usize> {
    let many = order.len();
    let from = chance.below(many);
    // Short stretches more often than long ones.
    let most = (1 + chance.below(many)).min(many - from);
    let long = 1 + chance.below(most);
    let mut rest = order.to_vec();
    let mut taken: Vec<usize> = rest.drain(from..from + long).collect();
    if chance.below(3) == 0 {
        taken.reverse();
    }
    let to = chance.below(rest.len() + 1);
    rest.splice(to..to, taken);
    rest
}
