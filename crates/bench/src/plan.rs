//! A plan: in which order the strips are taken, and what that comes to.

use crate::wanted::Wanted;

/// One strip taken from its roll.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) struct Take {
    /// Index of the roll.
    pub(crate) roll: usize,
    /// Index of the strip on the roll, from the head.
    pub(crate) strip: usize,
    /// Whether its tail comes first: the roll is wound towards its head.
    pub(crate) backward: bool,
}

/// The order of the work.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(crate) struct Plan {
    /// The strips in the order in which they are taken.
    pub(crate) takes: Vec<Take>,
    /// For each roll whether it is wound through, all of it, when it is first
    /// put on.
    pub(crate) through: Vec<bool>,
}

/// What a plan comes to, in the order in which plans are compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) struct Figures {
    /// Mountings after the first.
    pub(crate) changes: usize,
    /// Frames wound.
    pub(crate) wound: u64,
    /// Strips hanging at the worst moment.
    pub(crate) pins: usize,
}

/// The reel being made up, and the strips that hang beside it.
#[derive(Debug, Clone, Default)]
pub(crate) struct TakeUp {
    taken: Vec<bool>,
    /// The turn that comes next.
    pub(crate) next: usize,
    /// Strips hanging now.
    pub(crate) hanging: usize,
}

impl TakeUp {
    pub(crate) fn new(turns: usize) -> Self {
        Self {
            taken: vec![false; turns],
            next: 0,
            hanging: 0,
        }
    }

    /// Takes the strip of a turn: it goes straight on when it is next, and those
    /// hanging behind it follow; else it hangs.
    pub(crate) fn take(&mut self, turn: usize) {
        self.taken[turn] = true;
        self.hanging += 1;
        while self.taken.get(self.next).copied().unwrap_or(false) {
            self.next += 1;
            self.hanging -= 1;
        }
    }
}

impl Plan {
    /// Carries the plan out in numbers.
    pub(crate) fn figures(&self, wanted: &Wanted) -> Figures {
        let mut reel = TakeUp::new(wanted.turns());
        let mut stands: Vec<Option<u32>> = vec![None; wanted.rolls.len()];
        let mut mounted = None;
        let mut found = Figures {
            changes: 0,
            wound: 0,
            pins: 0,
        };
        for take in &self.takes {
            let roll = &wanted.rolls[take.roll];
            if mounted.replace(take.roll).is_some_and(|m| m != take.roll) {
                found.changes += 1;
            }
            let through = self.through.get(take.roll).copied().unwrap_or(false);
            let stand = stands[take.roll].unwrap_or_else(|| {
                let end = if through { roll.frames } else { 0 };
                found.wound += u64::from(end);
                end
            });
            let strip = roll.strips[take.strip];
            let (near, far) = match take.backward {
                false => (strip.begin, strip.end),
                true => (strip.end, strip.begin),
            };
            found.wound += u64::from(stand.abs_diff(near)) + u64::from(near.abs_diff(far));
            stands[take.roll] = Some(far);
            reel.take(strip.turn);
            found.pins = found.pins.max(reel.hanging);
        }
        found
    }
}
