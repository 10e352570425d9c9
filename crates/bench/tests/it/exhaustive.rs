//! The search against every plan there is, on small cuts.

use std::collections::{BTreeMap, BTreeSet};

use onestrand_bench::{BenchHabits, BenchTimes, Corner, Winding, WorkOrder};
use onestrand_cut::{CheckRules, JoinKind, JoinTable, Piece, Strand, TrialCut};
use onestrand_film::{Gauge, Span};
use proptest::prelude::*;
use proptest::strategy::ValueTree;

use crate::boat::{plain_roll, roll, span};
use crate::every_plan::{self, Figures};
use crate::simulated::{carry_out, wanted};

const GAUGE: Gauge = Gauge::Sixteen;

#[derive(Debug, Clone)]
struct Case {
    cut: TrialCut,
    strand: Strand,
    lengths: BTreeMap<String, u32>,
}

/// So many strips off so many rolls, in any order, apart from each
/// other by chance.
fn case(most: usize) -> impl Strategy<Value = Case> {
    case_on(2..5, 1..=most)
}

fn case_on(
    rolls: std::ops::Range<usize>,
    count: std::ops::RangeInclusive<usize>,
) -> impl Strategy<Value = Case> {
    let strips = prop::collection::vec((0_usize..4, 0_u32..9, 1_u32..9, any::<u32>()), count);
    let kind = prop::sample::select(JoinKind::ALL.to_vec());
    (strips, kind, rolls, 0_u32..9).prop_map(|(drawn, kind, rolls, tail)| {
        // The gaps leave room for what two joins eat.
        let mut ends = [1_u32; 4];
        let mut laid: Vec<(u32, Span)> = Vec::new();
        for (which, gap, len, order) in drawn {
            let which = which % rolls;
            let begin = ends[which]
                + gap
                + if gap == 0 && kind == JoinKind::Tape {
                    0
                } else {
                    2
                };
            ends[which] = begin + len;
            laid.push((order, span(["A", "B", "C", "D"][which], begin, begin + len)));
        }
        laid.sort();
        let pieces: Vec<Piece> = laid.into_iter().map(|l| Piece::shot(l.1)).collect();
        let lengths: BTreeMap<String, u32> = ["A", "B", "C", "D"]
            .iter()
            .zip(ends)
            .map(|(name, end)| ((*name).to_owned(), end + 2 + tail))
            .collect();
        let of = lengths.iter().map(|(n, len)| plain_roll(n, *len, GAUGE));
        Case {
            cut: TrialCut::new(pieces, kind),
            strand: Strand::new(GAUGE, of, []),
            lengths,
        }
    })
}

fn order(case: &Case, pins: u32, winding: Winding) -> WorkOrder {
    let habits = BenchHabits {
        pins,
        winding,
        times: BenchTimes::default(),
    };
    let rules = CheckRules {
        table: JoinTable::usual(GAUGE),
    };
    WorkOrder::plan(&case.cut, &case.strand, &rules, &habits).expect("nothing is wanted twice")
}

fn figures(corner: &Corner) -> Figures {
    let pins = corner.pins_peak as usize;
    (corner.roll_changes, corner.wound_frames, pins)
}

