//! What is wanted from every roll, in numbers that a search can count with.

use onestrand_film::RollId;

use crate::Extent;

/// One strip still on its roll.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct WantedStrip {
    /// First frame taken.
    pub(crate) begin: u32,
    /// First frame left behind it.
    pub(crate) end: u32,
    /// Its turn among the strips that come off rolls, from 0. Leader and cards
    /// have no turn: they lie ready and wait for nothing.
    pub(crate) turn: usize,
    /// Its index among all strips of the cut.
    pub(crate) strip: usize,
}

/// One roll with what is wanted from it, from head to tail.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct WantedRoll {
    pub(crate) id: RollId,
    pub(crate) frames: u32,
    pub(crate) strips: Vec<WantedStrip>,
    /// The strips in the order of their turns.
    pub(crate) by_turn: Vec<usize>,
}

impl WantedRoll {
    /// Where the last wanted strip ends.
    pub(crate) fn last_end(&self) -> u32 {
        self.strips.last().map_or(0, |s| s.end)
    }

    /// Frames wound when the roll is worked from its head, in one pass.
    pub(crate) fn wound_heads(&self) -> u64 {
        u64::from(self.last_end())
    }

    /// Frames wound when it is wound through and worked from its tail.
    pub(crate) fn wound_tails(&self) -> u64 {
        let first = self.strips.first().map_or(self.frames, |s| s.begin);
        2 * u64::from(self.frames) - u64::from(first)
    }
}

/// All that is wanted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Wanted {
    /// The rolls wanted, by name.
    pub(crate) rolls: Vec<WantedRoll>,
    /// For each turn the roll, and the index of the strip on it.
    pub(crate) owners: Vec<(usize, usize)>,
}

impl Wanted {
    /// From the extents in cut order; `frames` says how long each roll is.
    pub(crate) fn of(extents: &[Extent], frames: impl Fn(&RollId) -> u32) -> Self {
        let mut names: Vec<&RollId> = extents.iter().map(|e| &e.roll).collect();
        names.sort();
        names.dedup();
        let mut rolls: Vec<WantedRoll> = names
            .iter()
            .map(|id| WantedRoll {
                id: (*id).clone(),
                frames: frames(id),
                strips: Vec::new(),
                by_turn: Vec::new(),
            })
            .collect();
        for (turn, extent) in extents.iter().enumerate() {
            if let Some(roll) = rolls.iter_mut().find(|r| r.id == extent.roll) {
                roll.strips.push(WantedStrip {
                    begin: extent.taken.begin().index(),
                    end: extent.taken.end().index(),
                    turn,
                    strip: extent.strip,
                });
            }
        }
        Self::from_rolls(rolls, extents.len())
    }

    /// From rolls with their strips in any order, and the number of turns.
    pub(crate) fn from_rolls(mut rolls: Vec<WantedRoll>, turns: usize) -> Self {
        let mut owners = vec![(0, 0); turns];
        for (r, roll) in rolls.iter_mut().enumerate() {
            roll.strips.sort_by_key(|s| s.begin);
            roll.by_turn = (0..roll.strips.len()).collect();
            roll.by_turn.sort_by_key(|i| roll.strips[*i].turn);
            for (i, strip) in roll.strips.iter().enumerate() {
                owners[strip.turn] = (r, i);
            }
        }
        Self { rolls, owners }
    }

    /// Strips that come off rolls.
    pub(crate) fn turns(&self) -> usize {
        self.owners.len()
    }

    /// What no plan of any way can wind less than: every roll goes at least from
    /// its head to the end of its last strip.
    pub(crate) fn least_wound(&self) -> u64 {
        self.rolls.iter().map(WantedRoll::wound_heads).sum()
    }
}
