//! A good order where no table holds all rolls: strip by strip, some standings
//! kept of each number of strips.

use std::collections::BTreeMap;

use crate::search::course::{Course, NONE};

/// Standings kept.
const WIDTH: usize = 400;

#[derive(Debug, Clone)]
struct Node {
    stands: Vec<u32>,
    mounted: Option<usize>,
    changes: usize,
    hanging: u16,
    peak: u16,
    /// Where it is among the nodes before, and the roll taken from.
    from: usize,
    roll: usize,
}

fn hanging(courses: &[Course], stands: &[u32]) -> u16 {
    let pairs = || courses.iter().zip(stands);
    let taken: u16 = pairs().map(|(c, s)| c.taken[*s as usize]).sum();
    let missing = pairs().map(|(c, s)| c.missing[*s as usize]).min();
    taken - missing.unwrap_or(taken).min(taken)
}

/// The rolls in order, within so many pins, with few roll changes.
pub(super) fn within(
    courses: &[Course],
    mounted: Option<usize>,
    pins: usize,
) -> Option<Vec<usize>> {
    swept(courses, mounted, pins, false).map(|(rolls, _)| rolls)
}

/// A number of pins that does.
pub(super) fn few_pins(courses: &[Course], mounted: Option<usize>) -> usize {
    let swept = swept(courses, mounted, usize::MAX, true);
    swept.map_or(0, |(_, peak)| usize::from(peak))
}

fn swept(
    courses: &[Course],
    mounted: Option<usize>,
    pins: usize,
    few: bool,
) -> Option<(Vec<usize>, u16)> {
    let first = vec![0_u32; courses.len()];
    let at_first = hanging(courses, &first);
    let mut levels = vec![vec![Node {
        stands: first,
        mounted,
        changes: 0,
        hanging: at_first,
        peak: at_first,
        from: 0,
        roll: 0,
    }]];
    if usize::from(at_first) > pins {
        return None;
    }
    let strips: usize = courses.iter().map(|c| c.len() - 1).sum();
    for _ in 0..strips {
        let nodes = levels.last()?;
        let mut next: BTreeMap<(Vec<u32>, Option<usize>), Node> = BTreeMap::new();
        for (from, node) in nodes.iter().enumerate() {
            for roll in 0..courses.len() {
                let to = courses[roll].ways[node.stands[roll] as usize][0];
                if to == NONE {
                    continue;
                }
                let mut stands = node.stands.clone();
                stands[roll] = to;
                let hanging = hanging(courses, &stands);
                if usize::from(hanging) > pins {
                    continue;
                }
                let child = Node {
                    mounted: Some(roll),
                    changes: node.changes + usize::from(node.mounted != Some(roll)),
                    hanging,
                    peak: node.peak.max(hanging),
                    from,
                    roll,
                    stands: stands.clone(),
                };
                let same = next
                    .entry((stands, Some(roll)))
                    .or_insert_with(|| child.clone());
                if rank(&child, courses, few) < rank(same, courses, few) {
                    *same = child;
                }
            }
        }
        let mut kept: Vec<Node> = next.into_values().collect();
        kept.sort_by_key(|n| rank(n, courses, few));
        kept.truncate(WIDTH);
        levels.push(kept);
    }
    let last = levels.last()?.first()?;
    let peak = last.peak;
    let mut rolls = Vec::with_capacity(strips);
    let mut at = 0;
    for level in levels[1..].iter().rev() {
        rolls.push(level[at].roll);
        at = level[at].from;
    }
    rolls.reverse();
    Some((rolls, peak))
}

/// What is kept first: few changes with those surely still to come, or few pins.
fn rank(node: &Node, courses: &[Course], few: bool) -> (usize, usize) {
    let unfinished = courses.iter().zip(&node.stands).enumerate();
    let more =
        unfinished.filter(|(r, (c, s))| **s as usize + 1 < c.len() && node.mounted != Some(*r));
    let changes = node.changes + more.count();
    match few {
        true => (usize::from(node.peak), usize::from(node.hanging)),
        false => (changes, usize::from(node.hanging)),
    }
}
