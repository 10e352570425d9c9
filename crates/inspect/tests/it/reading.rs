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

/// Counts over several rolls, and the frames there were. What is wrong is
/// printed for whoever mends it.
pub(crate) fn tally_of(plans: impl IntoIterator<Item = RollPlan>) -> (Tally, u32) {
    let mut sum = Tally::default();
    let mut frames = 0;
    for plan in plans {
        let roll = DrawnRoll::new(plan);
        let known: Vec<KnownChange> = roll.breaks().iter().map(|&at| cut(at)).collect();
        let found = breaks_of(&found_on(&roll), roll.total);
        let one = tally(&found, &known);
        if one.cuts_hit < one.cuts || one.false_alarms > 0 {
            let drawn = roll.takes();
            eprintln!(
                "seed {}: {one:?}\n  drawn {drawn:?}\n  found {found:?}",
                plan.seed
            );
        }
        sum += one;
        frames += roll.total;
    }
    eprintln!("{frames} frames, {sum:?}, {:?}", sum.cut_rates());
    (sum, frames)
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
