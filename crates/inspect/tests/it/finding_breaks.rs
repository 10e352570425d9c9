//! Breaks on drawn rolls: F1 within one frame, and false alarms.

use crate::drawn::{DrawnRoll, RollPlan};
use crate::reading::{Outcome, breaks_of, found_on, outcome_of};
use onestrand_inspect::{Begins, takes_from};

/// At most 0.3 false breaks in 1,000 frames are allowed anywhere.
fn assert_rates(outcome: &Outcome, least_f1: f64) {
    let f1 = outcome.tally.cut_rates().f1;
    assert!(f1 >= least_f1, "F1 is {f1:.4}: {outcome:#?}");
    let false_in_1000 = f64::from(outcome.tally.false_alarms) * 1000.0 / f64::from(outcome.frames);
    assert!(false_in_1000 <= 0.3, "{false_in_1000:.2}: {outcome:#?}");
}

#[test]
fn rolls_with_flash_starts() {
    let plan = |seed| RollPlan {
        flash_starts_in_ten: 10,
        ..RollPlan::ordinary(seed)
    };
    let outcome = outcome_of((1001..=1006).map(plan));
    assert_rates(&outcome, 0.99);
}

#[test]
fn ordinary_rolls() {
    let outcome = outcome_of((1..=8).map(RollPlan::ordinary));
    assert_rates(&outcome, 0.99);
}

#[test]
fn rolls_without_flashes_where_four_takes_in_ten_only_move_the_figures() {
    let plan = |seed| RollPlan {
        flash_starts_in_ten: 0,
        ..RollPlan::ordinary(seed)
    };
    let outcome = outcome_of((101..=104).map(plan));
    assert_rates(&outcome, 0.98);
}

/// The camera stands still, nothing flashes, and figures that stand, walk, dart
/// and gesture as they like jump by a sixth to a half of their height: hardly
/// more than they might have gone.
#[test]
fn small_jumps_of_restless_figures() {
    let plan = |seed| RollPlan {
        flash_starts_in_ten: 0,
        same_setup_in_ten: 8,
        whims: true,
        jump: (0.15, 0.5),
        pan: 1.0,
        ..RollPlan::ordinary(seed)
    };
    let outcome = outcome_of((501..=505).map(plan));
    assert_rates(&outcome, 0.92);
}

#[test]
fn small_jumps_where_every_take_begins_with_a_flash() {
    let plan = |seed| RollPlan {
        flash_starts_in_ten: 10,
        same_setup_in_ten: 8,
        whims: true,
        jump: (0.15, 0.5),
        ..RollPlan::ordinary(seed)
    };
    let outcome = outcome_of((551..=553).map(plan));
    assert_rates(&outcome, 0.97);
}

#[test]
fn takes_of_a_few_frames() {
    let plan = |seed| RollPlan {
        takes: 40,
        lengths: (4, 24),
        ..RollPlan::ordinary(seed)
    };
    let outcome = outcome_of((201..=207).map(plan));
    assert_rates(&outcome, 0.99);
}

#[test]
fn worn_film_of_a_shaking_camera() {
    let plan = |seed| RollPlan {
        grain: 8.0,
        flicker: 0.3,
        weave: 2.0,
        dust: 12,
        pan: 8.0,
        disturbed_one_in: 60,
        ..RollPlan::ordinary(seed)
    };
    let outcome = outcome_of((301..=304).map(plan));
    assert_rates(&outcome, 0.99);
}

/// Two to four frames lost in the middle of nine takes in ten: the figures leap,
/// but the camera did not stop. Not all such leaps can be told from a stop.
#[test]
fn leaps_over_lost_frames_are_no_breaks() {
    let plan = |seed| RollPlan {
        flash_starts_in_ten: 3,
        whims: true,
        leaps_in_ten: 9,
        ..RollPlan::ordinary(seed)
    };
    let outcome = outcome_of((531..=538).map(plan));
    assert_rates(&outcome, 0.98);
}

/// A hand across the lens for 8 to 21 frames in the middle of every take, of a
/// camera that stands or pans slowly: meanwhile it must not go far.
#[test]
fn a_hand_across_the_lens_is_no_break() {
    let plan = |seed| RollPlan {
        hands: true,
        whims: true,
        lengths: (70, 160),
        pan: 0.6,
        ..RollPlan::ordinary(seed)
    };
    let outcome = outcome_of((611..=614).map(plan));
    assert_rates(&outcome, 0.98);
}

#[test]
fn one_long_take_with_lightning_and_flicker_has_no_break() {
    for seed in 401..=405 {
        let roll = DrawnRoll::new(RollPlan {
            takes: 1,
            lengths: (600, 600),
            flicker: 0.25,
            disturbed_one_in: 40,
            dust: 8,
            ..RollPlan::ordinary(seed)
        });
        let found = found_on(&roll);
        assert_eq!(breaks_of(&found, roll.total), [], "seed {seed}");
        let takes = takes_from(&found, roll.total);
        assert_eq!(takes.len(), 1);
        assert_eq!(takes[0].begins, Begins::RollStart);
    }
}

#[test]
fn a_still_picture_has_no_break() {
    let roll = DrawnRoll::new(RollPlan {
        takes: 1,
        lengths: (200, 200),
        grain: 0.0,
        flicker: 0.0,
        weave: 0.0,
        dust: 0,
        pan: 0.0,
        disturbed_one_in: 0,
        ..RollPlan::ordinary(7)
    });
    let still = roll.plane(0);
    let found = crate::reading::found_in(std::iter::repeat_n(still, 200));
    assert_eq!(found, []);
}

#[test]
fn a_break_is_told_within_the_promised_wait() {
    use onestrand_inspect::{BreakFinder, BreakSettings, Finding, PlaneRef};
    let roll = DrawnRoll::new(RollPlan::ordinary(3));
    let mut finder = BreakFinder::new(BreakSettings::default());
    let mut told = 0;
    for number in 0..roll.total {
        let plane = roll.plane(number);
        for finding in finder
            .push(PlaneRef::new(&plane).expect("of its size"))
            .findings
        {
            if let Finding::Break { at, .. } = finding {
                let waited = (number - at) as usize;
                assert!(waited <= BreakFinder::LONGEST_WAIT, "break at {at}");
                told += 1;
            }
        }
    }
    assert!(told > 8, "most breaks are told before the roll ends");
}