/// For every number of pins the best by the rule, and never less than it says.
fn the_best_is_best(case: &Case, winding: Winding) {
    let table = JoinTable::usual(GAUGE);
    let extents = order(case, 0, winding).work.extents;
    let all = every_plan::figures(&extents, &case.lengths, winding);
    let fewest = all.iter().map(|f| f.2).min().expect("some plan");
    for pins in 0..=extents.len() {
        let order = order(case, u32::try_from(pins).expect("few"), winding);
        let best = all.iter().filter(|f| f.2 <= pins).min().copied();
        let found = order.plan.as_ref().map(|p| figures(&p.corner));
        assert_eq!(found, best, "{winding:?} with {pins} pins: {:?}", case.cut);
        let bound = order.lower_bound;
        assert!(bound.pins_peak as usize <= fewest);
        if let Some(best) = best {
            assert!(bound.roll_changes <= best.0);
            assert!(bound.wound_frames <= all.iter().map(|f| f.1).min().expect("some plan"));
        }
        match &order.plan {
            None => {
                let told = order.fewest.iter().find(|f| f.winding == winding);
                let told = told.expect("each way is told");
                assert_eq!(
                    (told.pins as usize, told.at_least as usize),
                    (fewest, fewest)
                );
            }
            Some(plan) => {
                assert!(plan.best, "so small a cut is proved");
                let seen = carry_out(&plan.steps, &case.cut, &case.strand, &table);
                assert_eq!(seen.reel, wanted(&case.cut, &table));
                assert_eq!(seen.cuts, order.work.cuts);
                let measured = (seen.mountings - 1, seen.wound, seen.pins);
                assert_eq!(measured, figures(&plan.corner));
                assert_eq!(order.fewest, []);
            }
        }
    }
}

/// What nothing in the set equals.
fn corners(all: &BTreeSet<Figures>) -> BTreeSet<Figures> {
    let beaten = |f: &Figures| {
        let mut others = all.iter().filter(|o| *o != f);
        others.any(|o| o.0 <= f.0 && o.1 <= f.1 && o.2 <= f.2)
    };
    all.iter().filter(|f| !beaten(f)).copied().collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2000, ..ProptestConfig::default() })]

    #[test]
    fn one_pass_is_best_of_every_plan(case in case(7)) {
        the_best_is_best(&case, Winding::OnePass);
    }

    #[test]
    fn tails_are_best_of_every_plan(case in case(6)) {
        the_best_is_best(&case, Winding::Tails);
    }

    #[test]
    fn to_and_fro_is_best_of_every_plan(case in case(5)) {
        the_best_is_best(&case, Winding::ToAndFro);
    }

    #[test]
    fn the_alternatives_are_the_corners(case in case(5), pins in 0_u32..6) {
        let order = order(&case, pins, Winding::Tails);
        let extents = &order.work.extents;
        let mut all = every_plan::figures(extents, &case.lengths, Winding::Tails);
        let to_and_fro = every_plan::figures(extents, &case.lengths, Winding::ToAndFro);
        all.extend(to_and_fro.iter().filter(|f| f.2 == 0).min());
        let mut told: BTreeSet<Figures> = order.alternatives.iter().map(figures).collect();
        prop_assert_eq!(told.len(), order.alternatives.len());
        told.extend(order.plan.as_ref().map(|p| figures(&p.corner)));
        // The best within few pins need not be a corner itself: it is asked for
        // by another rule. Every corner is told.
        let mut expected = corners(&all);
        expected.extend(order.plan.as_ref().map(|p| figures(&p.corner)));
        prop_assert_eq!(told, expected);
    }
}

#[test]
fn six_strips_to_and_fro() {
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    for _ in 0..40 {
        let case = case(6).new_tree(&mut runner).expect("a case").current();
        the_best_is_best(&case, Winding::ToAndFro);
    }
}

#[test]
fn a_roll_of_one_strip_may_be_worked_from_its_tail_too() {
    let strand = Strand::new(GAUGE, ["A", "B"].map(|n| plain_roll(n, 60, GAUGE)), []);
    let pieces = [span("A", 40, 50), span("B", 5, 9), span("A", 5, 9)].map(Piece::shot);
    let case = Case {
        cut: TrialCut::new(pieces.to_vec(), JoinKind::Tape),
        lengths: strand
            .rolls()
            .map(|r| (r.id.to_string(), r.frames.count()))
            .collect(),
        strand,
    };
    for winding in Winding::ALL {
        the_best_is_best(&case, winding);
    }
    assert_eq!(roll("A").as_str(), "A");
}
