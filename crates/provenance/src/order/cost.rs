//! What an order of strips asks us to believe, in natural logarithms of odds.

use super::Strip;
use super::evidence::{GateThing, Shown};

/// A thing comes into the gate, or goes: a thing that is seldom.
const CHANGE: f64 = 1.2;
/// It goes in the middle of a roll, where nobody cleans the gate.
const GOES: f64 = 0.4;
/// It comes back to the very place where it went.
const AGAIN: f64 = 3.0;
/// A hair grows shorter: at most this, for it may have slipped.
const SHORTER: f64 = 4.5;
/// A roll whose fogged end or beginning is missing between two strips.
const NO_FOG: f64 = 1.0;
/// Fog where no roll ends.
const FOG_WITHIN: f64 = 1.8;
/// Another stock in the camera.
const STOCK: f64 = 1.0;

/// All strips as the cost of an order is reckoned from.
pub(super) struct Costs {
    /// For each strip and thing, what its shots show, those left out that cannot tell.
    shown: Vec<Vec<Vec<Shown>>>,
    fog: Vec<(bool, bool)>,
    stocks: Vec<Option<usize>>,
    things: usize,
}

impl Costs {
    pub(super) fn of(strips: &[Strip<'_>], things: &[GateThing]) -> Self {
        let tells = |shown: &&Shown| **shown != Shown::Unseen;
        let of_strip = |strip: usize| {
            let of = |thing: &GateThing| thing.shown[strip].iter().filter(tells).copied().collect();
            things.iter().map(of).collect()
        };
        let fog = |strip: &Strip<'_>| {
            let head = strip.shots.first().is_some_and(|s| s.fog().at_head());
            (head, strip.shots.last().is_some_and(|s| s.fog().at_tail()))
        };
        Self {
            shown: (0..strips.len()).map(of_strip).collect(),
            fog: strips.iter().map(fog).collect(),
            stocks: strips.iter().map(|strip| strip.stock).collect(),
            things: things.len(),
        }
    }

    pub(super) fn strips(&self) -> usize {
        self.fog.len()
    }

    /// What an order costs; the likeliest costs least.
    pub(super) fn cost(&self, order: &[usize]) -> f64 {
        let rolls: f64 = order
            .windows(2)
            .map(|pair| self.between(pair[0], pair[1]))
            .sum();
        rolls
            + (0..self.things)
                .map(|thing| self.of_thing(thing, order))
                .sum::<f64>()
    }

    /// What lies between two strips: nothing, or the end of a roll.
    fn between(&self, first: usize, second: usize) -> f64 {
        let fog = match (self.fog[first].1, self.fog[second].0) {
            (true, true) | (false, false) => 0.0,
            _ => NO_FOG,
        };
        let other = self.stocks[first]
            .zip(self.stocks[second])
            .is_some_and(|(a, b)| a != b);
        let new_roll = self.fog[first].1 || self.fog[second].0;
        let stock = if other {
            STOCK + if new_roll { 0.0 } else { FOG_WITHIN }
        } else {
            0.0
        };
        fog + stock
    }

    /// The life of one thing in the gate along an order.
    fn of_thing(&self, thing: usize, order: &[usize]) -> f64 {
        let (mut cost, mut was) = (0.0, None);
        let mut has_gone = false;
        for (place, &strip) in order.iter().enumerate() {
            let new_roll = place > 0 && (self.fog[order[place - 1]].1 || self.fog[strip].0);
            for (at, &shown) in self.shown[strip][thing].iter().enumerate() {
                let step = (was, shown);
                cost += self::step(step, has_gone, new_roll && at == 0);
                has_gone |= matches!(step, (Some(Shown::There(..)), Shown::NotThere));
                was = Some(shown);
            }
        }
        cost
    }
}

/// From what one shot shows of a thing to what the next does.
fn step((was, is): (Option<Shown>, Shown), has_gone: bool, new_roll: bool) -> f64 {
    match (was, is) {
        (Some(Shown::There(before, e)), Shown::There(after, f)) => {
            let shorter = f64::from((before - after).max(0.0));
            let variance = f64::from(e * e + f * f);
            (shorter * shorter / (2.0 * variance)).min(SHORTER)
        }
        (Some(Shown::NotThere), Shown::There(..)) => CHANGE + if has_gone { AGAIN } else { 0.0 },
        (Some(Shown::There(..)), Shown::NotThere) => CHANGE + if new_roll { 0.0 } else { GOES },
        _ => 0.0,
    }
}
