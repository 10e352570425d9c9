//! One more strip taken.

use super::Sweep;
use super::level::{Head, InTable, Level, Stand, rest};
use crate::habits::Winding;
use crate::plan::Take;
use crate::wanted::{Wanted, WantedRoll};

/// A standing of the next level, before it is written out.
#[derive(Debug, Clone, Copy)]
pub(super) struct Child {
    pub(super) parent: u32,
    pub(super) take: Take,
    pub(super) head: Head,
    /// How the roll stands afterwards.
    pub(super) stand: Stand,
    /// Where the table of the roll's group stands afterwards.
    pub(super) table: InTable,
    /// Roll changes still needed by the look of it.
    pub(super) estimate: u32,
}

impl Child {
    /// What is kept first when there is no room for all.
    pub(super) fn rank(&self) -> (u32, u64, u16, u32, Take) {
        let head = &self.head;
        (
            head.changes + self.estimate,
            head.wound + head.rest,
            head.hanging,
            self.parent,
            self.take,
        )
    }

    /// The same when few pins are aimed at.
    pub(super) fn pins_rank(&self) -> (u16, u16, (u32, u64, u16, u32, Take)) {
        (self.head.pins, self.head.hanging, self.rank())
    }

    pub(super) fn turn(&self, wanted: &Wanted) -> usize {
        wanted.rolls[self.take.roll].strips[self.take.strip].turn
    }
}

/// A number for each turn that looks drawn by lot, and is the same every time.
///
/// Source: the finishing steps of the generator `SplitMix64`, published by
/// Steele, Lea and Flood in 2014.
fn mark(turn: usize) -> u64 {
    let mut z = (turn as u64 + 1).wrapping_mul(0x9E37_79B9_7F4A_7C15);
    z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    z ^ (z >> 31)
}

