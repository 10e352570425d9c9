//! Reading planes through a finder, and counting what it found.

use crate::drawn::{DrawnRoll, RollPlan};
use onestrand_inspect::score::{KnownChange, KnownKind, Tally, tally};
use onestrand_inspect::{BreakFinder, BreakSettings, Finding, PlaneRef, takes_from};

/// Everything found in planes that come one by one.
pub(crate) fn found_in(planes: impl Iterator<Item = Vec<u8>>) -> Vec<Finding> {
    let mut finder = BreakFinder::new(BreakSettings::default());
    let mut findings = Vec::new();
    for plane in planes {
        let plane = PlaneRef::new(&plane).expect("planes have their size");
        findings.extend(finder.push(plane).findings);
    }
    findings.extend(finder.finish());
    findings
}

/// Everything found on a drawn roll.
pub(crate) fn found_on(roll: &DrawnRoll) -> Vec<Finding> {
    found_in((0..roll.total).map(|number| roll.plane(number)))
}

/// First frames of the takes found, the first take left out.
pub(crate) fn breaks_of(findings: &[Finding], total: u32) -> Vec<u32> {
    let takes = takes_from(findings, total);
    takes.iter().skip(1).map(|take| take.from).collect()
}

/// What came of several rolls.
#[derive(Debug, Default)]
pub(crate) struct Outcome {
    pub(crate) tally: Tally,
    pub(crate) frames: u32,
    /// Rolls with something wrong, for whoever mends it.
    pub(crate) wrong: Vec<String>,
}

/// Counts over several rolls.
pub(crate) fn outcome_of(plans: impl IntoIterator<Item = RollPlan>) -> Outcome {
    let mut sum = Outcome::default();
    for plan in plans {
        let roll = DrawnRoll::new(plan);
        let known: Vec<KnownChange> = roll.breaks().iter().map(|&at| cut(at)).collect();
        let found = breaks_of(&found_on(&roll), roll.total);
        let one = tally(&found, &known);
        if one.cuts_hit < one.cuts || one.false_alarms > 0 {
            let (seed, drawn) = (plan.seed, roll.breaks());
            sum.wrong
                .push(format!("seed {seed}: drawn {drawn:?}, found {found:?}"));
        }
        sum.tally += one;
        sum.frames += roll.total;
    }
    sum
}

fn cut(at: u32) -> KnownChange {
    KnownChange {
        file: String::new(),
        group: String::new(),
        kind: KnownKind::Cut,
        start: at,
        end: at,
    }
}
