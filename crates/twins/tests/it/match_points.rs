//! Where one may cut on the action.

use crate::drawn::{retaken, walkers};
use crate::retake::Retake;
use num_rational::Ratio;
use onestrand_film::{FramePos, FrameRange};
use onestrand_twins::{MatchWish, SameMoment, TakeMovement, TimeMap, lay_beside, match_points};

fn frame(of: u32) -> FramePos {
    FramePos::new(of).expect("a frame")
}

fn range(begin: u32, end: u32) -> FrameRange {
    FrameRange::of(begin, end).expect("a range")
}

/// A master and a closer take of the same action, a tenth quicker.
fn pair() -> (TakeMovement, TakeMovement, Retake) {
    let planes = walkers(11, 220);
    let closer = Retake {
        start: 20.0,
        speed: 1.1,
        view: (0.15, 0.15, 0.7),
        seed: 4,
        ..Retake::PLAIN
    };
    let master = retaken(&planes, &Retake::PLAIN, 1000);
    let there = retaken(&planes, &closer, 500);
    (master, there, closer)
}

#[test]
fn three_points_are_offered_in_movement_apart_and_true() {
    let (master, closer, retake) = pair();
    let map = lay_beside(&master, &closer).expect("the same action");
    let wish = MatchWish::new(range(1040, 1180), closer.range());
    let points = match_points(&map, Some((&master, &closer)), &wish, |_, _| true);
    assert_eq!(points.len(), 3);
    for (n, point) in points.iter().enumerate() {
        let truth = retake.frame_at((point.leave.index() - 1000) as f32);
        let truth = 500.0 + f64::from(truth);
        let off = point.due.decimal() - truth;
        assert!(off.abs() <= 2.0, "{off}");
        assert!(point.due.uncertain <= wish.uncertain_at_most);
        for other in &points[n + 1..] {
            assert!(other.leave.index().abs_diff(point.leave.index()) >= wish.apart);
        }
        let overlaps: Vec<u32> = point.entries.iter().map(|e| e.overlap).collect();
        assert_eq!(overlaps, [0, 2, 3]);
        for entry in &point.entries {
            assert!(entry.phase() <= Ratio::new(1, 2) && entry.phase() >= Ratio::new(-1, 2));
        }
    }
    // More moves at the first than at nine frames of ten.
    let frames = 1040..1180;
    let more = frames
        .clone()
        .filter(|&f| master.moves_at(frame(f)) < points[0].moves)
        .count();
    assert!(more * 10 > frames.len() * 5, "{more} frames move less");
}

#[test]
fn the_strand_has_the_last_word() {
    let (master, closer, _) = pair();
    let map = lay_beside(&master, &closer).expect("the same action");
    let wish = MatchWish::new(range(1040, 1180), closer.range());
    let moving = Some((&master, &closer));
    let free = match_points(&map, moving, &wish, |_, _| true);
    let best = free[0].leave;
    let kept = match_points(&map, moving, &wish, |leave, _| leave != best);
    assert!(kept.iter().all(|point| point.leave != best));
    let only_overlapping = match_points(&map, moving, &wish, |leave, enter| {
        map.repeats(leave, enter)
            .is_some_and(|r| r >= Ratio::from(1))
    });
    let entries = only_overlapping.iter().flat_map(|point| &point.entries);
    assert!(entries.clone().count() >= 3);
    assert!(entries.clone().all(|entry| entry.overlap > 0));
    assert!(match_points(&map, moving, &wish, |_, _| false).is_empty());
}

#[test]
fn the_way_back_lies_in_the_master() {
    let (master, closer, retake) = pair();
    let map = lay_beside(&master, &closer)
        .expect("the same action")
        .reversed();
    let wish = MatchWish::new(range(560, 630), range(1050, 1200));
    let points = match_points(&map, Some((&closer, &master)), &wish, |_, _| true);
    assert_eq!(points.len(), 3);
    for point in &points {
        assert!(wish.leave_within.contains(point.leave));
        let truth = 1000.0 + retake.moment((point.leave.index() - 500) as f32);
        assert!((point.due.decimal() - f64::from(truth)).abs() <= 2.0);
        assert!(
            point
                .entries
                .iter()
                .all(|e| wish.enter_within.contains(e.enter))
        );
    }
}

#[test]
fn without_pictures_the_smallest_phase_error_comes_first() {
    let mark = |here, there| SameMoment {
        here: frame(here),
        there: frame(there),
    };
    let map = TimeMap::from_marks(mark(2923, 531), mark(2971, 580)).expect("two moments");
    let wish = MatchWish::new(range(2900, 3000), range(470, 668));
    let points = match_points(&map, None, &wish, |_, _| true);
    // At the marks, and the frames beside them, it is a matter of nothing or 49ths.
    assert_eq!(points[0].leave, frame(2923));
    assert_eq!(points[0].entries[0].enter, frame(531));
    assert_eq!(points[0].entries[0].repeats, Ratio::from(0));
    assert_eq!(points[1].leave, frame(2971));
}
