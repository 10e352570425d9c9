//! Joins kept apart from camera stops and plain cuts; leader and black.

use crate::drawn::{DrawnRoll, RollPlan};
use crate::reading::{found_in, found_on};
use onestrand_inspect::{Begins, Finding, PLANE_BYTES, takes_from};

fn plan(seed: u64) -> RollPlan {
    RollPlan {
        joins_in_ten: 5,
        flash_starts_in_ten: 2,
        whims: true,
        leader: (30, 0.8),
        ..RollPlan::ordinary(seed)
    }
}

#[test]
fn joins_are_told_from_cuts_and_stops() {
    let (mut joins, mut told, mut others, mut wrong) = (0, 0, 0, Vec::new());
    for seed in 621..=624 {
        let roll = DrawnRoll::new(plan(seed));
        let takes = takes_from(&found_on(&roll), roll.total);
        for drawn in roll.takes().iter().skip(1) {
            let Some(found) = takes.iter().find(|take| take.from == drawn.from) else {
                continue;
            };
            let is_join = found.begins == Begins::Join;
            match drawn.join {
                Some(_) => {
                    joins += 1;
                    told += u32::from(is_join);
                }
                None => {
                    others += 1;
                    if is_join {
                        wrong.push((seed, drawn.from));
                    }
                }
            }
        }
    }
    assert!(joins > 10 && told * 10 >= joins * 9, "{told} of {joins}");
    assert!(wrong.len() * 50 <= others, "{wrong:?} of {others}");
}

#[test]
fn leader_at_the_head_is_no_take_and_no_fog() {
    for (seed, light) in [(631, 1.0), (632, 0.8), (633, 0.3)] {
        let roll = DrawnRoll::new(RollPlan {
            takes: 2,
            leader: (30, light),
            ..RollPlan::ordinary(seed)
        });
        let found = found_on(&roll);
        let [Finding::Leader { from, until, level }, ..] = found[..] else {
            panic!("leader comes first: {found:?}");
        };
        assert_eq!((from, until), (0, 30));
        let drawn = 255.0 * light.powf(1.0 / 2.2);
        assert!((level - drawn).abs() < 6.0, "{drawn} read as {level}");
        assert!(
            !found
                .iter()
                .any(|finding| matches!(finding, Finding::Fog { .. }))
        );
        let takes = takes_from(&found, roll.total);
        assert_eq!((takes[0].from, takes[0].begins), (30, Begins::Join));
    }
}

#[test]
fn leader_and_then_fog_are_told_apart() {
    let roll = DrawnRoll::new(RollPlan {
        takes: 1,
        lengths: (60, 60),
        leader: (24, 1.0),
        fog: 12,
        ..RollPlan::ordinary(634)
    });
    let found = found_on(&roll);
    let bare: Vec<(&str, u32, u32)> = found
        .iter()
        .filter_map(|finding| match *finding {
            Finding::Leader { from, until, .. } => Some(("leader", from, until)),
            Finding::Fog { from, until } => Some(("fog", from, until)),
            _ => None,
        })
        .collect();
    let end = roll.total;
    assert_eq!(
        bare,
        [("leader", 0, 24), ("fog", 24, 36), ("fog", end - 12, end)]
    );
    let takes = takes_from(&found, end);
    assert_eq!(
        (takes.len(), takes[0].from, takes[0].until),
        (1, 36, end - 12)
    );
    assert_eq!(takes[0].begins, Begins::Fog);
}

#[test]
fn black_in_a_roll_has_its_span() {
    let roll = DrawnRoll::new(RollPlan {
        takes: 1,
        lengths: (40, 40),
        disturbed_one_in: 0,
        ..RollPlan::ordinary(635)
    });
    let picture = |number| roll.plane(number);
    let black = std::iter::repeat_n(vec![9; PLANE_BYTES], 15);
    let planes = (0..20)
        .map(picture)
        .chain(black)
        .chain((20..40).map(picture));
    let found = found_in(planes);
    let spans: Vec<(u32, u32)> = found
        .iter()
        .filter_map(|finding| match *finding {
            Finding::Black { from, until } => Some((from, until)),
            _ => None,
        })
        .collect();
    assert_eq!(spans, [(20, 35)], "{found:?}");
}
