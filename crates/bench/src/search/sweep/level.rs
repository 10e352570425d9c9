//! The standings of the bench after so many strips.

use super::child::Child;
use super::{Groups, Sweep};
use crate::habits::Winding;
use crate::wanted::{Wanted, WantedRoll};

/// One roll as it stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Stand {
    /// The frame at the splicer.
    pub(super) at: u32,
    /// Strips taken.
    pub(super) taken: u16,
    /// Strips taken in the order of their turns, without one left out.
    pub(super) in_turn: u16,
    /// Whether it is worked from the tail.
    pub(super) from_tail: bool,
}

/// Where the rolls of a group stand in its table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct InTable {
    /// By how many strips are taken: no plan needs less than the table says here.
    pub(super) taken: u32,
    /// By what is taken in turn: what is needed if the rest taken were no help.
    pub(super) in_turn: u32,
}

/// What is known of one standing beside its rolls.
#[derive(Debug, Clone, Copy)]
pub(super) struct Head {
    pub(super) mounted: Option<u16>,
    /// The turn that comes next.
    pub(super) next: u16,
    pub(super) hanging: u16,
    pub(super) pins: u16,
    pub(super) changes: u32,
    pub(super) wound: u64,
    /// Frames still to be wound, at least.
    pub(super) rest: u64,
    /// A number made from what is taken: unlike sets seldom share one.
    pub(super) mark: u64,
}

/// All standings of a level, each with its part of the shared lists.
#[derive(Debug)]
pub(super) struct Level {
    pub(super) heads: Vec<Head>,
    taken: Vec<u64>,
    stands: Vec<Stand>,
    tables: Vec<InTable>,
    words: usize,
    rolls: usize,
    groups: usize,
}

impl Level {
    /// Nothing taken, every roll heads out.
    pub(super) fn first(wanted: &Wanted, groups: &Groups) -> Self {
        let fresh = Stand {
            at: 0,
            taken: 0,
            in_turn: 0,
            from_tail: false,
        };
        Self {
            heads: vec![Head {
                mounted: None,
                next: 0,
                hanging: 0,
                pins: 0,
                changes: 0,
                wound: 0,
                rest: wanted.least_wound(),
                mark: 0,
            }],
            taken: vec![0; wanted.turns().div_ceil(64)],
            stands: vec![fresh; wanted.rolls.len()],
            tables: vec![InTable::default(); groups.tables.len()],
            words: wanted.turns().div_ceil(64),
            rolls: wanted.rolls.len(),
            groups: groups.tables.len(),
        }
    }

    pub(super) fn len(&self) -> usize {
        self.heads.len()
    }

    pub(super) fn taken(&self, node: usize) -> &[u64] {
        &self.taken[node * self.words..(node + 1) * self.words]
    }

    pub(super) fn has(&self, node: usize, turn: usize) -> bool {
        self.taken(node)[turn / 64] >> (turn % 64) & 1 == 1
    }

    pub(super) fn stands(&self, node: usize) -> &[Stand] {
        &self.stands[node * self.rolls..(node + 1) * self.rolls]
    }

    pub(super) fn tables(&self, node: usize) -> &[InTable] {
        &self.tables[node * self.groups..(node + 1) * self.groups]
    }

    /// The next level: the children, each of its parent here.
    pub(super) fn after(&self, children: &[Child], sweep: &Sweep<'_>) -> Self {
        let count = children.len();
        let mut next = Self {
            heads: Vec::with_capacity(count),
            taken: Vec::with_capacity(count * self.words),
            stands: Vec::with_capacity(count * self.rolls),
            tables: Vec::with_capacity(count * self.groups),
            ..*self
        };
        for (node, child) in children.iter().enumerate() {
            let parent = child.parent as usize;
            next.heads.push(child.head);
            next.taken.extend_from_slice(self.taken(parent));
            next.stands.extend_from_slice(self.stands(parent));
            next.tables.extend_from_slice(self.tables(parent));
            let turn = child.turn(sweep.wanted);
            next.taken[node * self.words + turn / 64] |= 1 << (turn % 64);
            next.stands[node * self.rolls + child.take.roll] = child.stand;
            let (group, _) = sweep.groups.places[child.take.roll];
            next.tables[node * self.groups + group] = child.table;
        }
        next
    }

    /// The best of a last level.
    pub(super) fn best(&self) -> Option<usize> {
        let rank = |node: &usize| {
            let head = &self.heads[*node];
            (head.changes, head.wound, head.pins)
        };
        (0..self.len()).min_by_key(rank)
    }
}

/// Frames that a roll still wants wound, at least, as it stands. `left` says of
/// each strip whether it is still on the roll.
pub(super) fn rest(
    roll: &WantedRoll,
    stand: Stand,
    winding: Winding,
    left: impl Fn(usize) -> bool,
) -> u64 {
    if usize::from(stand.taken) == roll.strips.len() {
        return 0;
    }
    let at = i64::from(stand.at);
    let (low, high) = match winding {
        Winding::ToAndFro => {
            let low = (0..roll.strips.len()).find(|i| left(*i));
            let high = (0..roll.strips.len()).rfind(|i| left(*i));
            let (Some(low), Some(high)) = (low, high) else {
                return 0;
            };
            (roll.strips[low].begin, roll.strips[high].end)
        }
        _ if stand.from_tail => (roll.strips[0].begin, stand.at),
        _ => (stand.at, roll.last_end()),
    };
    let (low, high) = (i64::from(low), i64::from(high));
    let nearest = (at - low).abs().min((at - high).abs());
    (nearest + high - low).unsigned_abs()
}
