//! Fades and dissolves: found with their spans, and not where none are.

use std::ops::Range;

use crate::drawn::{DrawnGradual, DrawnRoll, RollPlan};
use crate::reading::{breaks_of, found_on};
use onestrand_inspect::{Begins, Finding, GradualKind, takes_from};

fn plan(seed: u64) -> RollPlan {
    RollPlan {
        gradual_in_ten: 7,
        same_setup_in_ten: 1,
        lengths: (70, 160),
        whims: true,
        pan: 1.0,
        ..RollPlan::ordinary(seed)
    }
}

fn gradual(findings: &[Finding]) -> Vec<(GradualKind, Range<u32>)> {
    findings
        .iter()
        .filter_map(|finding| match *finding {
            Finding::Gradual { kind, from, until } => Some((kind, from..until)),
            _ => None,
        })
        .collect()
}

/// Shared frames over all frames of both.
fn overlap(one: &Range<u32>, other: &DrawnGradual) -> f64 {
    let shared = one
        .end
        .min(other.until)
        .saturating_sub(one.start.max(other.from));
    let all = one.end.max(other.until) - one.start.min(other.from);
    f64::from(shared) / f64::from(all)
}

#[test]
fn nine_in_ten_are_found_to_the_half_and_of_their_kind() {
    let (mut drawn, mut hit, mut strays, mut frames) = (0, 0, 0, 0);
    let mut missed = Vec::new();
    for seed in 601..=606 {
        let roll = DrawnRoll::new(plan(seed));
        let mut found = gradual(&found_on(&roll));
        for wanted in roll.gradual() {
            drawn += 1;
            let place = found.iter().position(|(kind, span)| {
                kind.word() == wanted.kind && overlap(span, &wanted) >= 0.5
            });
            match place {
                Some(place) => {
                    found.remove(place);
                    hit += 1;
                }
                None => missed.push((seed, wanted)),
            }
        }
        let near = |span: &Range<u32>| roll.gradual().iter().any(|one| overlap(span, one) > 0.0);
        strays += found.iter().filter(|(_, span)| !near(span)).count();
        frames += roll.total;
    }
    let recall = f64::from(hit) / f64::from(drawn);
    assert!(drawn > 50 && recall >= 0.9, "{hit} of {drawn}: {missed:?}");
    assert!(
        strays as f64 * 1000.0 / f64::from(frames) <= 0.3,
        "{strays} where nothing is"
    );
}

#[test]
fn no_fade_and_no_dissolve_where_none_is() {
    for seed in [541, 542] {
        let roll = DrawnRoll::new(RollPlan {
            takes: 1,
            lengths: (700, 700),
            flicker: 0.25,
            disturbed_one_in: 40,
            whims: true,
            hands: true,
            ..RollPlan::ordinary(seed)
        });
        let found = found_on(&roll);
        assert_eq!(gradual(&found), [], "seed {seed}");
        assert_eq!(breaks_of(&found, roll.total), [], "seed {seed}");
    }
}

#[test]
fn a_take_out_of_a_dissolve_begins_in_its_middle_and_by_a_fade() {
    let roll = DrawnRoll::new(plan(601));
    let found = found_on(&roll);
    let takes = takes_from(&found, roll.total);
    let mut seen = 0;
    for (kind, span) in gradual(&found) {
        let from = match kind {
            GradualKind::FadeOut => continue,
            GradualKind::FadeIn => span.start,
            _ => span.start + (span.end - span.start) / 2,
        };
        let take = takes.iter().find(|take| take.from == from);
        let take = take.unwrap_or_else(|| panic!("no take begins at {from}: {takes:?}"));
        assert_eq!(take.begins, Begins::Fade);
        seen += 1;
    }
    assert!(seen > 3, "the roll has fades in and dissolves");
    for pair in takes.windows(2) {
        assert_eq!(pair[0].until, pair[1].from, "takes tile the roll");
    }
}

/// A shaking camera that pans fast, and one that pans for long, each away from the
/// light part of its place; somebody in white stays before it.
#[test]
fn a_pan_away_from_something_light_is_no_fade() {
    let fast = RollPlan {
        grain: 8.0,
        flicker: 0.3,
        weave: 2.0,
        dust: 12,
        pan: 8.0,
        disturbed_one_in: 60,
        ..RollPlan::ordinary(303)
    };
    let long = RollPlan {
        flash_starts_in_ten: 3,
        whims: true,
        leaps_in_ten: 9,
        ..RollPlan::ordinary(534)
    };
    for plan in [fast, long] {
        let roll = DrawnRoll::new(plan);
        assert_eq!(gradual(&found_on(&roll)), [], "seed {}", plan.seed);
    }
}
