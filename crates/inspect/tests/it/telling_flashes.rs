//! How a take begins, and how much its first frame is over.

use crate::drawn::{DrawnRoll, RollPlan};
use crate::reading::found_on;
use onestrand_inspect::{Begins, Finding, takes_from};

#[test]
fn a_flash_start_is_measured_in_stops_and_counted_to_its_take() {
    let roll = DrawnRoll::new(RollPlan {
        flash_starts_in_ten: 10,
        flicker: 0.05,
        disturbed_one_in: 0,
        ..RollPlan::ordinary(21)
    });
    let found = takes_from(&found_on(&roll), roll.total);
    let drawn = roll.takes();
    assert_eq!(found.len(), drawn.len());
    for (found, drawn) in found.iter().zip(&drawn).skip(1) {
        assert_eq!(found.from, drawn.from);
        assert_eq!(found.begins, Begins::CameraStop);
        assert_eq!(found.flash_frames, 1, "take at {}", drawn.from);
        let off = found.flash_stops - drawn.flash_stops;
        assert!(
            off.abs() < 0.2,
            "{} read as {}",
            drawn.flash_stops,
            found.flash_stops
        );
    }
}

#[test]
fn without_a_flash_another_picture_is_a_cut() {
    let roll = DrawnRoll::new(RollPlan {
        flash_starts_in_ten: 0,
        same_setup_in_ten: 0,
        disturbed_one_in: 0,
        ..RollPlan::ordinary(22)
    });
    let found = takes_from(&found_on(&roll), roll.total);
    assert_eq!(found.len(), roll.takes().len());
    for take in &found[1..] {
        assert_eq!(
            (take.begins, take.flash_frames),
            (Begins::Cut, 0),
            "{take:?}"
        );
    }
}

#[test]
fn lightning_is_a_flash_and_no_break() {
    let plan = RollPlan {
        takes: 1,
        lengths: (900, 900),
        flicker: 0.05,
        disturbed_one_in: 60,
        ..RollPlan::ordinary(23)
    };
    let roll = DrawnRoll::new(plan);
    let found = found_on(&roll);
    let flashes: Vec<(u32, u32, f32)> = found
        .iter()
        .map(|finding| match *finding {
            Finding::Flash { at, frames, stops } => (at, frames, stops),
            ref other => panic!("nothing but flashes was drawn: {other:?}"),
        })
        .collect();
    let drawn = roll.lightning();
    assert!(drawn.len() > 3, "the roll has lightning");
    for (at, frames, stops) in &drawn {
        let hit = flashes.iter().find(|(found, ..)| found == at);
        let (_, found_frames, found_stops) =
            hit.unwrap_or_else(|| panic!("missed at {at}: {flashes:?}"));
        assert_eq!(found_frames, frames, "at {at}");
        assert!(
            (found_stops - stops).abs() < 0.2,
            "{stops} read as {found_stops}"
        );
    }
}

#[test]
fn the_set_up_goes_on_where_most_of_the_picture_stays() {
    let roll = DrawnRoll::new(RollPlan {
        flash_starts_in_ten: 0,
        same_setup_in_ten: 5,
        disturbed_one_in: 0,
        ..RollPlan::ordinary(24)
    });
    let found = takes_from(&found_on(&roll), roll.total);
    let mut compared = 0;
    for drawn in roll.takes().iter().skip(1) {
        let Some(take) = found.iter().find(|take| take.from == drawn.from) else {
            continue;
        };
        let expected = if drawn.same_setup {
            Begins::CameraStop
        } else {
            Begins::Cut
        };
        assert_eq!(take.begins, expected, "{drawn:?}");
        compared += 1;
    }
    assert!(compared >= 10, "nearly all takes are found");
}
