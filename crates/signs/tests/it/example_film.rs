//! Story 4: the faults of "The Ten-Past Boat".

use crate::boat::ReadPart;
use onestrand_signs::{LineRun, LineTone, Place, Sign, SignKind, SignLimits};

fn signs_of(part: &ReadPart, kind: SignKind) -> Vec<Sign> {
    let signs = part.record.signs(&part.takes, &SignLimits::default());
    signs.into_iter().filter(|sign| sign.kind == kind).collect()
}

#[test]
fn the_hair_of_2a_t1_lies_lower_right_until_the_camera_stops() {
    let part = ReadPart::of(1, 1352..1801);
    let hairs = signs_of(&part, SignKind::Hair);
    assert_eq!(hairs.len(), 1, "{hairs:?}");
    let take = part.take("2A-T1");
    assert_eq!((hairs[0].from, hairs[0].until), (take.start, take.end));
    let Some(Place::Box {
        left,
        top,
        right,
        bottom,
    }) = hairs[0].place
    else {
        panic!("a hair has its rectangle: {hairs:?}");
    };
    // Planted at 0.80 to 0.99 of the width, 0.82 to 0.96 of the height.
    for (found, planted) in [(left, 800), (top, 820), (right, 990), (bottom, 960)] {
        assert!(u16::abs_diff(found, planted) <= 25, "{:?}", hairs[0].place);
    }
    let pair = hairs[0].compare.expect("the next take is without");
    assert!(take.contains(&pair.seen) && !take.contains(&pair.beside));
}

#[test]
fn the_soft_part_of_3_t1_has_the_sharpness_of_the_story() {
    let part = ReadPart::of(1, 1945..3313);
    let soft = signs_of(&part, SignKind::Soft);
    let planted = part.here(2010..2106);
    assert_eq!(soft.len(), 1, "{soft:?}");
    assert!(soft[0].from.abs_diff(planted.start) <= 3, "{soft:?}");
    assert!(soft[0].until.abs_diff(planted.end) <= 3, "{soft:?}");
    assert!((soft[0].measure - 0.41).abs() <= 0.03, "{soft:?}");
    // Against the same action in the twin, which takes as long up to it.
    let after = planted.start - part.take("3-T1").start;
    let twin = part.take("3-T2").start + after;
    let against = part
        .record
        .sharpness_against(&planted, &(twin..twin + planted.end - planted.start))
        .expect("both have edges");
    assert!((against - 0.41).abs() <= 0.03, "{against} {soft:?}");
}

#[test]
fn the_line_of_roll_2_began_inside_a_take_and_crosses_two_stops() {
    let part = ReadPart::of(2, 2990..3577);
    let lines = signs_of(&part, SignKind::Scratch);
    assert_eq!(lines.len(), 1, "{lines:?}");
    let planted = part.here(3060..3577);
    assert!(lines[0].from.abs_diff(planted.start) <= 3, "{lines:?}");
    assert_eq!(lines[0].until, planted.end);
    let Some(Place::Line { x, tone, run }) = lines[0].place else {
        panic!("a line has its place: {lines:?}");
    };
    assert!((x - 31.0).abs() < 0.5, "{x}");
    assert_eq!((tone, run), (LineTone::Dark, LineRun::AcrossStops));
}
