//! The other corners, and the fewest pins of each way.

use std::cell::OnceCell;

use super::best::few_pins;
use super::one_way::{Directions, Found};
use super::polish::in_cut_order;
use super::sweep::Groups;
use super::tails::{FewestOfTails, SHORT, Tails};
use crate::habits::Winding;
use crate::plan::{Figures, Plan};
use crate::wanted::Wanted;

/// A plan, and whether it winds to and fro.
pub(crate) type Other = (Found, bool);

/// What is asked of a cut beside its best plan; each answer is worked out once.
pub(crate) struct Beside<'a> {
    wanted: &'a Wanted,
    heads: Option<Directions<'a>>,
    of_heads: OnceCell<usize>,
    of_tails: OnceCell<Option<FewestOfTails>>,
}

impl<'a> Beside<'a> {
    pub(crate) fn new(wanted: &'a Wanted) -> Self {
        Self {
            wanted,
            heads: Directions::heads(wanted),
            of_heads: OnceCell::new(),
            of_tails: OnceCell::new(),
        }
    }

    /// Plans among which the corners are: every corner of one pass, every one with
    /// tails where they can all be reckoned (else the one with fewest pins), and
    /// of to and fro the one without pins.
    pub(crate) fn all(&self) -> Vec<Other> {
        let mut all: Vec<Other> = Vec::new();
        if let Some(heads) = &self.heads {
            all.extend(heads.corners().into_iter().map(|f| (f, false)));
            all.extend(self.with_tails(heads).into_iter().map(|f| (f, false)));
        }
        let without = in_cut_order(self.wanted);
        let back = winds_back(self.wanted, &without.plan);
        all.push((without, back));
        all
    }

    fn with_tails(&self, heads: &Directions<'_>) -> Vec<Found> {
        let Some(mut tails) = Tails::new(self.wanted) else {
            return Vec::new();
        };
        if tails.few() {
            return tails.corners();
        }
        let Some(fewest) = self.of_tails() else {
            return Vec::new();
        };
        let one = Directions::new(self.wanted, fewest.set.clone());
        let one = one.and_then(|d| d.within(fewest.pins));
        let none = heads.within(fewest.pins);
        let known = one.into_iter().chain(none).min_by_key(|f| f.figures);
        let best = tails.best(fewest.pins, known, SHORT);
        best.found.into_iter().collect()
    }

    fn of_heads(&self) -> Option<usize> {
        let heads = self.heads.as_ref()?;
        Some(*self.of_heads.get_or_init(|| heads.fewest_pins()))
    }

    fn of_tails(&self) -> Option<&FewestOfTails> {
        let reckon = || {
            let heads = self.of_heads()?;
            Some(Tails::new(self.wanted)?.fewest_pins(heads))
        };
        self.of_tails.get_or_init(reckon).as_ref()
    }

    /// The fewest pins of a way: with a plan known, and not to be gone below.
    fn fewest(&self, winding: Winding) -> (usize, usize) {
        let exact = match winding {
            // Cut order serves without a pin.
            Winding::ToAndFro => Some((0, 0)),
            Winding::OnePass => self.of_heads().map(|pins| (pins, pins)),
            Winding::Tails => self.of_tails().map(|f| (f.pins, f.at_least)),
        };
        exact.unwrap_or_else(|| by_trying(self.wanted, winding))
    }

    /// The fewest pins of every way. What one way allows the next allows too.
    pub(crate) fn fewest_of_each(&self) -> Vec<(Winding, usize, usize)> {
        let mut all: Vec<(Winding, usize, usize)> = Vec::new();
        for winding in Winding::ALL {
            let (pins, at_least) = self.fewest(winding);
            let known = all.last().map_or(pins, |last| last.1.min(pins));
            all.push((winding, known, at_least));
        }
        for i in (1..all.len()).rev() {
            all[i - 1].2 = all[i - 1].2.max(all[i].2);
        }
        all
    }
}

/// The corners: what no other plan equals in changes, winding and pins at once.
/// One of each three figures; the best plan is left out.
pub(crate) fn corners_of(mut all: Vec<Other>, best: Option<Figures>) -> Vec<Other> {
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

/// Beyond what can be reckoned exactly: what a plan was found for, and what a
/// group of the rolls alone wants.
fn by_trying(wanted: &Wanted, winding: Winding) -> (usize, usize) {
    let groups = Groups::new(wanted, winding, wanted.turns());
    let found = few_pins(wanted, winding, &groups);
    let pins = found.map_or(wanted.turns(), |f| f.figures.pins);
    (pins, groups.fewest_pins())
}
