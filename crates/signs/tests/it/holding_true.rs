//! The invariants of the crate, and what is said of a sign.

use crate::drawn::{Camera, DrawnRoll, Fault, RollPlan};
use crate::reading::read;
use onestrand_inspect::PlaneRef;
use onestrand_signs::{LineRun, Place, SignKind, SignLimits, SignReader};

fn faulty() -> RollPlan {
    RollPlan::new(
        5,
        &[
            (Camera::Stands, 70),
            (Camera::Stands, 70),
            (Camera::Stands, 60),
        ],
    )
    .with(Fault::Blur(0.5), 20..45)
    .with(Fault::Stops(1.0), 90..110)
    .with(Fault::Blank(3), 180..184)
}

#[test]
fn the_same_planes_give_the_same_signs_in_order() {
    let signs = || {
        let roll = read(faulty());
        roll.record.signs(&roll.takes, &SignLimits::default())
    };
    let (one, other) = (signs(), signs());
    assert_eq!(one, other);
    assert!(one.is_sorted_by_key(|sign| sign.from));
    let kinds: Vec<SignKind> = one.iter().map(|sign| sign.kind).collect();
    for kind in [SignKind::Soft, SignKind::Over, SignKind::Black] {
        assert!(kinds.contains(&kind), "{kind:?} of {kinds:?}");
    }
}

#[test]
fn two_frames_to_compare_show_more_and_less_of_it() {
    let roll = read(faulty());
    let signs = roll.record.signs(&roll.takes, &SignLimits::default());
    let soft = signs
        .iter()
        .find(|sign| sign.kind == SignKind::Soft)
        .expect("it was planted");
    let pair = soft.compare.expect("the take has sharp frames");
    assert!(
        (20..45).contains(&pair.seen) && !(20..45).contains(&pair.beside),
        "{pair:?}"
    );
    assert!(roll.takes[0].contains(&pair.beside));
    let over = signs
        .iter()
        .find(|sign| sign.kind == SignKind::Over)
        .expect("it was planted");
    assert!(
        over.clipped
            .is_some_and(|share| (0.0..=1.0).contains(&share))
    );
}

#[test]
fn limits_are_the_users() {
    let roll = read(faulty());
    let deaf = SignLimits {
        soft_below: 0.0,
        stops_off: 9.0,
        blank_above: 1.1,
        ..SignLimits::default()
    };
    let told = roll.record.signs(&roll.takes, &deaf);
    let of_kinds = [
        SignKind::Soft,
        SignKind::Over,
        SignKind::Under,
        SignKind::Black,
    ];
    assert!(
        !told.iter().any(|sign| of_kinds.contains(&sign.kind)),
        "{told:?}"
    );
}

#[test]
fn a_frame_that_no_scan_shows_keeps_its_number() {
    let drawn = DrawnRoll::new(faulty());
    let mut reader = SignReader::new();
    for (at, plane) in drawn.planes().enumerate() {
        if (60..64).contains(&at) {
            reader.push_missing();
        } else {
            reader.push(PlaneRef::new(&plane).expect("a plane"));
        }
    }
    assert_eq!(reader.frames(), 200);
    let signs = reader
        .finish()
        .signs(&drawn.takes(), &SignLimits::default());
    let over = signs
        .iter()
        .find(|sign| sign.kind == SignKind::Over)
        .expect("it was planted");
    assert_eq!((over.from, over.until), (90, 110));
    for pair in signs.iter().filter_map(|sign| sign.compare) {
        assert!(!(60..64).contains(&pair.seen) && !(60..64).contains(&pair.beside));
    }
}

#[test]
fn a_line_over_two_stops_was_made_later_and_one_with_the_camera_was_not() {
    let takes = [(Camera::Stands, 60); 4];
    let over_stops = RollPlan::new(9, &takes).with(Fault::Line(-14.0, 40.0), 30..150);
    let with_camera = RollPlan::new(9, &[(Camera::Stands, 60), (Camera::Pans(0.5, 0.0), 60)])
        .with(Fault::Line(14.0, 40.0), 60..120);
    for (plan, expected) in [
        (over_stops, LineRun::AcrossStops),
        (with_camera, LineRun::WithTheCamera),
    ] {
        let roll = read(plan);
        let signs = roll.record.signs(&roll.takes, &SignLimits::default());
        let runs: Vec<_> = signs
            .iter()
            .filter_map(|sign| match sign.place {
                Some(Place::Line { run, .. }) => Some(run),
                _ => None,
            })
            .collect();
        assert_eq!(runs, [expected], "{signs:?}");
    }
}

#[test]
fn a_twin_that_is_soft_all_through_is_told_by_the_other() {
    let plan = RollPlan::new(3, &[(Camera::Stands, 50), (Camera::StandsOn, 50)]);
    let roll = read(plan.with(Fault::Blur(0.35), 50..100));
    let signs = roll.record.signs(&roll.takes, &SignLimits::default());
    assert!(
        !signs.iter().any(|sign| sign.kind == SignKind::Soft),
        "{signs:?}"
    );
    let (one, twin) = (&roll.takes[0], &roll.takes[1]);
    let ratio = roll
        .record
        .sharpness_against(twin, one)
        .expect("both have edges");
    assert!((0.3..0.6).contains(&ratio), "{ratio}");
    let back = roll
        .record
        .sharpness_against(one, twin)
        .expect("both have edges");
    assert!(back > 1.5, "{back}");
}

#[test]
fn words_and_units_pass_no_verdict() {
    let kinds = [
        SignKind::Soft,
        SignKind::Over,
        SignKind::Under,
        SignKind::Shake,
        SignKind::Weave,
        SignKind::Hair,
        SignKind::Scratch,
        SignKind::Fog,
        SignKind::Flicker,
        SignKind::Dust,
        SignKind::Black,
        SignKind::Clear,
    ];
    let words: std::collections::BTreeSet<&str> = kinds.iter().map(|kind| kind.word()).collect();
    assert_eq!(words.len(), kinds.len());
    assert!(kinds.iter().all(|kind| !kind.unit().is_empty()));
}
