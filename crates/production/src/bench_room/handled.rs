//! What the log of the bench says was done to the originals, as lines of their ledger.

use std::collections::{BTreeMap, BTreeSet};

use onestrand_bench::{BenchState, Deed, Entry, Film, Link};
use onestrand_film::RollId;
use onestrand_store::Production;

use super::room::{Room, Written};
use crate::documents::HandlingDocument;
use crate::ledger::Handling;

/// What such a line says of itself.
const NOTE: &str = "from the bench log";

/// What was done at the bench, by roll.
#[derive(Debug, Default)]
pub(crate) struct DoneAtTheBench {
    by_roll: BTreeMap<String, BTreeMap<Day, u32>>,
}

/// Of one kind, on one day, by one person: forty cuts are no forty lines.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Day {
    on: String,
    kind: &'static str,
    by: String,
}

impl DoneAtTheBench {
    /// Reads the log: what was struck out counts no more. A log that cannot be read
    /// gives no lines here; the Bench room says what is the matter with it.
    pub(crate) fn of(production: &Production) -> Self {
        let kept = production.bench_lines();
        if kept.is_ok_and(|lines| lines.is_empty()) {
            return Self::default();
        }
        let Ok(room) = Room::of(production) else {
            return Self::default();
        };
        let mut done = Self::default();
        let mut bench = Walked::new(&room);
        for written in &room.lines {
            let deed = match written.entry.and_then(|e| room.log.entries().get(e)) {
                Some(Entry::Deed(deed)) if written.struck_by.is_none() => deed,
                _ => continue,
            };
            for (roll, kind) in bench.handled(deed) {
                done.count(&roll, kind, written);
            }
            bench.apply(deed, written);
        }
        done
    }

    fn count(&mut self, roll: &RollId, kind: Handling, written: &Written) {
        let day = Day {
            // A time in UTC begins with its day.
            on: written.at.chars().take(10).collect(),
            kind: kind.code(),
            by: written.by.clone(),
        };
        let of_roll = self.by_roll.entry(roll.to_string()).or_default();
        *of_roll.entry(day).or_default() += 1;
    }

    /// The lines of a roll, the first day first.
    pub(crate) fn lines_of(&self, roll: &str) -> Vec<HandlingDocument> {
        let days = self.by_roll.get(roll).into_iter().flatten();
        days.map(|(day, times)| HandlingDocument {
            number: 0,
            kind: day.kind.to_owned(),
            on: day.on.clone(),
            through: String::new(),
            times: *times,
            by: day.by.clone(),
            note: NOTE.to_owned(),
            from_bench: true,
        })
        .collect()
    }
}

/// The bench while its log is walked through.
struct Walked<'a> {
    room: &'a Room,
    /// Only where a join was ever opened or made film turned back: what lies there must
    /// be known.
    state: Option<BenchState>,
    /// The roll on the rewinds, and whether it was wound there since it came on.
    mounted: Option<(RollId, bool)>,
}

impl<'a> Walked<'a> {
    fn new(room: &'a Room) -> Self {
        let asks = |e: &Entry| matches!(e, Entry::Deed(d) if is_opening(d) || matches!(d, Deed::TurnBack { .. }));
        let asked = room.log.entries().iter().any(asks);
        Self {
            state: asked.then(|| room.log.at(0).ok()).flatten(),
            room,
            mounted: None,
        }
    }

    /// What a deed does to which rolls.
    fn handled(&mut self, deed: &Deed) -> Vec<(RollId, Handling)> {
        let mut all = Vec::new();
        match deed {
            Deed::Mount { roll } => self.mounted = Some((roll.clone(), false)),
            Deed::Unmount | Deed::MountMade => self.mounted = None,
            Deed::TurnBack { .. } => {
                self.mounted = None;
                // The whole film is wound back: whatever roll a strip of it came from.
                let reel = self.state.as_ref().map_or(&[][..], BenchState::reel);
                let rolls: BTreeSet<RollId> = reel.iter().filter_map(roll_of).collect();
                all.extend(rolls.into_iter().map(|roll| (roll, Handling::Wound)));
            }
            Deed::Wind { roll, .. } => all.extend(self.wound(roll)),
            Deed::Cut { roll, .. } => {
                all.extend(self.wound(roll));
                all.push((roll.clone(), Handling::Cut));
            }
            _ if is_opening(deed) => {
                let beside = self.state.as_ref().map(|state| beside(state, deed));
                let beside = beside.into_iter().flatten();
                all.extend(beside.map(|roll| (roll, Handling::Opened)));
            }
            _ => {}
        }
        all
    }

    /// A roll is wound once for each time that it comes on the rewinds.
    fn wound(&mut self, of: &RollId) -> Option<(RollId, Handling)> {
        let (roll, wound) = self.mounted.as_mut()?;
        if roll != of || std::mem::replace(wound, true) {
            return None;
        }
        Some((of.clone(), Handling::Wound))
    }

    fn apply(&mut self, deed: &Deed, written: &Written) {
        let table = self.room.log.table();
        if let (Some(state), Some(entry)) = (&mut self.state, written.entry)
            && state.apply(deed, table, entry).is_err()
        {
            self.state = None;
        }
    }
}

const fn is_opening(deed: &Deed) -> bool {
    matches!(
        deed,
        Deed::Open { .. } | Deed::Unjoin { .. } | Deed::UnjoinOther { .. }
    )
}

/// The rolls whose film lies on either side of the join that is opened.
fn beside(state: &BenchState, deed: &Deed) -> BTreeSet<RollId> {
    let of_length = |holds: &dyn Fn(&Film) -> bool| -> &[Link] {
        let mut lengths = state.lengths().iter();
        let length = lengths.find(|l| l.links.iter().any(|link| holds(&link.film)));
        length.map_or(&[], |l| l.links.as_slice())
    };
    let (links, join) = match deed {
        Deed::Open { join } => (state.reel(), *join),
        Deed::Unjoin { frame, join } => {
            let at = frame.frame.index();
            (of_length(&|film| film.holds(&frame.roll, at)), *join)
        }
        Deed::UnjoinOther { position, join } => {
            let is = |film: &Film| matches!(film, Film::Other { position: p, .. } if p == position);
            (of_length(&is), *join)
        }
        _ => return BTreeSet::new(),
    };
    let sides = [join.checked_sub(1), Some(join)];
    let films = sides.into_iter().flatten().filter_map(|at| links.get(at));
    films.filter_map(roll_of).collect()
}

fn roll_of(link: &Link) -> Option<RollId> {
    match &link.film {
        Film::Roll { roll, .. } => Some(roll.clone()),
        Film::Other { .. } => None,
    }
}
