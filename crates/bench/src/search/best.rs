//! The best plan of a way of winding, and how much of it is proved.

use super::one_way::{Directions, Found};
use super::sweep::{Groups, Sweep, Swept};
use super::tails::Tails;
use crate::habits::Winding;
use crate::wanted::Wanted;

/// Standings kept of a level: in the first sweep, which only finds a plan to
/// beat, and in the second, which is to prove it.
const FIRST_WIDTH: usize = 400;
const SECOND_WIDTH: usize = 20_000;
/// Children that the second sweep may look at before it becomes narrow.
const SECOND_WORK: usize = 1_200_000;

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
            let answer = tails.best(pins, none.found);
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
    let groups = Groups::new(wanted, Winding::ToAndFro, pins);
    let least = groups.least_changes().unwrap_or(0);
    let one_pass = heads.and_then(|h| h.best_within(pins));
    // What winds least goes through every roll once, heads to tail: then the
    // best of one pass is the best of all.
    if let Some(found) = &one_pass
        && found.figures.changes <= least as usize
    {
        return Best {
            proved: true,
            bound: bound_of(&groups, wanted, least),
            found: one_pass,
        };
    }
    swept_from(wanted, Winding::ToAndFro, pins, &groups, one_pass)
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
    swept_from(wanted, winding, pins, &groups, None)
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
    let sweep = |at_most, pins, width, work| {
        Sweep {
            wanted,
            winding,
            pins,
            groups,
            least_changes: least,
            at_most,
            width,
            work,
        }
        .run()
    };
    let most = |found: &Option<Found>| {
        let figures = found.as_ref()?.figures;
        Some((u32::try_from(figures.changes).ok()?, figures.wound))
    };
    let first = sweep(most(&known), pins, FIRST_WIDTH, usize::MAX);
    let mut best = better(known, first.found);
    let mut proved = !first.dropped;
    if !proved && groups.exact() {
        let second: Swept = sweep(most(&best), pins, SECOND_WIDTH, SECOND_WORK);
        best = better(best, second.found);
        proved = !second.dropped;
    }
    // The same with fewer and fewer pins.
    while let Some(found) = best.clone().filter(|f| proved && f.figures.pins > 0) {
        let fewer = sweep(
            most(&best),
            found.figures.pins - 1,
            SECOND_WIDTH,
            SECOND_WORK,
        );
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

fn better(one: Option<Found>, other: Option<Found>) -> Option<Found> {
    match (one, other) {
        (Some(a), Some(b)) => Some(if b.figures < a.figures { b } else { a }),
        (a, b) => a.or(b),
    }
}
