//! The fewest joins made in another way.
//!
//! Breadth first: every way that mends changes, at the first trouble that is
//! left, at least one of the joins that are in it.

use std::collections::{BTreeSet, VecDeque};

use super::faults::Faults;
use super::layout::{Claim, Layout, Part, Seen, Trial};
use super::trouble::Trouble;
use crate::JoinKind;

/// After so many trials the search gives up.
const TRIALS: usize = 600;

/// Every way with the fewest joins changed, gentlest first.
pub(super) fn other_joins(layout: &Layout, let_pass: &Faults, quarrel: &[usize]) -> Vec<Trial> {
    let mut waiting: VecDeque<Trial> = VecDeque::from([Trial::default()]);
    let mut known: BTreeSet<Vec<(usize, JoinKind)>> = BTreeSet::new();
    let mut found: Vec<Trial> = Vec::new();
    for _ in 0..TRIALS {
        let Some(trial) = waiting.pop_front() else {
            break;
        };
        let enough = found
            .first()
            .is_some_and(|f| f.kinds.len() < trial.kinds.len());
        if enough {
            break;
        }
        let seen = Seen {
            layout,
            trial: &trial,
        };
        match seen.first_trouble(let_pass, quarrel) {
            None => found.push(trial),
            Some(trouble) => {
                for next in otherwise(&trial, layout, trouble) {
                    if known.insert(next.kinds.clone()) {
                        waiting.push_back(next);
                    }
                }
            }
        }
    }
    found.retain(|trial| !trial.kinds.is_empty());
    found
}

/// The trial with one more join changed, of those that are in the trouble.
fn otherwise(trial: &Trial, layout: &Layout, trouble: Trouble) -> Vec<Trial> {
    let gap_of = |claim: &Claim| match claim.part {
        Part::Shown => None,
        Part::Head => Some(claim.piece),
        Part::Tail => Some(claim.piece + 1),
    };
    let gaps: Vec<usize> = match trouble {
        Trouble::Wanted { by, .. } => by.iter().filter_map(gap_of).collect(),
        Trouble::Outside { by, .. } => gap_of(&by).into_iter().collect(),
        Trouble::Joint { gap } => vec![gap],
        Trouble::Short { first, last } => vec![first, last + 1],
        Trouble::Empty { .. } | Trouble::Piece | Trouble::OutsideTake { .. } => Vec::new(),
    };
    let mut out = Vec::new();
    for gap in gaps {
        if trial.kinds.iter().any(|k| k.0 == gap) {
            continue;
        }
        for kind in JoinKind::ALL {
            if kind != layout.kinds[gap] {
                let mut next = trial.clone();
                next.kinds.push((gap, kind));
                next.kinds.sort_unstable();
                out.push(next);
            }
        }
    }
    out
}
