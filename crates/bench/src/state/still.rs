//! What is still on the rolls and what hangs, in numbers that a search can count
//! with.

use std::collections::BTreeSet;

use onestrand_cut::{JoinTable, Strips};
use onestrand_film::RollId;

use super::coming::Outlook;
use super::writer::Writer;
use super::{BenchState, Film, Place, Taking};
use crate::search::course::{Course, NONE};

/// A strip still on its roll.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct OnRoll {
    strip: usize,
    /// Where the blade first goes, onward; where the roll stands if that is done.
    begin: u32,
    turn: usize,
}

/// In which order the strips that lie behind are taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Way {
    /// Nothing lies behind.
    Onward,
    /// Wound back to the first, and onward from there.
    FromTheFirst,
    /// Those behind on the way back, then the others.
    BackThenOnward,
    /// Those ahead, then those behind on the way back.
    OnwardThenBack,
}

/// A roll with what is still wanted of it, or the film that was turned back.
#[derive(Debug)]
pub(super) struct Roll {
    /// None for the film that was turned back.
    pub(super) id: Option<RollId>,
    behind: Vec<OnRoll>,
    ahead: Vec<OnRoll>,
}

impl Roll {
    /// Whether nothing lies behind where it stands.
    pub(super) fn is_ahead(&self) -> bool {
        self.behind.is_empty()
    }

    fn taken(&self, way: Way) -> Vec<(OnRoll, bool)> {
        let onward = |strips: &[OnRoll]| strips.iter().map(|s| (*s, false)).collect::<Vec<_>>();
        let back: Vec<(OnRoll, bool)> = self.behind.iter().rev().map(|s| (*s, true)).collect();
        match way {
            Way::Onward | Way::FromTheFirst => [onward(&self.behind), onward(&self.ahead)],
            Way::BackThenOnward => [back, onward(&self.ahead)],
            Way::OnwardThenBack => [onward(&self.ahead), back],
        }
        .concat()
    }
}

/// All that is still to be taken.
#[derive(Debug)]
pub(super) struct Still {
    pub(super) rolls: Vec<Roll>,
    /// The roll on the rewinds, if something is still wanted of it.
    pub(super) mounted: Option<usize>,
    /// The turns of what hangs.
    pub(super) hanging: Vec<usize>,
    /// Pins taken by what is not wanted.
    pub(super) pins_lost: usize,
    /// Cut free, and neither hung nor joined.
    pub(super) in_hand: Vec<Taking>,
    pub(super) turns: usize,
    /// Whether every strip comes off its roll in one piece.
    pub(super) is_plain: bool,
    /// Whether two of them touch: one may then fall out of the hand early, and
    /// want a pin that no table counts.
    pub(super) touches: bool,
}

impl Still {
    pub(super) fn of(state: &BenchState, strips: &Strips, table: &JoinTable) -> Self {
        let outlook = Outlook::of(state, strips, table);
        let writer = Writer::new(state, table, outlook, &[], &[]);
        let mut still = Self {
            rolls: Vec::new(),
            mounted: None,
            hanging: Vec::new(),
            pins_lost: 0,
            in_hand: Vec::new(),
            turns: 0,
            is_plain: true,
            touches: false,
        };
        let mut pins: BTreeSet<u32> = BTreeSet::new();
        let mut taken: BTreeSet<usize> = BTreeSet::new();
        let mut places: BTreeSet<(RollId, u32)> = BTreeSet::new();
        for (i, coming) in writer.coming.iter().enumerate() {
            let Some(strip) = coming.part.strip else {
                continue;
            };
            if writer.is_on_made(i) {
                let is_first = writer.run(i).first == i;
                if let Some(begin) = writer.place_on_made(i).filter(|_| is_first) {
                    still.is_plain &= taken.insert(strip);
                    let stands = state.made_stands().map_or(0, |(at, _)| at);
                    still.on_roll(None, stands, (strip, begin));
                }
                continue;
            }
            let Film::Roll { roll, .. } = &coming.part.film else {
                continue;
            };
            if writer.is_on_roll(i) {
                for at in coming.blades.into_iter().flatten() {
                    still.touches |= !places.insert((roll.clone(), at));
                }
                if !taken.insert(strip) {
                    still.is_plain = false;
                    continue;
                }
                let begin = writer.first_place(i, state.stands(roll));
                still.on_roll(Some(roll), state.stands(roll), (strip, begin));
                continue;
            }
            let place = writer.place(i).map(|(c, _)| &state.lengths[c].place);
            match place {
                Some(Place::Pin(pin)) if pins.insert(*pin) => still.hangs(),
                Some(Place::Made) if writer.run(i).first != i => {}
                Some(Place::Roll | Place::Made) => {
                    let backward = false;
                    still.in_hand.push(Taking { strip, backward });
                    still.hangs();
                }
                _ => {}
            }
        }
        still.pins_lost = state.pins().count() - pins.len();
        for roll in &mut still.rolls {
            roll.behind.sort_by_key(|s| s.begin);
            roll.ahead.sort_by_key(|s| s.begin);
        }
        let on = |r: &Roll| match &r.id {
            Some(id) => Some(id) == state.mounted(),
            None => state.is_made_mounted(),
        };
        still.mounted = still.rolls.iter().position(on);
        still
    }

