//! Story 7, the work order: figures computed and cross-checked by a separate
//! script before this program existed.

use onestrand_bench::{BenchAct, BenchHabits, BenchTimes, Corner, NoWorkOrder, Winding, WorkOrder};
use onestrand_cut::{CheckRules, JoinKind, JoinTable, Piece, PieceKind, Strand, TrialCut};
use onestrand_film::{Frames, Gauge};

use crate::boat::{first_cut, plain_roll, span, strand};
use crate::simulated::{carry_out, wanted};

fn habits(pins: u32, winding: Winding) -> BenchHabits {
    BenchHabits {
        pins,
        winding,
        times: BenchTimes::default(),
    }
}

fn rules() -> CheckRules {
    CheckRules {
        table: JoinTable::usual(Gauge::Super8),
    }
}

fn order(join: JoinKind, pins: u32, winding: Winding) -> WorkOrder {
    let strand = strand();
    let cut = first_cut(&strand, join);
    WorkOrder::plan(&cut, &strand, &rules(), &habits(pins, winding)).expect("a checked cut")
}

fn corner(pins: u32, changes: usize, wound: u64, tails: &[&str], to_and_fro: bool) -> Corner {
    Corner {
        pins_peak: pins,
        roll_changes: changes,
        wound_frames: wound,
        tails: tails.iter().map(|n| crate::boat::roll(n)).collect(),
        to_and_fro,
    }
}

#[test]
fn the_work_order_of_the_first_cut() {
    let order = order(JoinKind::Tape, 12, Winding::OnePass);
    let work = &order.work;
    assert_eq!(
        (work.pieces, work.cuts, work.joins, work.leftovers),
        (23, 46, 24, 26)
    );
    let plan = order.plan.as_ref().expect("twelve pins suffice");
    assert!(plan.best);
    assert_eq!(plan.corner, corner(9, 2, 9_724, &[], false));
    let rolls: Vec<String> = plan.roll_order.iter().map(ToString::to_string).collect();
    assert_eq!(rolls, ["R3", "R1", "R2"]);
    let bound = order.lower_bound;
    assert_eq!((bound.roll_changes, bound.wound_frames), (2, 9_724));
    // 46 cuts, 24 joins, 3 mountings, 135.06 ft.
    let expected = (46.0 * 30.0 + 24.0 * 120.0 + 3.0 * 60.0 + 9_724.0 / 72.0) / 60.0;
    assert!((plan.minutes - expected).abs() < 1e-9);
}

#[test]
fn the_other_corners_of_the_first_cut() {
    let order = order(JoinKind::Tape, 12, Winding::OnePass);
    // Without a pin it is cut order. Taken always from its first frame a piece
    // would cost 23,038 frames in all; some are nearer from their last.
    assert_eq!(
        order.alternatives,
        [
            corner(8, 3, 9_724, &[], false),
            corner(6, 3, 13_507, &["R3"], false),
            corner(0, 5, 22_741, &[], true),
        ]
    );
}

#[test]
fn cement_winds_a_frame_more_on_each_roll() {
    for join in [JoinKind::Cement, JoinKind::Weld] {
        let order = order(join, 12, Winding::OnePass);
        let plan = order.plan.expect("twelve pins suffice");
        assert_eq!(plan.corner, corner(9, 2, 9_727, &[], false));
    }
}

#[test]
fn with_too_few_pins_it_says_how_few_would_do() {
    let order = order(JoinKind::Tape, 5, Winding::Tails);
    assert!(!order.feasible());
    let fewest: Vec<(Winding, u32, u32)> = order
        .fewest
        .iter()
        .map(|f| (f.winding, f.pins, f.at_least))
        .collect();
    assert_eq!(
        fewest,
        [
            (Winding::OnePass, 8, 8),
            (Winding::Tails, 6, 6),
            (Winding::ToAndFro, 0, 0)
        ]
    );
}

