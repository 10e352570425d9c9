//! Ways out against brute force: on small strands every shift of every end, every
//! set of joins and every twin is gone through.

use onestrand_cut::{Change, Conflict, ConflictKind, Remedy, RemedyKind, Severity, WaysOut, check};
use proptest::prelude::*;

use crate::small_strands::{
    FarTwins, Fault, Small, all_faults_of, any_shift_below, any_small, is_warning, judged,
    only_notes_differ, shift_cost,
};

/// Kinds that moving an end can have to do with.
const OF_ENDS: [ConflictKind; 5] = [
    ConflictKind::Doubled,
    ConflictKind::Bite,
    ConflictKind::OutsideRoll,
    ConflictKind::Short,
    ConflictKind::OutsideTake,
];

/// Every way offered does what it says, by the count of single frames.
fn each_way_holds(
    small: &Small,
    conflict: &Conflict,
    ways: &[Remedy],
) -> Result<(), TestCaseError> {
    let (cut, before) = (small.cut(), small.faults());
    let gone = small.faults_of(conflict);
    for way in ways {
        let (next, _) = cut.apply(&way.change).expect("positions of this cut");
        if !way.mends {
            prop_assert_eq!(way.kind, RemedyKind::Lab);
            prop_assert!(only_notes_differ(&cut, &next));
            prop_assert_ne!(&cut, &next);
            continue;
        }
        let after = small.with(&next);
        let (mends, warns) = match way.change {
            Change::Remove { at } => {
                prop_assert_eq!(way.kind, RemedyKind::Lift);
                judged(&before, &gone, &with_a_piece_at(at, after.faults()))
            }
            _ => judged(&before, &gone, &after.faults()),
        };
        prop_assert!(mends, "{way:?} leaves {:?}", after.faults());
        prop_assert_eq!(warns, way.warns, "{:?}", way);
        let answer = check(&next, &small.strand(), &small.rules());
        let lifted = way.kind == RemedyKind::Lift;
        prop_assert!(
            lifted || answer.conflicts.iter().all(|c| c != conflict),
            "{way:?}"
        );
        if way.kind == RemedyKind::Shift {
            let cost = (way.joins, i64::from(way.frames));
            prop_assert_eq!(shift_cost(small, &after), Some(cost), "{:?}", way);
        }
    }
    Ok(())
}

/// Places as they are numbered with one piece more; the one join that there is
/// where it was lifted stands for the one before it.
fn with_a_piece_at(at: usize, faults: Vec<Fault>) -> Vec<Fault> {
    let mut out: Vec<Fault> = faults
        .into_iter()
        .map(|(kind, place, frame)| match kind {
            ConflictKind::Doubled | ConflictKind::Bite | ConflictKind::OutsideRoll => {
                (kind, place, frame)
            }
            ConflictKind::Base | ConflictKind::Gauge if place <= at => (kind, place, frame),
            _ if place < at => (kind, place, frame),
            _ => (kind, place + 1, frame),
        })
        .collect();
    out.sort_unstable();
    out
}

/// A piece that shows nothing of its own can be lifted, if no join forbids it.
fn lifts_are_offered(
    small: &Small,
    conflict: &Conflict,
    ways: &[Remedy],
) -> Result<(), TestCaseError> {
    let (before, gone, cut) = (small.faults(), small.faults_of(conflict), small.cut());
    for (at, piece) in small.pieces.iter().enumerate() {
        let shown = |f: i64| gone.contains(&(ConflictKind::Doubled, piece.roll.unwrap_or(9), f));
        let wholly = (piece.begin..piece.end).all(shown);
        let change = Change::Remove { at };
        let (next, _) = cut.apply(&change).expect("a position of this cut");
        let after = with_a_piece_at(at, small.with(&next).faults());
        let passes = wholly && judged(&before, &gone, &after).0;
        let offered = ways.iter().any(|w| w.change == change);
        prop_assert_eq!(passes, offered, "lifting {}", at + 1);
    }
    Ok(())
}

/// No shift costs less than the first one offered; none mends when none is.
fn no_cheaper_shift(
    small: &Small,
    conflict: &Conflict,
    ways: &[Remedy],
) -> Result<(), TestCaseError> {
    if !OF_ENDS.contains(&conflict.kind) {
        return Ok(());
    }
    let (before, gone) = (small.faults(), small.faults_of(conflict));
    let first = ways.iter().find(|w| w.kind == RemedyKind::Shift);
    let limit = first.map_or((usize::MAX, 0), |w| (w.joins, i64::from(w.frames)));
    let mut passes = |trial: &Small| judged(&before, &gone, &trial.faults()).0;
    let cheaper = any_shift_below(small, limit, &mut passes);
    prop_assert!(!cheaper, "a cheaper shift than {first:?}");
    Ok(())
}

