//! The best plan of a way of winding, and how much of it is proved.

use super::one_way::{Directions, Found};
use super::polish::{in_cut_order, polished};
use super::sweep::{Aim, Groups, Sweep, Swept};
use super::tails::{LONG, Tails};
use crate::habits::Winding;
use crate::wanted::Wanted;

/// Standings of the same strips held against each new one.
const COMPARED: usize = 64;

/// How far a sweep goes.
#[derive(Debug, Clone, Copy)]
struct Effort {
    choice: usize,
    width: usize,
    /// Children looked at before it becomes narrow.
    work: usize,
}

/// To find a plan to beat.
const FIRST: Effort = Effort {
    choice: 5,
    width: 300,
    work: 800_000,
};
/// To prove that there is no better one.
const SECOND: Effort = Effort {
    choice: usize::MAX,
    width: 20_000,
    work: 450_000,
};
/// The same with fewer pins.
const THIRD: Effort = Effort {
    choice: usize::MAX,
    width: 20_000,
    work: 300_000,
};
/// To find out how few pins might do.
const FEW_PINS: Effort = Effort {
    choice: 3,
    width: 100,
    work: 200_000,
};

/// A bound below every plan of a way within the pins.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Bound {
    pub(crate) changes: usize,
    pub(crate) wound: u64,
    pub(crate) pins: usize,
}

/// The best plan found.
#[derive(Debug, Clone)]
pub(crate) struct Best {
    pub(crate) found: Option<Found>,
    /// Whether nothing better exists; when nothing was found, whether nothing is
    /// there to find.
    pub(crate) proved: bool,
    pub(crate) bound: Bound,
}

/// The best plan within the pins: fewest roll changes, then least wound, then
/// fewest pins.
pub(crate) fn best(wanted: &Wanted, winding: Winding, pins: usize) -> Best {
    let heads = Directions::heads(wanted);
    let tails = Tails::new(wanted);
    match (winding, heads) {
        (Winding::OnePass, Some(heads)) => best_of_heads(wanted, &heads, pins),
        (Winding::Tails, Some(heads)) if tails.is_some() => {
            best_of_tails(wanted, &heads, tails, pins)
        }
        (Winding::ToAndFro, heads) => best_to_and_fro(wanted, heads.as_ref(), pins),
        _ => swept(wanted, winding, pins),
    }
}

fn best_of_heads(wanted: &Wanted, heads: &Directions<'_>, pins: usize) -> Best {
    let found = heads.best_within(pins);
    let changes = found.as_ref().map(|f| f.figures.changes);
    Best {
        proved: true,
        bound: Bound {
            changes: changes.unwrap_or(wanted.rolls.len() - 1),
            wound: heads.wound(),
            pins: heads.fewest_pins(),
        },
        found,
    }
}

fn best_of_tails(
    wanted: &Wanted,
    heads: &Directions<'_>,
    tails: Option<Tails<'_>>,
    pins: usize,
) -> Best {
    let none = best_of_heads(wanted, heads, pins);
    let groups = Groups::new(wanted, Winding::Tails, pins);
    let least = groups.least_changes();
    let known = none.found.as_ref().map(|f| f.figures.changes);
    let bound = |changes: Option<usize>| Bound {
        changes: changes.unwrap_or(wanted.rolls.len() - 1),
        wound: wanted.least_wound(),
        pins: groups.fewest_pins(),
    };
    let least = least.map(|n| n as usize);
    match tails {
        // Without any tail nothing is wound more than once: what needs no more
        // changes than the bound is best.
        Some(mut tails) if known.is_none() || known > least => {
            let answer = tails.best(pins, none.found, LONG);
            let changes = answer.found.as_ref().map(|f| f.figures.changes);
            let changes = if answer.proved { changes } else { least };
            Best {
                found: answer.found,
                proved: answer.proved,
                bound: bound(changes),
            }
        }
        _ => Best {
            bound: bound(known),
            ..none
        },
    }
}

