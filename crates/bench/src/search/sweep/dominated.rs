//! Standings that another one of the same level does at least as well as.

use super::Sweep;
use super::child::Child;
use super::level::Level;
use crate::wanted::Wanted;

/// Leaves out every child that another one with the same strips taken equals:
/// with as few roll changes and as little winding it could bring every roll to
/// where the other has it. How many pins were used before does not matter to
/// what comes.
pub(super) fn left_out(level: &Level, children: &mut Vec<Child>, sweep: &Sweep<'_>) {
    let wanted = sweep.wanted;
    children.sort_unstable_by_key(|c| (c.head.mark, c.rank()));
    let mut kept: Vec<Child> = Vec::with_capacity(children.len());
    let mut from = 0;
    for child in children.iter() {
        if kept
            .get(from)
            .is_some_and(|k| k.head.mark != child.head.mark)
        {
            from = kept.len();
        }
        let same = &kept[from..];
        let compared = &same[..same.len().min(sweep.compared)];
        if !compared
            .iter()
            .any(|k| does_as_well(level, k, child, wanted))
        {
            kept.push(*child);
        }
    }
    *children = kept;
}

fn does_as_well(level: &Level, one: &Child, other: &Child, wanted: &Wanted) -> bool {
    let change = u32::from(one.head.mounted != other.head.mounted);
    let changes = one.head.changes + change;
    if changes > other.head.changes || !same_taken(level, one, other, wanted) {
        return false;
    }
    if changes < other.head.changes {
        return true;
    }
    one.head.wound + apart(level, one, other, wanted) <= other.head.wound
}

fn same_taken(level: &Level, one: &Child, other: &Child, wanted: &Wanted) -> bool {
    let word = |child: &Child, at: usize| {
        let turn = child.turn(wanted);
        let own = if turn / 64 == at { 1 << (turn % 64) } else { 0 };
        level.taken(child.parent as usize)[at] | own
    };
    let words = level.taken(one.parent as usize).len();
    (0..words).all(|at| word(one, at) == word(other, at))
}

/// Frames to wind from the stands of one to the stands of the other, on rolls
/// that are still wanted.
fn apart(level: &Level, one: &Child, other: &Child, wanted: &Wanted) -> u64 {
    let stand = |child: &Child, roll: usize| match roll == child.take.roll {
        true => child.stand,
        false => level.stands(child.parent as usize)[roll],
    };
    let differ = |(roll, of): (usize, &crate::wanted::WantedRoll)| {
        let (a, b) = (stand(one, roll), stand(other, roll));
        let done = usize::from(a.taken) == of.strips.len();
        if done {
            0
        } else {
            u64::from(a.at.abs_diff(b.at))
        }
    };
    wanted.rolls.iter().enumerate().map(differ).sum()
}
