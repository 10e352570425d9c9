//! The work order: which roll first, when to hang, when to take up.

use std::collections::BTreeMap;

use onestrand_cut::{CheckRules, Strand, Strips, TrialCut, check};
use onestrand_film::RollId;

use crate::habits::{ActCount, BenchHabits, Winding};
use crate::plan::{Figures, Plan};
use crate::search::best::{Bound, best};
use crate::search::corners::{Beside, corners_of, winds_back};
use crate::search::one_way::Found;
use crate::steps::{Step, steps};
use crate::wanted::Wanted;
use crate::{NoWorkOrder, WorkCount};

/// What no plan of the way asked for can go below. Each figure stands alone: a
/// plan that reaches all three at once need not exist.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LowerBound {
    /// Roll changes, within the pins owned.
    pub roll_changes: usize,
    /// Frames wound.
    pub wound_frames: u64,
    /// Pins, whatever the roll changes.
    pub pins_peak: u32,
}

/// A plan with other figures than the best one: better in one of them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Corner {
    /// Strips hanging at the worst moment.
    pub pins_peak: u32,
    /// Mountings after the first.
    pub roll_changes: usize,
    /// Frames wound.
    pub wound_frames: u64,
    /// Rolls worked from their tails.
    pub tails: Vec<RollId>,
    /// Whether rolls are wound to and fro.
    pub to_and_fro: bool,
}

/// The fewest pins of a way of winding.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FewestPins {
    /// The way.
    pub winding: Winding,
    /// A plan with so many is known.
    pub pins: u32,
    /// None does with fewer than this; the same when the number is proved.
    pub at_least: u32,
}

/// The plan to work by.
#[derive(Debug, Clone, PartialEq)]
pub struct BenchPlan {
    /// Whether it is proved that no plan is better: fewest roll changes, then
    /// fewest frames wound, then fewest pins, all within the pins owned.
    pub best: bool,
    /// Its figures.
    pub corner: Corner,
    /// Rolls in the order of their first mounting.
    pub roll_order: Vec<RollId>,
    /// Estimated time. Unit: minutes.
    pub minutes: f64,
    /// The acts in order.
    pub steps: Vec<Step>,
}

/// The work order of a cut.
#[derive(Debug, Clone, PartialEq)]
pub struct WorkOrder {
    /// What is cut and joined, counted.
    pub work: WorkCount,
    /// Whether the scan of each roll wanted is proved complete.
    pub proved: BTreeMap<RollId, bool>,
    /// The plan; none when the pins do not suffice, or none was found.
    pub plan: Option<BenchPlan>,
    /// Without a plan: the fewest pins of each way of winding.
    pub fewest: Vec<FewestPins>,
    /// The other corners of roll changes, winding and pins, of all three ways:
    /// fewest changes first.
    pub alternatives: Vec<Corner>,
    /// What no plan can go below.
    pub lower_bound: LowerBound,
}

impl WorkOrder {
    /// The work order of a cut with the pins and habits of a bench.
    ///
    /// Best is, within the pins owned, fewest roll changes, then fewest frames
    /// wound, then fewest pins at the worst moment.
    ///
    /// # Errors
    /// [`NoWorkOrder::Refused`] when the strand check refuses the cut,
    /// [`NoWorkOrder::NothingToCut`], [`NoWorkOrder::NoFrames`].
    pub fn plan(
        cut: &TrialCut,
        strand: &Strand,
        rules: &CheckRules,
        habits: &BenchHabits,
    ) -> Result<Self, NoWorkOrder> {
        let work = WorkCount::of(cut, strand, &rules.table);
        for roll in cut
            .pieces()
            .iter()
            .filter_map(|p| p.span())
            .map(|s| &s.roll)
        {
            if strand.roll(roll).is_none_or(|r| r.frames.count() == 0) {
                let roll = roll.clone();
                return Err(NoWorkOrder::NoFrames { roll });
            }
        }
        if let Some(refused) = NoWorkOrder::refused(&check(cut, strand, rules).conflicts) {
            return Err(refused);
        }
        if work.extents.is_empty() {
            return Err(NoWorkOrder::NothingToCut);
        }
        let frames = |id: &RollId| strand.roll(id).map_or(0, |r| r.frames.count());
        let wanted = Wanted::of(&work.extents, frames);
        let strips = Strips::of(cut, &rules.table);
        Ok(Self::of(work, strand, &wanted, &strips, habits))
    }