fn best_to_and_fro(wanted: &Wanted, heads: Option<&Directions<'_>>, pins: usize) -> Best {
    if pins == 0 {
        let found = in_cut_order(wanted);
        return Best {
            proved: true,
            bound: Bound {
                changes: found.figures.changes,
                wound: wanted.least_wound(),
                pins: 0,
            },
            found: Some(found),
        };
    }
    let groups = Groups::new(wanted, Winding::ToAndFro, pins);
    let least = groups.least_changes().unwrap_or(0);
    let one_pass = heads.and_then(|h| h.within(pins));
    // What winds least goes through every roll once, heads to tail: then the
    // best of one pass is the best of all.
    if let Some(found) = &one_pass
        && found.figures.changes <= least as usize
    {
        return Best {
            proved: true,
            bound: bound_of(&groups, wanted, least),
            found: heads.and_then(|h| h.best_within(pins)),
        };
    }
    let one_pass = match heads {
        Some(_) => one_pass,
        None => swept(wanted, Winding::OnePass, pins).found,
    };
    let known = better(one_pass, groups.in_turn(wanted));
    let known = known.map(|found| polished(wanted, pins, &found));
    swept_from(wanted, Winding::ToAndFro, pins, &groups, known)
}

fn swept(wanted: &Wanted, winding: Winding, pins: usize) -> Best {
    let groups = Groups::new(wanted, winding, pins);
    if groups.least_changes().is_none() {
        // A group alone wants more pins than there are.
        return Best {
            found: None,
            proved: true,
            bound: bound_of(&groups, wanted, 0),
        };
    }
    let best = swept_from(wanted, winding, pins, &groups, None);
    if best.found.is_some() {
        return best;
    }
    let few = few_pins(wanted, winding, &groups);
    Best {
        found: few.filter(|f| f.figures.pins <= pins),
        ..best
    }
}

fn bound_of(groups: &Groups, wanted: &Wanted, changes: u32) -> Bound {
    Bound {
        changes: changes as usize,
        wound: wanted.least_wound(),
        pins: groups.fewest_pins(),
    }
}

fn swept_from(
    wanted: &Wanted,
    winding: Winding,
    pins: usize,
    groups: &Groups,
    known: Option<Found>,
) -> Best {
    let least = groups.least_changes().unwrap_or(0);
    let sweep = |best: &Option<Found>, pins, effort: Effort| {
        let figures = best.as_ref().map(|f| f.figures);
        let most = figures.and_then(|f| Some((u32::try_from(f.changes).ok()?, f.wound)));
        Sweep {
            wanted,
            winding,
            pins,
            groups,
            least_changes: least,
            at_most: most,
            aim: Aim::Changes,
            choice: effort.choice,
            compared: COMPARED,
            width: effort.width,
            work: effort.work,
        }
        .run()
    };
    let first = sweep(&known, pins, FIRST);
    let mut best = better(known, first.found);
    let mut proved = !first.dropped;
    if !proved && winding == Winding::ToAndFro {
        best = best.map(|found| polished(wanted, pins, &found));
    }
    if !proved && groups.exact() {
        let second: Swept = sweep(&best, pins, SECOND);
        best = better(best, second.found);
        proved = !second.dropped;
    }
    // The same with fewer and fewer pins.
    while let Some(found) = best.clone().filter(|f| proved && f.figures.pins > 0) {
        let fewer = sweep(&best, found.figures.pins - 1, THIRD);
        proved = !fewer.dropped;
        match fewer.found {
            Some(fewer) => best = Some(fewer),
            None => break,
        }
    }
    Best {
        found: best,
        proved,
        bound: bound_of(groups, wanted, least),
    }
}

/// A plan that aims at few pins, whatever the roll changes.
pub(crate) fn few_pins(wanted: &Wanted, winding: Winding, groups: &Groups) -> Option<Found> {
    Sweep {
        wanted,
        winding,
        pins: wanted.turns(),
        groups,
        least_changes: 0,
        at_most: None,
        aim: Aim::Pins,
        choice: FEW_PINS.choice,
        compared: COMPARED,
        width: FEW_PINS.width,
        work: FEW_PINS.work,
    }
    .run()
    .found
}

fn better(one: Option<Found>, other: Option<Found>) -> Option<Found> {
    match (one, other) {
        (Some(a), Some(b)) => Some(if b.figures < a.figures { b } else { a }),
        (a, b) => a.or(b),
    }
}
