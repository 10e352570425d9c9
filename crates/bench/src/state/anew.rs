//! The rest planned anew, from the bench as it stands.

use onestrand_cut::{JoinTable, Strips};
use onestrand_film::RollId;

use super::still::{Roll, Still, Way};
use super::{BenchState, CannotBe, Deed, Taking, WorkLeft};
use crate::search::course::Course;
use crate::search::pins::Pins;
use crate::search::table::{self, Table};

/// The best order of what is left.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Anew {
    /// The strips in the order in which they are taken off their rolls.
    pub order: Vec<Taking>,
    /// Pins wanted at the worst moment, those taken now counted.
    pub pins_peak: u32,
    /// Rolls put on from now on; on a bench where none ever was, after the first.
    pub roll_changes: usize,
    /// Frames wound from now on.
    pub wound: u64,
    /// Rolls that must be wound back, since something wanted lies behind where
    /// they stand.
    pub winds_back: Vec<RollId>,
    /// Whether it is proved that no order is better in which every roll goes
    /// onward only. Never said where a roll is wound back, nor where two strips touch
    /// and pins are wanted.
    pub best: bool,
}

/// Why there is no order.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NoOrder {
    /// The pins do not suffice.
    #[error("{fewest} pins are wanted for what is left")]
    TooFewPins {
        /// With so many it can be done.
        fewest: u32,
        /// Whether it is proved that it cannot be done with fewer.
        proved: bool,
    },
    /// The bench does not take the order.
    #[error(transparent)]
    Cannot(#[from] CannotBe),
}

/// Ways of taking what lies behind that are tried together, at most.
const MOST_WAYS: usize = 81;

/// A sequence of rolls, a strip taken of each, with the ways of the rolls.
struct Sequence {
    ways: Vec<Way>,
    rolls: Vec<usize>,
}

/// Plans what is left within so many pins: every roll goes onward from where it
/// stands, the one on the rewinds counts as mounted. Best is fewest roll changes,
/// then fewest frames wound, then fewest pins.
///
/// # Errors
/// [`NoOrder::TooFewPins`] with the number that would do.
pub fn plan_anew(
    state: &BenchState,
    strips: &Strips,
    table: &JoinTable,
    pins: u32,
) -> Result<Anew, NoOrder> {
    let still = Still::of(state, strips, table);
    let free = (pins as usize).checked_sub(still.pins_lost);
    let mut best: Option<Anew> = None;
    let mut exact = true;
    for ways in still.ways(MOST_WAYS) {
        let courses = still.courses(&ways);
        let fits = courses.is_empty() || table::standings(&courses).is_some();
        exact &= fits;
        let found = free.and_then(|free| match fits {
            true => in_table(&courses, &still, free),
            false => super::beam::within(&courses, still.mounted, free),
        });
        let Some(rolls) = found else { continue };
        let anew = figures(state, strips, table, &still, &Sequence { ways, rolls })?;
        let rank = |a: &Anew| (a.roll_changes, a.wound, a.pins_peak);
        if best.as_ref().is_none_or(|b| rank(&anew) < rank(b)) {
            best = Some(anew);
        }
    }
    if let Some(mut anew) = best {
        // Where strips touch, one may fall out of the hand early and want a pin.
        let pins_are_sure = !still.touches || anew.pins_peak == 0;
        anew.best = exact
            && still.is_plain
            && pins_are_sure
            && still.rolls.iter().all(Roll::is_ahead)
            && anew.pins_peak <= pins;
        return Ok(anew);
    }
    let fewest = still.ways(MOST_WAYS).into_iter().map(|ways| {
        let courses = still.courses(&ways);
        match table::standings(&courses) {
            Some(_) => Pins::new(&courses).fewest(still.turns),
            None => super::beam::few_pins(&courses, still.mounted),
        }
    });
    let fewest = fewest.min().unwrap_or(0) + still.pins_lost;
    Err(NoOrder::TooFewPins {
        fewest: u32::try_from(fewest).unwrap_or(u32::MAX),
        proved: exact && still.is_plain && !still.touches && still.rolls.iter().all(Roll::is_ahead),
    })
}

/// With the fewest roll changes and then the fewest pins.
fn in_table(courses: &[Course], still: &Still, pins: usize) -> Option<Vec<usize>> {
    if still.rolls.is_empty() {
        // All that hangs is led on, one after the other.
        return Some(Vec::new());
    }
    let asked = |pins: usize| {
        let table = Table::new(courses, pins);
        let rolls = table.walk_from(courses, still.mounted)?;
        let mut before = still.mounted;
        let changes = rolls.iter().filter(|r| before.replace(**r) != Some(**r));
        Some((changes.count(), rolls))
    };
    let (changes, mut best) = asked(pins)?;
    let (mut low, mut high) = (0, pins.min(still.turns));
    while low < high {
        let middle = low.midpoint(high);
        match asked(middle) {
            Some((same, rolls)) if same == changes => (best, high) = (rolls, middle),
            _ => low = middle + 1,
        }
    }
    Some(best)
}

/// What an order comes to, done on the bench.
fn figures(
    state: &BenchState,
    strips: &Strips,
    table: &JoinTable,
    still: &Still,
    sequence: &Sequence,
) -> Result<Anew, CannotBe> {
    let mut order = still.in_hand.clone();
    let taken = still.takings(&sequence.ways);
    let mut next = vec![0_usize; taken.len()];
    for roll in &sequence.rolls {
        order.extend(taken[*roll].get(next[*roll]));
        next[*roll] += 1;
    }
    let left = WorkLeft::of(state, strips, &order, &[], table)?;
    let is_mount = |s: &&super::WorkStep| matches!(s.deed, Deed::Mount { .. } | Deed::MountMade);
    let mounted = left.steps.iter().filter(is_mount).count();
    let (_, _, before) = state.done();
    let winds_back = still.rolls.iter().filter(|r| !r.is_ahead());
    Ok(Anew {
        order,
        pins_peak: left.pins_peak,
        roll_changes: mounted.saturating_sub(usize::from(before == 0)),
        wound: left.wound,
        winds_back: winds_back.filter_map(|r| r.id.clone()).collect(),
        best: false,
    })
}
