//! Fogged ends, rolls of a few frames, and planes of the wrong size.

use crate::drawn::{DrawnRoll, RollPlan};
use crate::reading::{found_in, found_on};
use onestrand_inspect::{
    Begins, BreakFinder, BreakSettings, Finding, InspectError, PLANE_BYTES, PlaneRef, takes_from,
};

fn fogged(seed: u64) -> DrawnRoll {
    DrawnRoll::new(RollPlan {
        fog: 20,
        takes: 3,
        ..RollPlan::ordinary(seed)
    })
}

#[test]
fn takes_lie_between_the_fogged_ends_to_the_frame() {
    for seed in 31..=36 {
        let roll = fogged(seed);
        let found = found_on(&roll);
        let fog: Vec<(u32, u32)> = found
            .iter()
            .filter_map(|finding| match *finding {
                Finding::Fog { from, until } => Some((from, until)),
                _ => None,
            })
            .collect();
        assert_eq!(fog, [(0, 20), (roll.total - 20, roll.total)], "seed {seed}");
        let takes = takes_from(&found, roll.total);
        assert_eq!(takes[0].from, 20);
        assert_eq!(takes[0].begins, Begins::Fog);
        assert_eq!(takes.last().map(|take| take.until), Some(roll.total - 20));
        assert_eq!(takes.len(), 3, "seed {seed}: {takes:?}");
    }
}

#[test]
fn takes_tile_the_roll() {
    for seed in 41..=43 {
        let roll = fogged(seed);
        let takes = takes_from(&found_on(&roll), roll.total);
        for pair in takes.windows(2) {
            assert_eq!(pair[0].until, pair[1].from);
        }
        assert!(takes.iter().all(|take| take.from < take.until));
    }
}

#[test]
fn a_roll_of_few_frames_is_one_take() {
    let roll = DrawnRoll::new(RollPlan::ordinary(51));
    for frames in 1..=6 {
        let found = found_in((0..frames).map(|number| roll.plane(number)));
        let takes = takes_from(&found, frames);
        assert_eq!(takes.len(), 1, "{frames} frames");
        assert_eq!((takes[0].from, takes[0].until), (0, frames));
    }
    assert_eq!(takes_from(&found_in(std::iter::empty()), 0), []);
}

#[test]
fn black_leader_is_no_fog() {
    let found = found_in(std::iter::repeat_n(vec![8; PLANE_BYTES], 60));
    assert_eq!(found, [Finding::Black { from: 0, until: 60 }]);
}

#[test]
fn a_plane_of_another_size_is_refused() {
    let error = PlaneRef::new(&[0; 100]).expect_err("too small");
    assert_eq!(error, InspectError::PlaneSize { found: 100 });
    assert_eq!(error.code(), "inspect.plane_size");
    assert!(
        error.to_string().contains("100 bytes were found"),
        "{error}"
    );
}

#[test]
fn a_window_out_of_range_is_brought_within() {
    for window in [0, 1_000_000] {
        let mut settings = BreakSettings::default();
        settings.window = window;
        let mut finder = BreakFinder::new(settings);
        let plane = vec![10; PLANE_BYTES];
        for _ in 0..30 {
            finder.push(PlaneRef::new(&plane).expect("of its size"));
        }
        let black = Finding::Black { from: 0, until: 30 };
        assert_eq!(finder.finish(), [black]);
    }
}
