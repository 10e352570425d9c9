//! The other corners, and the fewest pins of each way.

use super::best::best;
use super::one_way::{Directions, Found};
use super::sweep::Groups;
use super::tails::Tails;
use crate::habits::Winding;
use crate::plan::{Figures, Plan};
use crate::wanted::Wanted;

/// A plan, and whether it winds to and fro.
type Other = (Found, bool);

/// The corners that no other plan known equals in changes, winding and pins at
/// once, the best plan left out: every one of one pass, every one with tails
/// where they can all be reckoned (else the one with fewest pins), and of to and
/// fro the one without pins.
pub(crate) fn others(wanted: &Wanted, best: Option<Figures>) -> Vec<Other> {
    let mut all: Vec<Other> = Vec::new();
    if let Some(heads) = Directions::heads(wanted) {
        all.extend(heads.corners().into_iter().map(|f| (f, false)));
        if let Some(mut tails) = Tails::new(wanted) {
            let found = with_tails(&mut tails, &heads);
            all.extend(found.into_iter().map(|f| (f, false)));
        }
    }
    let without = self::best(wanted, Winding::ToAndFro, 0).found;
    all.extend(without.map(|f| {
        let back = winds_back(wanted, &f.plan);
        (f, back)
    }));
    corners_of(all, best)
}

fn with_tails(tails: &mut Tails<'_>, heads: &Directions<'_>) -> Vec<Found> {
    if tails.few() {
        return tails.corners();
    }
    let fewest = tails.fewest_pins(heads.fewest_pins()).found;
    let none = heads.best_within(fewest);
    tails.best(fewest, none).found.into_iter().collect()
}

/// Only what nothing else equals; one of each three figures.
fn corners_of(mut all: Vec<Other>, best: Option<Figures>) -> Vec<Other> {
    all.sort_by_key(|(found, to_and_fro)| (found.figures, *to_and_fro));
    all.dedup_by_key(|(found, _)| found.figures);
    let mut figures: Vec<Figures> = all.iter().map(|(found, _)| found.figures).collect();
    figures.extend(best);
    let beaten = |this: &Figures| {
        let mut others = figures.iter().filter(|f| *f != this);
        others.any(|f| f.changes <= this.changes && f.wound <= this.wound && f.pins <= this.pins)
    };
    all.retain(|(found, _)| Some(found.figures) != best && !beaten(&found.figures));
    all
}

/// Whether any roll is wound more than one way.
pub(crate) fn winds_back(wanted: &Wanted, plan: &Plan) -> bool {
    let mut stands = vec![0; wanted.rolls.len()];
    plan.takes.iter().any(|take| {
        let strip = wanted.rolls[take.roll].strips[take.strip];
        let back = take.backward || strip.begin < stands[take.roll];
        stands[take.roll] = strip.end;
        back
    })
}

/// The fewest pins of a way: with a plan known, and not to be gone below.
pub(crate) fn fewest(wanted: &Wanted, winding: Winding) -> (usize, usize) {
    // Cut order serves without a pin.
    if winding == Winding::ToAndFro {
        return (0, 0);
    }
    if let Some(heads) = Directions::heads(wanted) {
        let of_heads = heads.fewest_pins();
        if winding == Winding::OnePass {
            return (of_heads, of_heads);
        }
        if let Some(mut tails) = Tails::new(wanted) {
            let answer = tails.fewest_pins(of_heads);
            if answer.proved {
                return (answer.found, answer.found);
            }
            let groups = Groups::new(wanted, winding, answer.found);
            return (answer.found, groups.fewest_pins().min(answer.found));
        }
    }
    by_trying(wanted, winding)
}

/// Beyond what can be reckoned exactly: halving between what cannot be done and
/// what was done.
fn by_trying(wanted: &Wanted, winding: Winding) -> (usize, usize) {
    let at_least = Groups::new(wanted, winding, 0).fewest_pins();
    let (mut low, mut high) = (at_least, wanted.turns());
    while low < high {
        let middle = low.midpoint(high);
        match best(wanted, winding, middle).found {
            Some(found) => high = found.figures.pins,
            None => low = middle + 1,
        }
    }
    (high, at_least)
}