#[test]
fn every_number_of_pins_and_way_replays_to_the_cut() {
    let strand = strand();
    for join in JoinKind::ALL {
        let cut = first_cut(&strand, join);
        for winding in Winding::ALL {
            for pins in [0, 2, 6, 8, 9, 30] {
                let order = order(join, pins, winding);
                let Some(plan) = order.plan else { continue };
                let table = JoinTable::usual(Gauge::Super8);
                let seen = carry_out(&plan.steps, &cut, &strand, &table);
                assert_eq!(seen.reel, wanted(&cut, &table));
                assert_eq!(seen.wound, plan.corner.wound_frames);
                assert_eq!(seen.pins, plan.corner.pins_peak as usize);
                assert!(seen.pins <= pins as usize);
                assert_eq!(seen.mountings, plan.corner.roll_changes + 1);
                assert_eq!(seen.cuts, 46);
                assert_eq!(seen.joins, 24);
            }
        }
    }
}

#[test]
fn leader_needs_no_pin_and_waits_for_nothing() {
    let strand = Strand::new(Gauge::Super8, [plain_roll("A", 100, Gauge::Super8)], []);
    let shot = |begin, end| Piece::shot(span("A", begin, end));
    let leader = |n| Piece::leader(Frames::new(n).expect("a length"));
    let pieces = vec![leader(18), shot(0, 10), leader(9), leader(9), shot(20, 40)];
    let cut = TrialCut::new(pieces, JoinKind::Tape);
    let order = WorkOrder::plan(&cut, &strand, &rules(), &habits(0, Winding::OnePass))
        .expect("a checked cut");
    let plan = order.plan.expect("no pin is wanted");
    assert_eq!(plan.corner, corner(0, 0, 40, &[], false));
    let seen = carry_out(&plan.steps, &cut, &strand, &rules().table);
    assert_eq!(seen.reel, wanted(&cut, &rules().table));
    // The first strip begins at the head of the roll: three cuts, not four.
    assert_eq!((seen.cuts, order.work.cuts), (3, 3));
    let cuts = plan.steps.iter().filter(|s| s.act == BenchAct::Cut);
    assert_eq!(cuts.count(), 3);
}

#[test]
fn what_cannot_be_made_gets_no_work_order() {
    let strand = strand();
    let empty = Strand::new(Gauge::Super8, [plain_roll("R1", 0, Gauge::Super8)], []);
    let ask = |cut: &TrialCut, strand: &Strand| {
        WorkOrder::plan(cut, strand, &rules(), &habits(12, Winding::OnePass))
            .map(|order| order.feasible())
    };
    let twice = TrialCut::new(
        vec![
            Piece::shot(span("R1", 10, 30)),
            Piece::shot(span("R1", 20, 40)),
        ],
        JoinKind::Tape,
    );
    let refused = ask(&twice, &strand).expect_err("frames 20 to 30 are wanted twice");
    assert!(matches!(&refused, NoWorkOrder::Refused { conflicts } if conflicts.len() == 1));
    let one = TrialCut::new(vec![Piece::shot(span("R1", 10, 30))], JoinKind::Tape);
    assert!(matches!(
        ask(&one, &empty),
        Err(NoWorkOrder::NoFrames { .. })
    ));
    let gone = TrialCut::new(vec![Piece::shot(span("R9", 10, 30))], JoinKind::Tape);
    assert!(matches!(
        ask(&gone, &strand),
        Err(NoWorkOrder::NoFrames { .. })
    ));
    let bare = Piece {
        kind: PieceKind::Leader(Frames::new(18).expect("a length")),
        ..Piece::leader(Frames::ZERO)
    };
    let leader = TrialCut::new(vec![bare], JoinKind::Tape);
    assert_eq!(ask(&leader, &strand), Err(NoWorkOrder::NothingToCut));
    let none = TrialCut::new(vec![], JoinKind::Tape);
    assert_eq!(ask(&none, &strand), Err(NoWorkOrder::NothingToCut));
}
