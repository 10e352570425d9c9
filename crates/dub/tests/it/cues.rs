//! Cues through a change of the picture.

use onestrand_dub::{Anchor, CueState, Laid, Why, proposals, state};

use crate::the_boat::{marks, v1, v2};

fn frame(roll: &str, frame: u32) -> Anchor {
    let roll = roll.to_owned();
    Anchor::Frame { roll, frame }
}

#[test]
fn the_cues_of_the_story_stand_where_it_says() {
    let music = Anchor::Join {
        roll: "R3".to_owned(),
        first: 57,
    };
    for (name, anchor, before, after) in [
        ("splash", frame("R2", 580), 789, 789),
        ("lever", frame("R2", 2833), 1685, 1658),
        ("music", music, 1761, 1734),
        ("rustle", frame("R3", 1846), 2119, 2164),
        ("foot", frame("R3", 1300), 2311, 2284),
    ] {
        assert_eq!(anchor.in_version(&v1()), Some(before), "{name}");
        assert_eq!(anchor.in_version(&v2()), Some(after), "{name}");
    }
}

#[test]
fn the_strokes_are_orphaned_and_proposed_on_the_new_bell() {
    for (bell, was, proposed) in [(2441, 1392, 1349), (2459, 1410, 1368), (2478, 1429, 1387)] {
        let anchor = frame("R2", bell);
        assert_eq!(anchor.in_version(&v1()), Some(was));
        assert_eq!(anchor.in_version(&v2()), None);
        let first = proposals("R2", bell, &marks(), &v2()).remove(0);
        assert_eq!(first.at, proposed);
        assert_eq!(first.anchor.in_version(&v2()), Some(proposed));
        assert!(matches!(first.why, Why::SameMark { .. }), "{first:?}");
    }
}

#[test]
fn what_is_near_a_mark_is_proposed_as_near_to_it() {
    // Four frames before the second stroke nobody wrote anything.
    let first = proposals("R2", 2455, &marks(), &v2()).remove(0);
    assert_eq!(first.at, 1368 - 4);
    assert!(matches!(first.why, Why::BesideMark { .. }), "{first:?}");
    // Without marks only what is left of the take can be said; of this one nothing is.
    assert_eq!(proposals("R2", 2455, &[], &v2()), []);
    // Of shot 22 the tail went: its last frame is what is left.
    let left = proposals("R3", 2760, &[], &v2());
    assert_eq!(left[0].at, 2570);
    assert_eq!(left[0].why, Why::NearestLeft { frames: 31 });
}

#[test]
fn a_join_is_found_again_when_the_piece_behind_it_is_trimmed() {
    let at = |first| v1().join_before("R3", first);
    assert_eq!(at(57), Some(1761));
    assert_eq!(at(40), Some(1761), "the head was longer");
    assert_eq!(at(80), Some(1761), "the head was shorter");
    assert_eq!(at(400), None, "6-T1 is not in the cut");
}

#[test]
fn states_say_what_changed() {
    let laid = |at, frames| Some(Laid { at, frames });
    assert_eq!(state(laid(5, 9), laid(5, 9)), CueState::Held);
    assert_eq!(state(laid(5, 9), laid(6, 9)), CueState::Moved);
    assert_eq!(state(laid(5, 9), laid(6, 8)), CueState::Stretched);
    assert_eq!(state(laid(5, 9), None), CueState::Orphan);
    assert_eq!(state(None, laid(6, 8)), CueState::Held);
}
