//! How the strips of one roll can come off it.

/// A place that there is none of.
pub(crate) const NONE: u32 = u32::MAX;

/// The standings of one roll and the ways between them. Standing 0: nothing is
/// taken; the last one: everything is. A way always leads to a higher number.
#[derive(Debug, Clone)]
pub(crate) struct Course {
    /// For each standing the standings that taking one strip leads to.
    pub(crate) ways: Vec<[u32; 2]>,
    /// For each standing how many strips are taken.
    pub(crate) taken: Vec<u16>,
    /// For each standing the first turn of this roll not yet taken.
    pub(crate) missing: Vec<u16>,
}

fn short(n: usize) -> u16 {
    u16::try_from(n).unwrap_or(u16::MAX)
}

fn standing(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(NONE)
}

/// The smallest of the turns, or `none` when there are no more.
fn smallest(turns: &[usize], none: usize) -> u16 {
    short(turns.iter().copied().min().unwrap_or(none))
}

impl Course {
    /// Strips that can be had in one order only. `all` is how many turns there
    /// are on all rolls together.
    pub(crate) fn in_order(turns: &[usize], all: usize) -> Self {
        let n = turns.len();
        let next = |s| if s < n { standing(s + 1) } else { NONE };
        Self {
            ways: (0..=n).map(|s| [next(s), NONE]).collect(),
            taken: (0..=n).map(short).collect(),
            missing: (0..=n).map(|s| smallest(&turns[s..], all)).collect(),
        }
    }

    /// Strips that can be had from either end, but from one end only: the order
    /// or its reverse. Standing `s` below n has s taken from the head, standing
    /// n − 1 + s has s taken from the tail, and 2n − 1 has all.
    pub(crate) fn from_either_end(turns: &[usize], all: usize) -> Self {
        let n = turns.len();
        if n < 2 {
            return Self::in_order(turns, all);
        }
        let mut course = Self::in_order(turns, all);
        course.ways[n - 1][0] = standing(2 * n - 1);
        course.ways[0][1] = standing(n);
        course.ways.truncate(n);
        course.taken.truncate(n);
        course.missing.truncate(n);
        for s in 1..=n {
            let next = if s < n { standing(n + s) } else { NONE };
            course.ways.push([next, NONE]);
            course.taken.push(short(s));
            course.missing.push(smallest(&turns[..n - s], all));
        }
        course
    }

    /// How many standings there are.
    pub(crate) fn len(&self) -> usize {
        self.ways.len()
    }
}

/// The turns of some rolls, numbered anew among themselves: what is left of a
/// cut when all other rolls are thought away.
pub(crate) fn renumbered(lists: &[&[usize]]) -> Vec<Vec<usize>> {
    let mut all: Vec<usize> = lists.concat();
    all.sort_unstable();
    let rank = |turn: &usize| all.partition_point(|t| t < turn);
    lists
        .iter()
        .map(|list| list.iter().map(rank).collect())
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_roll_from_either_end_has_two_ways_at_first() {
        let course = Course::from_either_end(&[4, 0, 2], 5);
        assert_eq!(course.ways[0], [1, 3]);
        assert_eq!(course.ways[2], [5, NONE]);
        assert_eq!(course.ways[3], [4, NONE]);
        assert_eq!(course.ways[4], [5, NONE]);
        assert_eq!(course.ways[5], [NONE, NONE]);
        assert_eq!(course.taken, [0, 1, 2, 1, 2, 3]);
        assert_eq!(course.missing, [0, 0, 2, 0, 4, 5]);
    }

    #[test]
    fn turns_are_numbered_among_themselves() {
        assert_eq!(renumbered(&[&[7, 2], &[4]]), [vec![2, 0], vec![1]]);
    }
}
