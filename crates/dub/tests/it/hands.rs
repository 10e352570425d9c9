//! Faders and hands.

use onestrand_dub::{HandMove, hand_score};
use proptest::prelude::*;

use crate::brute;

fn moved(column: i64, from: i64, to: i64) -> HandMove {
    HandMove {
        column,
        fader: column,
        from,
        to,
    }
}

#[test]
fn the_moves_of_the_story_want_three_hands_and_two_with_one_tape() {
    let river = moved(1, 1722, 1758);
    let engine = moved(2, 1716, 1752);
    let music = moved(4, 1728, 1746);
    let score = hand_score(&[river, engine, music], 2);
    assert_eq!(score.most, 3);
    assert_eq!(score.most_at, Some(1728));
    assert_eq!(score.too_many.len(), 1);
    let full = &score.too_many[0];
    assert_eq!((full.from, full.to, full.moves), (1728, 1746, 3));
    assert_eq!(score.lay_together, [1, 2], "river and engine on one tape");
    assert_eq!(score.most_then, 2);
}

#[test]
fn moves_that_follow_each_other_take_one_hand() {
    let score = hand_score(&[moved(1, 0, 10), moved(2, 10, 20)], 1);
    assert_eq!(score.most, 1);
    assert_eq!(score.too_many, []);
    assert_eq!(score.lay_together, [0_i64; 0]);
    assert_eq!(hand_score(&[], 2).most_at, None);
}

#[test]
fn two_moves_of_one_fader_are_one_hand() {
    let mut second = moved(3, 5, 20);
    second.fader = 1;
    let score = hand_score(&[moved(1, 0, 10), second], 1);
    assert_eq!(score.most, 1);
}

proptest! {
    #[test]
    fn against_every_frame_and_every_set(
        drawn in prop::collection::vec((0_i64..7, 0_i64..40, 1_i64..15), 0..16),
        hands in 1_usize..4,
    ) {
        let moves: Vec<HandMove> = drawn
            .into_iter()
            .map(|(column, from, long)| moved(column, from, from + long))
            .collect();
        let score = hand_score(&moves, hands);
        prop_assert_eq!(score.most, brute::most(&moves, &[]));
        let fewest = brute::fewest_together(&moves, hands);
        match fewest {
            Some((size, then)) => {
                prop_assert_eq!((score.lay_together.len(), score.most_then), (size, then));
                prop_assert_eq!(brute::most(&moves, &score.lay_together), then);
            }
            None => prop_assert!(score.lay_together.is_empty()),
        }
        for frame in 0..60 {
            let deep = brute::at(&moves, &[], frame);
            let told = score.too_many.iter().any(|full| full.from <= frame && frame < full.to);
            prop_assert_eq!(told, deep > hands, "frame {}", frame);
        }
    }
}
