//! The rest planned anew, against every order there is on small cases.

use std::collections::BTreeSet;

use onestrand_bench::{Deed, NoOrder, Place, Taking, WorkLeft, plan_anew};
use onestrand_film::RollId;
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use crate::drawn_bench::{Drawn, Lot, drawn};

/// Changes, frames wound, pins, and whether a roll was wound back.
type Figures = (usize, u64, u32, bool);

/// What an order comes to, ticked off.
fn figures(bench: &Drawn, order: &[Taking]) -> Figures {
    let left = WorkLeft::of(bench.state(), &bench.strips, order, &[], &bench.table);
    let left = left.expect("it fits the bench");
    let mounted = left.steps.iter().filter(|s| s.deed.code() == "mount");
    let (_, _, before) = bench.state().done();
    let changes = mounted.count().saturating_sub(usize::from(before == 0));
    let back = left.steps.iter().any(|s| s.wind < 0);
    (changes, left.wound, left.pins_peak, back)
}

/// Strips that a deed is still done for on their rolls.
fn wanted(bench: &Drawn) -> Vec<usize> {
    let onward = bench.order.iter().map(|t| Taking {
        backward: false,
        ..*t
    });
    let onward: Vec<Taking> = onward.collect();
    let left = WorkLeft::of(bench.state(), &bench.strips, &onward, &[], &bench.table);
    let steps = left.expect("it fits the bench").steps.into_iter();
    let on_roll = |roll: &RollId, frame: u32| {
        let mut lengths = bench.state().lengths().iter();
        lengths.any(|c| c.place == Place::Roll && c.links[0].film.holds(roll, frame))
    };
    let on_rolls = steps.filter(|s| match &s.deed {
        Deed::Mount { .. } | Deed::Wind { .. } | Deed::Hang { .. } => true,
        Deed::Cut { roll, before } => on_roll(roll, before.index()),
        _ => false,
    });
    let all: BTreeSet<usize> = on_rolls.filter_map(|s| s.strip).collect();
    all.into_iter().collect()
}

fn every_order(left: &mut Vec<usize>, order: &mut Vec<Taking>, visit: &mut impl FnMut(&[Taking])) {
    if left.is_empty() {
        visit(order);
        return;
    }
    for i in 0..left.len() {
        let strip = left.remove(i);
        let backward = false;
        order.push(Taking { strip, backward });
        every_order(left, order, visit);
        order.pop();
        left.insert(i, strip);
    }
}

/// The same benches each time, as in `bench_drawn.rs`.
fn many(cases: u32) -> ProptestConfig {
    ProptestConfig {
        cases,
        failure_persistence: None,
        rng_seed: match std::env::var_os("ONESTRAND_DRAW") {
            Some(_) => RngSeed::Random,
            None => RngSeed::Fixed(1_961),
        },
        ..ProptestConfig::default()
    }
}

proptest! {
    #![proptest_config(many(1_000))]

    #[test]
    fn no_order_onward_is_better(seed: u64, slips in 0_u32..30, deeds in 0_u32..25, pins in 0_u32..6) {
        let mut lot = Lot(seed);
        let mut bench = drawn(&mut lot, 9);
        bench.go_on(&mut lot, deeds, slips);
        let mut strips = wanted(&bench);
        if strips.len() > 6 {
            return Ok(());
        }
        let mut onward: BTreeSet<(usize, u64, u32)> = BTreeSet::new();
        let mut fewest = u32::MAX;
        every_order(&mut strips, &mut Vec::new(), &mut |order| {
            let (changes, wound, peak, back) = figures(&bench, order);
            if !back {
                onward.insert((changes, wound, peak));
                fewest = fewest.min(peak);
            }
        });
        match plan_anew(bench.state(), &bench.strips, &bench.table, pins) {
            Ok(anew) => {
                let (changes, wound, peak, back) = figures(&bench, &anew.order);
                prop_assert_eq!((changes, wound, peak), (anew.roll_changes, anew.wound, anew.pins_peak));
                if anew.best {
                    prop_assert!(!back && anew.winds_back.is_empty() && peak <= pins);
                    let least = onward.iter().filter(|f| f.2 <= pins).min();
                    prop_assert_eq!(least, Some(&(changes, wound, peak)));
                }
                let ahead = anew.winds_back.is_empty();
                let unsure = is_torn(&bench) || touches(&bench);
                prop_assert!(anew.best || !ahead || peak > pins || unsure);
                let covered: BTreeSet<usize> = anew.order.iter().map(|t| t.strip).collect();
                let missing: Vec<&usize> = strips.iter().filter(|s| !covered.contains(s)).collect();
                prop_assert!(missing.is_empty(), "{:?}", missing);
            }
            Err(NoOrder::TooFewPins { fewest: said, proved }) => {
                prop_assert!(said > pins);
                if proved {
                    let now = u32::try_from(bench.state().pins().count()).expect("few");
                    prop_assert_eq!(said.max(now), fewest);
                }
                let enough = plan_anew(bench.state(), &bench.strips, &bench.table, said);
                prop_assert!(enough.is_ok(), "{:?}", enough);
            }
            Err(NoOrder::Cannot(why)) => prop_assert!(false, "{}", why),
        }
    }
}

/// Whether what two strips take from a roll touches: then the pins are not sure.
fn touches(bench: &Drawn) -> bool {
    let strips = &bench.strips;
    let taken: Vec<_> = (0..strips.strips.len())
        .filter_map(|i| Some((&strips.strips[i].span.as_ref()?.roll, strips.extent(i)?)))
        .collect();
    let beside = |(roll, (_, end)): &(&onestrand_film::RollId, (i64, i64))| {
        taken
            .iter()
            .any(|(r, (begin, _))| r == roll && begin == end)
    };
    taken.iter().any(beside)
}

/// Whether a strip comes off its roll in more than one piece.
fn is_torn(bench: &Drawn) -> bool {
    let made = bench.as_made();
    let strips: Vec<usize> = made.parts.iter().filter_map(|p| p.strip).collect();
    let once: BTreeSet<&usize> = strips.iter().collect();
    once.len() < strips.len()
}

#[test]
fn the_roll_on_the_rewinds_is_mounted_and_what_hangs_hangs() {
    let mut lot = Lot(7);
    let mut seen = 0;
    for _ in 0..200 {
        let mut bench = drawn(&mut lot, 14);
        let fresh = plan_anew(bench.state(), &bench.strips, &bench.table, 20).expect("pins enough");
        bench.order.clone_from(&fresh.order);
        let steps = bench.left().steps.len();
        for _ in 0..lot.below(u32::try_from(steps).expect("few") + 1) {
            let step = bench.left().steps.remove(0);
            assert!(bench.does(&step.deed));
        }
        // On the best way nothing better turns up than to go on.
        let on = figures(&bench, &bench.order);
        let anew = plan_anew(bench.state(), &bench.strips, &bench.table, 20).expect("still enough");
        assert!((anew.best && fresh.best) || touches(&bench));
        assert_eq!((anew.roll_changes, anew.wound), (on.0, on.1));
        seen += usize::from(steps > 20);
    }
    assert!(seen > 20);
}
