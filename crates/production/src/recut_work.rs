//! The work order of a re-cut as a document.

use std::collections::BTreeMap;

use onestrand_bench::{BenchHabits, FewestPins, RecutOrder};

use crate::documents::{
    LowerBoundDocument, RecutCornerDocument, RecutStepDocument, RecutWorkDocument, mounted_as,
};

pub(crate) fn work(order: &RecutOrder, habits: &BenchHabits) -> RecutWorkDocument {
    let plan = order.plan.as_ref();
    let corner = plan.map(|p| &p.corner);
    let named = |all: &[onestrand_bench::RecutSource]| all.iter().map(mounted_as).collect();
    RecutWorkDocument {
        feasible: plan.is_some(),
        best: plan.is_some_and(|p| p.best),
        pins: habits.pins,
        winding: habits.winding.code().to_owned(),
        lengths: order.lengths,
        opened: order.opened,
        left_joined: order.left_joined,
        cuts: order.cuts,
        joins: order.joined,
        wound_frames: corner.map(|c| c.wound_frames),
        pins_peak: corner.map(|c| c.pins_peak),
        roll_changes: corner.map(|c| c.roll_changes),
        roll_order: plan.map_or_else(Vec::new, |p| named(&p.mounted)),
        tails: corner.map_or_else(Vec::new, |c| named(&c.tails)),
        minutes: plan.map(|p| (p.minutes * 10.0).round() / 10.0),
        alternatives: order
            .alternatives
            .iter()
            .map(RecutCornerDocument::of)
            .collect(),
        lower_bound: LowerBoundDocument::of(order.lower_bound),
        fewest: by_way(&order.fewest, |f| f.pins),
        fewest_at_least: by_way(&order.fewest, |f| f.at_least),
        steps: plan.map_or_else(Vec::new, |p| {
            p.steps.iter().map(RecutStepDocument::of).collect()
        }),
    }
}

fn by_way(fewest: &[FewestPins], pins: impl Fn(&FewestPins) -> u32) -> BTreeMap<String, u32> {
    let one = |f: &FewestPins| (f.winding.code().to_owned(), pins(f));
    fewest.iter().map(one).collect()
}
