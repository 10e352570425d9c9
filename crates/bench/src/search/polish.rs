//! A plan to and fro made better strip by strip.

use crate::plan::{Figures, Plan, Take, TakeUp};
use crate::search::one_way::Found;
use crate::wanted::Wanted;

/// Strips looked at in plans tried, all plans together.
const MOST_WORK: usize = 30_000_000;

/// Moves one strip after the other to another moment of the plan, as long as
/// that makes it better within the pins, and sets from which end each is taken.
pub(crate) fn polished(wanted: &Wanted, pins: usize, found: &Found) -> Found {
    let mut takes = found.plan.takes.clone();
    let mut best = judged(wanted, &mut takes);
    let mut work = 0;
    let mut better = true;
    while better && work < MOST_WORK {
        better = false;
        for turn in 0..takes.len() {
            let (roll, strip) = wanted.owners[turn];
            let Some(from) = takes
                .iter()
                .position(|t| (t.roll, t.strip) == (roll, strip))
            else {
                continue;
            };
            for to in 0..takes.len() {
                if to == from || !beside_its_roll(&takes, from, to) {
                    continue;
                }
                work += takes.len();
                let mut tried = takes.clone();
                let take = tried.remove(from);
                tried.insert(to, take);
                let figures = judged(wanted, &mut tried);
                if figures.pins <= pins && figures < best {
                    (takes, best, better) = (tried, figures, true);
                    break;
                }
            }
        }
    }
    let plan = Plan {
        takes,
        through: Vec::new(),
    };
    Found {
        plan,
        figures: best,
    }
}

/// Each strip when its turn comes: the only plan without a pin.
pub(crate) fn in_cut_order(wanted: &Wanted) -> Found {
    let turns = wanted.owners.iter();
    let mut takes: Vec<Take> = turns
        .map(|(roll, strip)| Take {
            roll: *roll,
            strip: *strip,
            backward: false,
        })
        .collect();
    let figures = judged(wanted, &mut takes);
    let plan = Plan {
        takes,
        through: Vec::new(),
    };
    Found { plan, figures }
}

/// Whether a strip moved there comes next to another of its roll.
fn beside_its_roll(takes: &[Take], from: usize, to: usize) -> bool {
    let roll = takes[from].roll;
    let (before, after) = match to < from {
        true => (to.checked_sub(1), Some(to)),
        false => (Some(to), Some(to + 1)),
    };
    let mut sides = [before, after]
        .into_iter()
        .flatten()
        .filter(|at| *at != from);
    sides.any(|at| takes.get(at).is_some_and(|t| t.roll == roll))
}

/// Where a roll may stand, and what is wound until then.
#[derive(Debug, Clone, Copy)]
struct Ends {
    at: [u32; 2],
    wound: [u64; 2],
}

/// The figures of an order, each strip taken from the end that winds least.
fn judged(wanted: &Wanted, takes: &mut [Take]) -> Figures {
    let start = Ends {
        at: [0, 0],
        wound: [0, 0],
    };
    let mut ends = vec![start; wanted.rolls.len()];
    let mut came = vec![[0_usize; 2]; takes.len()];
    let mut reel = TakeUp::new(wanted.turns());
    let (mut changes, mut pins) = (0, 0);
    for (i, take) in takes.iter().enumerate() {
        let strip = wanted.rolls[take.roll].strips[take.strip];
        let before = ends[take.roll];
        let mut after = before;
        for (way, (near, far)) in [(strip.begin, strip.end), (strip.end, strip.begin)]
            .into_iter()
            .enumerate()
        {
            let cost = |end: usize| before.wound[end] + u64::from(before.at[end].abs_diff(near));
            let end = usize::from(cost(1) < cost(0));
            came[i][way] = end;
            after.at[way] = far;
            after.wound[way] = cost(end) + u64::from(strip.end - strip.begin);
        }
        ends[take.roll] = after;
        changes += usize::from(i > 0 && takes[i - 1].roll != take.roll);
        reel.take(strip.turn);
        pins = pins.max(reel.hanging);
    }
    let mut way: Vec<usize> = ends
        .iter()
        .map(|e| usize::from(e.wound[1] < e.wound[0]))
        .collect();
    let wound = ends.iter().map(|e| e.wound[0].min(e.wound[1])).sum();
    for (take, came) in takes.iter_mut().zip(came).rev() {
        take.backward = way[take.roll] == 1;
        way[take.roll] = came[way[take.roll]];
    }
    Figures {
        changes,
        wound,
        pins,
    }
}
