//! The work order of a version.

use onestrand_bench::{BenchHabits, BenchTimes, FewestPins, NoWorkOrder, Winding, WorkOrder};
use onestrand_cut::{JoinKind, Strips};
use onestrand_store::Production;
use std::collections::BTreeMap;

use crate::documents::{AlternativeDocument, BenchDocument, LowerBoundDocument, StepDocument};
use crate::{ProductionError, strand};

/// Pins of a trim bin, where nobody says how many: a row of them on one bar, as
/// the bench of the story has it (docs/decisions/0025).
pub const USUAL_PINS: u32 = 12;

/// How the work is to be done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BenchOptions {
    /// Another join than the cut's own usual one.
    pub join: Option<JoinKind>,
    /// Pins of the trim bin.
    pub pins: u32,
    /// Whether a roll may be worked from its tail.
    pub tails: bool,
    /// Whether rolls may be wound to and fro; it allows what `tails` allows.
    pub to_and_fro: bool,
}

impl Default for BenchOptions {
    fn default() -> Self {
        Self {
            join: None,
            pins: USUAL_PINS,
            tails: false,
            to_and_fro: false,
        }
    }
}

impl BenchOptions {
    pub(crate) const fn winding(&self) -> Winding {
        match (self.to_and_fro, self.tails) {
            (true, _) => Winding::ToAndFro,
            (false, true) => Winding::Tails,
            (false, false) => Winding::OnePass,
        }
    }
}

/// Works the order out. That the pins do not suffice is an answer, not an error.
///
/// # Errors
/// [`ProductionError::CutRefused`] when the strand check refuses the cut,
/// [`ProductionError::NoWorkOrder`] when it has nothing to cut,
/// [`ProductionError::Store`].
pub fn bench_order(
    production: &Production,
    name: &str,
    options: BenchOptions,
) -> Result<BenchDocument, ProductionError> {
    let (order, _, checked) = work_order(production, name, options)?;
    Ok(document(name, checked.join, &habits(options), &order))
}

/// The order itself, with the strips and the version it is of.
pub(crate) fn work_order(
    production: &Production,
    name: &str,
    options: BenchOptions,
) -> Result<(WorkOrder, Strips, strand::Checked), ProductionError> {
    let checked = strand::checked(production, name, options.join)?;
    let order = WorkOrder::plan(
        &checked.cut,
        &checked.strand,
        &checked.rules,
        &habits(options),
    )
    .map_err(|problem| with_its_cut(name, problem))?;
    let strips = Strips::of(&checked.cut, &checked.rules.table);
    Ok((order, strips, checked))
}

fn habits(options: BenchOptions) -> BenchHabits {
    BenchHabits {
        pins: options.pins,
        winding: options.winding(),
        times: BenchTimes::default(),
    }
}

/// A refusal is told as everywhere else: with the name of the cut.
pub(crate) fn with_its_cut(name: &str, problem: NoWorkOrder) -> ProductionError {
    match problem {
        NoWorkOrder::Refused { conflicts } => ProductionError::CutRefused {
            cut: name.to_owned(),
            conflicts,
        },
        other => ProductionError::NoWorkOrder(other),
    }
}

fn document(name: &str, join: JoinKind, habits: &BenchHabits, order: &WorkOrder) -> BenchDocument {
    let plan = order.plan.as_ref();
    let corner = plan.map(|p| &p.corner);
    let named = |rolls: &[onestrand_film::RollId]| rolls.iter().map(ToString::to_string).collect();
    let proved = |(roll, is): (&onestrand_film::RollId, &bool)| (roll.to_string(), *is);
    BenchDocument {
        cut: name.to_owned(),
        join: join.word().to_owned(),
        pins: habits.pins,
        winding: habits.winding.code().to_owned(),
        feasible: order.feasible(),
        best: plan.is_some_and(|p| p.best),
        proved: order.proved.iter().map(proved).collect(),
        pieces: order.work.pieces,
        cuts: order.work.cuts,
        joins: order.work.joins,
        leftovers: order.work.leftovers,
        wound_frames: corner.map(|c| c.wound_frames),
        pins_peak: corner.map(|c| c.pins_peak),
        roll_changes: corner.map(|c| c.roll_changes),
        roll_order: plan.map_or_else(Vec::new, |p| named(&p.roll_order)),
        tails: corner.map_or_else(Vec::new, |c| named(&c.tails)),
        minutes: plan.map(|p| to_the_tenth(p.minutes)),
        alternatives: order
            .alternatives
            .iter()
            .map(AlternativeDocument::of)
            .collect(),
        lower_bound: LowerBoundDocument::of(order.lower_bound),
        fewest: by_way(&order.fewest, |f| f.pins),
        fewest_at_least: by_way(&order.fewest, |f| f.at_least),
        steps: plan.map_or_else(Vec::new, |p| p.steps.iter().map(StepDocument::of).collect()),
        assumptions: assumptions(&habits.times),
    }
}

fn by_way(fewest: &[FewestPins], pins: impl Fn(&FewestPins) -> u32) -> BTreeMap<String, u32> {
    let one = |f: &FewestPins| (f.winding.code().to_owned(), pins(f));
    fewest.iter().map(one).collect()
}

/// An estimate has no seconds.
fn to_the_tenth(minutes: f64) -> f64 {
    (minutes * 10.0).round() / 10.0
}

fn assumptions(times: &BenchTimes) -> Vec<String> {
    vec![
        "every roll comes heads out, at its first frame".to_owned(),
        format!(
            "{} s a cut, {} s a join, {} s to put a roll on and {} s a foot wound: a beginner's \
             times, common practice, not measured",
            times.cut_seconds, times.join_seconds, times.mount_seconds, times.foot_seconds
        ),
    ]
}