    fn hangs(&mut self) {
        self.hanging.push(self.turns);
        self.turns += 1;
    }

    /// A strip on a roll that stands there, and where it begins.
    fn on_roll(&mut self, id: Option<&RollId>, stands: u32, (strip, begin): (usize, u32)) {
        let at = self.rolls.iter().position(|r| r.id.as_ref() == id);
        let at = at.unwrap_or_else(|| {
            self.rolls.push(Roll {
                id: id.cloned(),
                behind: Vec::new(),
                ahead: Vec::new(),
            });
            self.rolls.len() - 1
        });
        let turn = self.turns;
        self.turns += 1;
        let on_roll = OnRoll { strip, begin, turn };
        match begin < stands {
            true => self.rolls[at].behind.push(on_roll),
            false => self.rolls[at].ahead.push(on_roll),
        }
    }

    /// The ways of all rolls together; with too many rolls to be wound back, one.
    pub(super) fn ways(&self, most: usize) -> Vec<Vec<Way>> {
        let mut all: Vec<Vec<Way>> = vec![Vec::new()];
        for roll in &self.rolls {
            let own: &[Way] = match roll.is_ahead() {
                true => &[Way::Onward],
                false if all.len() * 3 > most => &[Way::FromTheFirst],
                false => &[Way::FromTheFirst, Way::BackThenOnward, Way::OnwardThenBack],
            };
            let longer = all.iter().flat_map(|ways| {
                own.iter().map(|way| {
                    let mut ways = ways.clone();
                    ways.push(*way);
                    ways
                })
            });
            all = longer.collect();
        }
        all
    }

    /// The rolls as courses, and what hangs as one more of a single standing.
    pub(super) fn courses(&self, ways: &[Way]) -> Vec<Course> {
        let rolls = self.rolls.iter().zip(ways);
        let mut courses: Vec<Course> = rolls
            .map(|(roll, way)| {
                let turns: Vec<usize> = roll.taken(*way).iter().map(|(s, _)| s.turn).collect();
                Course::in_order(&turns, self.turns)
            })
            .collect();
        let short = |n: usize| u16::try_from(n).unwrap_or(u16::MAX);
        if !self.hanging.is_empty() {
            courses.push(Course {
                ways: vec![[NONE, NONE]],
                taken: vec![short(self.hanging.len())],
                missing: vec![short(self.turns)],
            });
        }
        courses
    }

    /// For each roll its strips in the order in which they are taken.
    pub(super) fn takings(&self, ways: &[Way]) -> Vec<Vec<Taking>> {
        let one = |(roll, way): (&Roll, &Way)| {
            let taken = roll.taken(*way).into_iter();
            let taking = |(s, backward): (OnRoll, bool)| Taking {
                strip: s.strip,
                backward,
            };
            taken.map(taking).collect()
        };
        self.rolls.iter().zip(ways).map(one).collect()
    }
}
