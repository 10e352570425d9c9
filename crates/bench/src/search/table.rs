//! How many roll changes are still needed, for every standing of several rolls.

use super::course::{Course, NONE};

/// Standings of all rolls together that a table may hold. Six rolls of ten
/// strips have 11⁶ = 1,771,561; one table of that size takes about 20 ms.
pub(crate) const MOST_STANDINGS: usize = 6_000_000;

/// Rolls that one table may hold.
const MOST_ROLLS: usize = 16;

/// A standing from which the work cannot be ended within the pins.
const STUCK: u32 = u32::MAX;

/// For every standing the fewest roll changes to the end, within the pins.
///
/// From any roll on the rewinds one change leads to any other, so the answers
/// for the rolls that may be mounted differ by one at most: a cell holds the
/// smallest (upper half) and the rolls that reach it (one bit each).
#[derive(Debug)]
pub(crate) struct Table {
    strides: Vec<usize>,
    cells: Vec<u32>,
}

/// Standings in all, if one table may hold them.
pub(crate) fn standings(courses: &[Course]) -> Option<usize> {
    let lengths = courses.iter().map(Course::len);
    let product = lengths.fold(1_usize, |all, n| all.saturating_mul(n));
    (product <= MOST_STANDINGS && courses.len() <= MOST_ROLLS && !courses.is_empty())
        .then_some(product)
}

fn strides(courses: &[Course]) -> Vec<usize> {
    let mut strides = vec![1; courses.len()];
    for r in (0..courses.len().saturating_sub(1)).rev() {
        strides[r] = strides[r + 1] * courses[r + 1].len();
    }
    strides
}

/// A way out of a standing: the roll, and how much higher the next standing is.
type Way = (usize, usize);

/// Visits every standing, the last one first: its number, how many strips hang
/// there, and the ways out of it.
fn from_the_end(courses: &[Course], mut visit: impl FnMut(usize, u16, &[Way])) {
    let Some((inner, outer)) = courses.split_last() else {
        return;
    };
    let strides = strides(courses);
    let outer_all: usize = outer.iter().map(Course::len).product();
    let ways_of = |r: usize, s: usize, ways: &mut Vec<Way>| {
        let to = courses[r].ways[s].iter().filter(|to| **to != NONE);
        ways.extend(to.map(|to| (r, (*to as usize - s) * strides[r])));
    };
    let inner_ways: Vec<Vec<Way>> = (0..inner.len())
        .map(|s| {
            let mut ways = Vec::new();
            ways_of(outer.len(), s, &mut ways);
            ways
        })
        .collect();
    let mut ways: Vec<Way> = Vec::new();
    for high in (0..outer_all).rev() {
        ways.clear();
        let (mut taken, mut missing) = (0_u16, u16::MAX);
        for (r, course) in outer.iter().enumerate() {
            let s = high * inner.len() / strides[r] % course.len();
            taken += course.taken[s];
            missing = missing.min(course.missing[s]);
            ways_of(r, s, &mut ways);
        }
        let shared = ways.len();
        for s in (0..inner.len()).rev() {
            ways.truncate(shared);
            ways.extend_from_slice(&inner_ways[s]);
            let hanging = taken + inner.taken[s] - missing.min(inner.missing[s]);
            visit(high * inner.len() + s, hanging, &ways);
        }
    }
}

fn needed(cell: u32, roll: usize) -> u32 {
    (cell >> 16) + u32::from(cell >> roll & 1 == 0)
}

impl Table {
    /// The table of these rolls with so many pins.
    pub(crate) fn new(courses: &[Course], pins: usize) -> Self {
        let all: usize = courses.iter().map(Course::len).product();
        let pins = u16::try_from(pins).unwrap_or(u16::MAX);
        let mut cells = vec![STUCK; all];
        from_the_end(courses, |at, hanging, ways| {
            if hanging > pins {
                return;
            }
            // At the very end every roll may be the one mounted.
            let (mut best, mut rolls) = match ways.is_empty() {
                true => (0, 0xFFFF),
                false => (STUCK, 0),
            };
            for (roll, by) in ways {
                let cell = cells[at + by];
                if cell == STUCK {
                    continue;
                }
                let this = needed(cell, *roll);
                if this < best {
                    (best, rolls) = (this, 0);
                }
                if this == best {
                    rolls |= 1 << roll;
                }
            }
            if best != STUCK {
                cells[at] = best << 16 | rolls;
            }
        });
        Self {
            strides: strides(courses),
            cells,
        }
    }

    /// By how much a standing of one roll counts in the number of a standing.
    pub(crate) fn stride(&self, roll: usize) -> usize {
        self.strides[roll]
    }

    /// Roll changes still needed, with a roll of this table on the rewinds.
    pub(crate) fn further(&self, at: usize, mounted: usize) -> Option<u32> {
        let cell = self.cells[at];
        (cell != STUCK).then(|| needed(cell, mounted))
    }

    /// Mountings still needed, with a roll that is not of this table on them.
    pub(crate) fn mountings(&self, at: usize) -> Option<u32> {
        let cell = self.cells[at];
        let done = at + 1 == self.cells.len();
        (cell != STUCK).then(|| (cell >> 16) + u32::from(!done))
    }

    /// The rolls to mount next, one bit each.
    fn rolls(&self, at: usize) -> u32 {
        self.cells[at] & 0xFFFF
    }

    /// The rolls in the order in which a strip is taken from each, on the way
    /// with the fewest changes. For courses with one way out of a standing.
    pub(crate) fn walk(&self, courses: &[Course]) -> Option<Vec<usize>> {
        self.walk_from(courses, None)
    }

    /// The same with a roll on the rewinds.
    pub(crate) fn walk_from(
        &self,
        courses: &[Course],
        mut mounted: Option<usize>,
    ) -> Option<Vec<usize>> {
        let mut at = 0;
        let mut stands = vec![0_usize; courses.len()];
        let mut order = Vec::new();
        self.mountings(0)?;
        while at + 1 < self.cells.len() {
            let rolls = self.rolls(at);
            let stays = mounted.filter(|m| rolls >> m & 1 == 1);
            let roll = stays.unwrap_or(rolls.trailing_zeros() as usize);
            mounted = Some(roll);
            order.push(roll);
            let to = courses[roll].ways[stands[roll]][0] as usize;
            at += (to - stands[roll]) * self.strides[roll];
            stands[roll] = to;
        }
        Some(order)
    }
}