    fn of(
        work: WorkCount,
        strand: &Strand,
        wanted: &Wanted,
        strips: &Strips,
        habits: &BenchHabits,
    ) -> Self {
        let beside = Beside::new(wanted);
        // Two questions that know nothing of each other.
        let (found, others) = std::thread::scope(|both| {
            let asked = both.spawn(|| best(wanted, habits.winding, habits.pins as usize));
            let others = beside.all();
            (asked.join(), others)
        });
        let found = found.unwrap_or_else(|panic| std::panic::resume_unwind(panic));
        let corner = |found: &Found, to_and_fro| corner(wanted, found, to_and_fro);
        let figures = found.found.as_ref().map(|f| f.figures);
        let alternatives = corners_of(others, figures);
        let to_and_fro = habits.winding == Winding::ToAndFro;
        let plan = found.found.as_ref().map(|f| BenchPlan {
            best: found.proved,
            corner: corner(f, to_and_fro && winds_back(wanted, &f.plan)),
            roll_order: roll_order(wanted, &f.plan),
            minutes: habits.times.minutes(
                &ActCount {
                    cuts: work.cuts,
                    joins: work.joins,
                    mountings: f.figures.changes + 1,
                    wound: f.figures.wound,
                },
                strand.gauge(),
            ),
            steps: steps(&f.plan, wanted, strips),
        });
        let fewest = |(winding, pins, at_least)| FewestPins {
            winding,
            pins: count(pins),
            at_least: count(at_least),
        };
        Self {
            proved: proved(&work, strand),
            fewest: match plan {
                Some(_) => Vec::new(),
                None => beside.fewest_of_each().into_iter().map(fewest).collect(),
            },
            alternatives: alternatives
                .iter()
                .map(|(f, to_and_fro)| corner(f, *to_and_fro))
                .collect(),
            lower_bound: lower_bound(found.bound),
            work,
            plan,
        }
    }

    /// Whether the pins suffice, as far as is known.
    #[must_use]
    pub const fn feasible(&self) -> bool {
        self.plan.is_some()
    }
}

fn count(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

fn lower_bound(bound: Bound) -> LowerBound {
    LowerBound {
        roll_changes: bound.changes,
        wound_frames: bound.wound,
        pins_peak: count(bound.pins),
    }
}

fn corner(wanted: &Wanted, found: &Found, to_and_fro: bool) -> Corner {
    let Figures {
        changes,
        wound,
        pins,
    } = found.figures;
    let tail = |r: &usize| found.plan.through.get(*r).copied().unwrap_or(false);
    Corner {
        pins_peak: count(pins),
        roll_changes: changes,
        wound_frames: wound,
        tails: (0..wanted.rolls.len())
            .filter(tail)
            .map(|r| wanted.rolls[r].id.clone())
            .collect(),
        to_and_fro,
    }
}

fn roll_order(wanted: &Wanted, plan: &Plan) -> Vec<RollId> {
    let mut order: Vec<RollId> = Vec::new();
    for take in &plan.takes {
        let id = &wanted.rolls[take.roll].id;
        if !order.contains(id) {
            order.push(id.clone());
        }
    }
    order
}

fn proved(work: &WorkCount, strand: &Strand) -> BTreeMap<RollId, bool> {
    let is = |roll: &RollId| strand.roll(roll).is_some_and(|r| r.proved);
    let rolls = work.rolls().into_iter();
    rolls.map(|roll| (roll.clone(), is(&roll))).collect()
}
