//! The price of one change, with what it does.

use std::collections::BTreeSet;

use super::apart::Change;
use super::gone::{Cost, frames};
use super::joints::{Joints, Laid};
use super::{Price, RecutAct};

/// The price of a change.
pub(super) fn price(change: &Change, cost: Cost, (old, new): (&Joints, &Joints)) -> Price {
    let gone = concerned(&change.opened, old, new);
    let come = concerned(&change.made, new, old);
    let whole = |strips: &[&Laid], others: &Joints| {
        strips
            .iter()
            .any(|s| !others.strips.iter().any(|o| shares(s, o)))
    };
    let changed = |strips: &[&Laid], others: &Joints| {
        let same = |s: &&&Laid| others.strips.iter().any(|o| covers(s, o));
        strips.iter().any(|s| !same(&s))
    };
    let act = match (whole(&gone, new), whole(&come, old)) {
        (true, true) => RecutAct::Exchange,
        (true, false) => RecutAct::Lift,
        (false, true) => RecutAct::Insert,
        (false, false) if changed(&gone, new) || changed(&come, old) => RecutAct::Trim,
        (false, false) => RecutAct::Move,
    };
    let inner =
        |joints: &[usize], all: &Joints| joints.iter().filter(|j| !of_leader(**j, all)).count();
    Price {
        act,
        old_positions: positions(&gone),
        new_positions: positions(&come),
        opened: inner(&change.opened, old),
        made: inner(&change.made, new),
        leader_opened: change.opened.len() - inner(&change.opened, old),
        leader_made: change.made.len() - inner(&change.made, new),
        put_back: cost.put_back,
        lost: frames(&cost.lost),
        lost_outs: frames(&cost.lost_outs),
        lost_film: cost.lost,
        lost_outs_film: cost.lost_outs,
    }
}

/// Whether a join is one with head or tail leader.
pub(super) fn of_leader(joint: usize, all: &Joints) -> bool {
    joint == 0 || joint == all.strips.len()
}

/// The strips a change is about: those with both joins among its own, and those
/// beside its joins that the other version has otherwise.
fn concerned<'a>(joints: &[usize], own: &'a Joints, other: &Joints) -> Vec<&'a Laid> {
    let has = |j: usize| joints.contains(&j);
    let beside = joints.iter().flat_map(|j| [j.checked_sub(1), Some(*j)]);
    let beside: BTreeSet<usize> = beside.flatten().collect();
    let is = |i: &usize| {
        let alike = |strip| other.strips.iter().any(|o| covers(strip, o));
        (has(*i) && has(i + 1)) || !own.strips.get(*i).is_some_and(alike)
    };
    let concerned = beside.into_iter().filter(is);
    concerned.filter_map(|i| own.strips.get(i)).collect()
}

fn positions(strips: &[&Laid]) -> Vec<usize> {
    let all = strips.iter().flat_map(|s| s.positions.0..=s.positions.1);
    all.collect()
}

fn shares(one: &Laid, other: &Laid) -> bool {
    one.film == other.film && one.begin < other.end && other.begin < one.end
}

fn covers(one: &Laid, other: &Laid) -> bool {
    one.film == other.film && one.begin == other.begin && one.end == other.end
}