impl Sweep<'_> {
    /// Every strip that may be taken next.
    pub(super) fn children_of(&self, level: &Level, node: usize, children: &mut Vec<Child>) {
        for roll in 0..self.wanted.rolls.len() {
            let stand = level.stands(node)[roll];
            let strips = self.wanted.rolls[roll].strips.len();
            let taken = usize::from(stand.taken);
            if taken == strips {
                continue;
            }
            let mut offer = |strip: usize, backward: bool| {
                let take = Take {
                    roll,
                    strip,
                    backward,
                };
                children.extend(self.child(level, node, take));
            };
            match self.winding {
                Winding::OnePass => offer(taken, false),
                Winding::Tails => {
                    let fresh = taken == 0;
                    if fresh || !stand.from_tail {
                        offer(taken, false);
                    }
                    if fresh || stand.from_tail {
                        offer(strips - 1 - taken, true);
                    }
                }
                Winding::ToAndFro => {
                    let wanted = &self.wanted.rolls[roll];
                    let on_roll = |i: &&usize| !level.has(node, wanted.strips[**i].turn);
                    let left = wanted.by_turn[usize::from(stand.in_turn)..].iter();
                    for strip in left.filter(on_roll).take(self.choice) {
                        offer(*strip, false);
                        offer(*strip, true);
                    }
                }
            }
        }
    }

    fn child(&self, level: &Level, node: usize, take: Take) -> Option<Child> {
        let parent = level.heads[node];
        let before = level.stands(node)[take.roll];
        let roll = &self.wanted.rolls[take.roll];
        let (mut stand, wound) = self.wind(roll, before, take);
        if self.passes_the_next(level, node, take, before, stand) {
            return None;
        }
        let turn = roll.strips[take.strip].turn;
        let (next, hanging) = self.hung(level, node, turn);
        if usize::from(hanging) > self.pins {
            return None;
        }
        stand.in_turn = in_turn(roll, before, |i| {
            i == take.strip || level.has(node, roll.strips[i].turn)
        });
        let (further, estimate, table) = self.further(level, node, take, (before, stand))?;
        let left = |stand: Stand, without: Option<usize>| {
            rest(roll, stand, self.winding, |i| {
                Some(i) != without && !level.has(node, roll.strips[i].turn)
            })
        };
        let roll_no = u16::try_from(take.roll).ok()?;
        let head = Head {
            mounted: Some(roll_no),
            next,
            hanging,
            pins: parent.pins.max(hanging),
            changes: parent.changes + u32::from(parent.mounted.is_some_and(|m| m != roll_no)),
            wound: parent.wound + wound,
            rest: parent.rest - left(before, None) + left(stand, Some(take.strip)),
            mark: parent.mark ^ mark(turn),
        };
        let child = Child {
            parent: u32::try_from(node).ok()?,
            take,
            head,
            stand,
            table,
            estimate,
        };
        let wound = head.wound + head.rest;
        self.wanted_still(head.changes + further, wound)
            .then_some(child)
    }

    /// Where the roll stands afterwards, and how much was wound.
    fn wind(&self, roll: &WantedRoll, before: Stand, take: Take) -> (Stand, u64) {
        let strip = roll.strips[take.strip];
        let (near, far) = match take.backward {
            false => (strip.begin, strip.end),
            true => (strip.end, strip.begin),
        };
        let tails = self.winding == Winding::Tails && take.backward;
        let through = tails && before.taken == 0;
        let at = if through { roll.frames } else { before.at };
        let first = if through { u64::from(roll.frames) } else { 0 };
        let stand = Stand {
            at: far,
            taken: before.taken + 1,
            in_turn: before.in_turn,
            from_tail: tails,
        };
        let wound = first + u64::from(at.abs_diff(near)) + u64::from(near.abs_diff(far));
        (stand, wound)
    }

    /// Whether the strip that is next goes by on the way. Taken in passing it
    /// would cost nothing and leave less to do: this way is never better.
    fn passes_the_next(
        &self,
        level: &Level,
        node: usize,
        take: Take,
        before: Stand,
        after: Stand,
    ) -> bool {
        if self.winding != Winding::ToAndFro {
            return false;
        }
        let next = usize::from(level.heads[node].next);
        let (roll, strip) = self.wanted.owners[next];
        if roll != take.roll || strip == take.strip {
            return false;
        }
        let next = self.wanted.rolls[roll].strips[strip];
        let own = self.wanted.rolls[roll].strips[take.strip];
        let low = before.at.min(after.at).min(own.begin);
        let high = before.at.max(after.at).max(own.end);
        low <= next.begin && next.end <= high
    }

    /// What comes next, and what hangs, after a strip is taken.
    fn hung(&self, level: &Level, node: usize, turn: usize) -> (u16, u16) {
        let head = level.heads[node];
        let mut next = usize::from(head.next);
        let mut hanging = head.hanging + 1;
        if turn == next {
            let all = self.wanted.turns();
            while next < all && (next == turn || level.has(node, next)) {
                next += 1;
                hanging -= 1;
            }
        }
        (u16::try_from(next).unwrap_or(u16::MAX), hanging)
    }

    /// Roll changes still needed once the strip is taken, at least and by the
    /// look of it, and where the table of the roll's group stands then.
    fn further(
        &self,
        level: &Level,
        node: usize,
        take: Take,
        (before, after): (Stand, Stand),
    ) -> Option<(u32, u32, InTable)> {
        let (group, place) = self.groups.places[take.roll];
        let (mut further, mut estimate) = (0, 0);
        let mut own = InTable::default();
        for (g, table) in self.groups.tables.iter().enumerate() {
            let at = level.tables(node)[g];
            if g != group {
                let mountings = table.mountings(at.taken as usize)?;
                further += mountings;
                estimate += match at.in_turn == at.taken {
                    true => mountings,
                    false => table.mountings(at.in_turn as usize).unwrap_or(mountings),
                };
                continue;
            }
            let stride = table.stride(place);
            let by = |steps: usize| u32::try_from(steps * stride).ok();
            own = InTable {
                taken: at.taken + by(self.table_step(take, before))?,
                in_turn: at.in_turn + by(usize::from(after.in_turn - before.in_turn))?,
            };
            if self.winding != Winding::ToAndFro {
                own.in_turn = own.taken;
            }
            let needed = table.further(own.taken as usize, place)?;
            further += needed;
            let in_turn = table.further(own.in_turn as usize, place);
            estimate += in_turn.unwrap_or(needed);
        }
        Some((further, estimate, own))
    }

    /// How many standings further its course the roll then is: see
    /// [`crate::search::course::Course::from_either_end`].
    fn table_step(&self, take: Take, before: Stand) -> usize {
        let strips = self.wanted.rolls[take.roll].strips.len();
        let edge = match take.backward {
            true => 0,
            false => strips - 1,
        };
        let tails = self.winding == Winding::Tails && strips > 1;
        match tails && usize::from(before.taken) == edge {
            true => strips,
            false => 1,
        }
    }
}

/// How many strips of a roll are taken in turn, without one left out.
fn in_turn(roll: &WantedRoll, before: Stand, taken: impl Fn(usize) -> bool) -> u16 {
    let rest = &roll.by_turn[usize::from(before.in_turn)..];
    let more = rest.iter().take_while(|i| taken(**i)).count();
    before.in_turn + u16::try_from(more).unwrap_or(0)
}
