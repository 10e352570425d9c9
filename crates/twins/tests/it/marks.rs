//! Maps through two marks, and story 5 to the digit.

use num_rational::Ratio;
use onestrand_film::{FramePos, FrameRange};
use onestrand_twins::{MatchWish, SameMoment, TimeMap, match_points};
use proptest::prelude::*;

fn frame(of: u32) -> FramePos {
    FramePos::new(of).expect("a frame")
}

fn mark(here: u32, there: u32) -> SameMoment {
    SameMoment {
        here: frame(here),
        there: frame(there),
    }
}

/// Rope leaves bollard and splash, in 3-T2 and 3B-T2.
fn story() -> TimeMap {
    TimeMap::from_marks(mark(2923, 531), mark(2971, 580)).expect("two moments")
}

fn decimal(of: Ratio<i64>) -> f64 {
    *of.numer() as f64 / *of.denom() as f64
}

#[test]
fn the_master_is_left_at_2939_and_the_close_up_entered_a_third_of_a_frame_early() {
    let map = story();
    assert_eq!(map.pace(), Ratio::new(49, 48));
    assert_eq!(format!("{:.4}", decimal(map.pace())), "1.0208");
    let due = map.there(frame(2939)).expect("on the line");
    assert_eq!(due.frame, Ratio::new(1642, 3));
    assert!(due.uncertain.abs() < f64::EPSILON);
    let only = |begin, end| FrameRange::of(begin, end).expect("a range");
    let mut wish = MatchWish::new(only(2939, 2940), only(470, 668));
    wish.overlaps = vec![0, 2];
    let points = match_points(&map, None, &wish, |_, _| true);
    assert_eq!(points.len(), 1);
    let [plain, overlapping] = points[0].entries[..] else {
        panic!("{points:?}");
    };
    assert_eq!(plain.enter, frame(547));
    assert_eq!(plain.phase(), Ratio::new(-1, 3));
    assert_eq!(format!("{:.2}", decimal(plain.phase())), "-0.33");
    assert_eq!(overlapping.enter, frame(545));
    assert_eq!(overlapping.repeats, Ratio::new(7, 3));
}

#[test]
fn the_close_up_is_left_at_607_and_v1_repeats_1_4_frames() {
    let back = story().reversed();
    let due = back.there(frame(607)).expect("on the line");
    assert_eq!(format!("{:.1}", due.decimal()), "2997.4");
    let repeats = back.repeats(frame(607), frame(2996)).expect("on the line");
    assert_eq!(format!("{:.1}", decimal(repeats)), "1.4");
    assert!(decimal(repeats).abs() <= 2.0);
}

#[test]
fn marks_that_give_no_line_are_refused_with_what_to_do() {
    for (first, second) in [
        (mark(10, 20), mark(10, 30)),
        (mark(10, 20), mark(30, 20)),
        (mark(10, 20), mark(30, 15)),
        (mark(10, 20), mark(10, 20)),
    ] {
        let refused = TimeMap::from_marks(first, second).expect_err("no line");
        assert_eq!(refused.code(), "twins.marks");
        assert!(refused.hint().contains("two marks"));
    }
}

#[test]
fn nothing_lies_before_the_head_of_a_roll() {
    let map = TimeMap::from_marks(mark(100, 5), mark(110, 15)).expect("two moments");
    assert_eq!(map.there(frame(95)).expect("frame 0").frame, Ratio::from(0));
    assert!(map.there(frame(94)).is_none());
}

proptest! {
    #[test]
    fn a_line_meets_its_marks_keeps_its_order_and_comes_back(
        here in 0_u32..50_000, there in 0_u32..50_000,
        on in 1_u32..3_000, over in 1_u32..3_000,
        at in 0_u32..60_000, swapped in any::<bool>(),
    ) {
        let marks = [mark(here, there), mark(here + on, there + over)];
        let (first, second) = if swapped { (marks[1], marks[0]) } else { (marks[0], marks[1]) };
        let map = TimeMap::from_marks(first, second).expect("two moments");
        for mark in marks {
            let met = map.there(mark.here).expect("a mark").frame;
            prop_assert_eq!(met, Ratio::from(i64::from(mark.there.index())));
        }
        let (one, next) = (map.there(frame(at)), map.there(frame(at + 1)));
        if let (Some(one), Some(next)) = (one, next) {
            prop_assert_eq!(next.frame - one.frame, map.pace());
            // There and back, exactly: the way back of the place, by the same line.
            let back = map.reversed();
            let whole = one.frame.floor();
            if let Ok(whole) = u32::try_from(whole.to_integer())
                && let Some(home) = back.there(frame(whole))
            {
                let rest = (one.frame - one.frame.floor()) * back.pace();
                prop_assert_eq!(home.frame + rest, Ratio::from(i64::from(at)));
            }
        }
        prop_assert_eq!(map.reversed().reversed().there(frame(at)), map.there(frame(at)));
    }
}