/// The joins offered are all of the smallest sets of joins that do it.
fn no_fewer_joins(
    small: &Small,
    conflict: &Conflict,
    ways: &[Remedy],
) -> Result<(), TestCaseError> {
    let (before, gone) = (small.faults(), small.faults_of(conflict));
    let mut best: Vec<Vec<onestrand_cut::JoinKind>> = Vec::new();
    let mut fewest = usize::MAX;
    let gaps = small.kinds.len();
    for number in 1..3_usize.pow(u32::try_from(gaps).expect("few")) {
        let mut trial = small.clone();
        let mut rest = number;
        for gap in 0..gaps {
            let by = rest % 3;
            rest /= 3;
            let all = onestrand_cut::JoinKind::ALL;
            let was = all
                .iter()
                .position(|k| *k == small.kinds[gap])
                .expect("one of them");
            trial.kinds[gap] = all[(was + by) % 3];
        }
        let changed = (0..gaps)
            .filter(|g| trial.kinds[*g] != small.kinds[*g])
            .count();
        if changed <= fewest && judged(&before, &gone, &trial.faults()).0 {
            if changed < fewest {
                best.clear();
            }
            fewest = changed;
            best.push(trial.kinds);
        }
    }
    let cut = small.cut();
    let mut offered: Vec<Vec<onestrand_cut::JoinKind>> = ways
        .iter()
        .filter(|w| w.kind == RemedyKind::OtherJoin)
        .map(|w| {
            small
                .with(&cut.apply(&w.change).expect("its positions").0)
                .kinds
        })
        .collect();
    offered.sort();
    best.sort();
    prop_assert_eq!(offered, best);
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: ProptestConfig::default().cases.max(1200), ..ProptestConfig::default() })]

    #[test]
    fn ways_out_hold_and_none_is_cheaper(small in any_small(3), far in -3_i64..4) {
        let (cut, strand, rules) = (small.cut(), small.strand(), small.rules());
        let answer = check(&cut, &strand, &rules);
        prop_assert_eq!(all_faults_of(&small, &answer), small.faults());
        let twins = FarTwins(far);
        let ways_out = WaysOut::new(&cut, &strand, &rules, &twins);
        for conflict in &answer.conflicts {
            let ways = ways_out.of(conflict);
            each_way_holds(&small, conflict, &ways)?;
            no_cheaper_shift(&small, conflict, &ways)?;
            no_fewer_joins(&small, conflict, &ways)?;
            lifts_are_offered(&small, conflict, &ways)?;
        }
    }

    #[test]
    fn all_at_once_leaves_nothing_refused(small in any_small(4), far in -3_i64..4) {
        let (cut, strand, rules) = (small.cut(), small.strand(), small.rules());
        let twins = FarTwins(far);
        let ways = WaysOut::new(&cut, &strand, &rules, &twins).all_at_once();
        for way in &ways {
            let (next, _) = cut.apply(&way.change).expect("positions of this cut");
            prop_assert!(check(&next, &strand, &rules).is_ok(), "{way:?}");
            let before = small.faults();
            let after = small.with(&next).faults();
            let new: Vec<&Fault> = after.iter().filter(|f| before.binary_search(f).is_err()).collect();
            prop_assert_eq!(way.warns, new.into_iter().any(is_warning), "{:?}", way);
        }
    }

    #[test]
    fn where_shifts_alone_mend_all_one_step_is_offered(small in any_small(3)) {
        let (cut, strand, rules) = (small.cut(), small.strand(), small.rules());
        let answer = check(&cut, &strand, &rules);
        let refused = answer.conflicts.iter().filter(|c| c.severity() == Severity::Refused).count();
        let offered = WaysOut::new(&cut, &strand, &rules, &onestrand_cut::NoTwins).all_at_once();
        prop_assert!(refused >= 2 || offered.is_empty());
        let mut mends = |trial: &Small| trial.faults().iter().all(is_warning);
        let exists = refused >= 2 && any_shift_below(&small, (usize::MAX, 0), &mut mends);
        prop_assert!(!exists || !offered.is_empty(), "shifts would mend all: {:?}", answer.conflicts);
    }
}
