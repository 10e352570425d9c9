//! The log, the cut and the marks agree with each other and with the story.

use onestrand_example::world::{action_time, has_happened};
use onestrand_example::{FRAMES_PER_ROLL, ROLLS, first_cut, fog_spans, marks, takes};

#[test]
fn takes_and_fog_fill_every_roll_once() {
    for roll in 1..=ROLLS {
        let mut spans: Vec<(u32, u32)> = takes()
            .iter()
            .filter(|t| t.roll == roll)
            .map(|t| (t.span_in, t.span_out))
            .chain(
                fog_spans()
                    .iter()
                    .filter(|f| f.roll == roll)
                    .map(|f| (f.span_in, f.span_out)),
            )
            .collect();
        spans.sort_unstable();
        let mut next = 0;
        for (span_in, span_out) in spans {
            assert_eq!(span_in, next, "R{roll}");
            assert!(span_out > span_in, "R{roll}·{span_in}");
            next = span_out;
        }
        assert_eq!(next, FRAMES_PER_ROLL, "R{roll}");
    }
}

#[test]
fn the_log_has_thirty_one_picture_takes_and_two_titles() {
    let titles = takes().iter().filter(|t| t.covers.is_empty()).count();
    assert_eq!((takes().len(), titles), (33, 2));
    let on_roll = |roll| takes().iter().filter(|t| t.roll == roll).count();
    assert_eq!([on_roll(1), on_roll(2), on_roll(3)], [10, 13, 10]);
}

#[test]
fn takes_of_a_setup_are_numbered_in_the_order_shot() {
    for (index, take) in takes().iter().enumerate() {
        let before = takes()[..index]
            .iter()
            .filter(|t| t.slate == take.slate)
            .count();
        assert_eq!(usize::from(take.take), before + 1, "{}", take.name());
    }
}

#[test]
fn every_piece_lies_in_its_take_with_frames_to_spare() {
    for piece in first_cut() {
        let take = takes()
            .iter()
            .find(|t| (t.slate, t.take) == (piece.slate, piece.take))
            .expect("the take is in the log");
        assert_eq!(take.roll, piece.roll, "piece {}", piece.position);
        assert!(take.span_in < piece.span_in, "piece {}", piece.position);
        assert!(piece.span_out < take.span_out, "piece {}", piece.position);
    }
}

#[test]
fn the_first_cut_has_the_lengths_of_the_story() {
    let starts = [
        0, 180, 324, 432, 558, 630, 756, 816, 942, 987, 1203, 1275, 1383, 1437, 1581, 1653, 1761,
        1923, 2103, 2157, 2229, 2373, 2643,
    ];
    let mut at = 0;
    for (piece, start) in first_cut().iter().zip(starts) {
        assert_eq!(at, start, "piece {}", piece.position);
        at += piece.span_out - piece.span_in;
    }
    assert_eq!((first_cut().len(), at), (23, 2724));
}

#[test]
fn every_mark_is_the_first_frame_on_which_it_has_happened() {
    for mark in marks() {
        let take = mark.take();
        let by = |frame| has_happened(mark.kind, action_time(take, frame));
        assert!(
            by(mark.frame),
            "R{}·{} {:?}",
            mark.roll,
            mark.frame,
            mark.kind
        );
        assert!(
            !by(mark.frame - 1),
            "R{}·{} {:?}",
            mark.roll,
            mark.frame - 1,
            mark.kind
        );
    }
}

#[test]
fn every_action_of_the_script_is_covered() {
    let actions = [
        "1a", "2a", "3a", "3b", "3c", "4a", "4b", "4c", "5a", "5b", "5c", "5d", "6a", "6b", "7a",
    ];
    let covering = |action: &str| {
        takes()
            .iter()
            .filter(|t| t.covers.split(';').any(|c| c == action))
            .count()
    };
    let counts: Vec<usize> = actions.iter().map(|a| covering(a)).collect();
    // Takes an action, as the coverage of story 2 counts them.
    assert_eq!(counts, [2, 5, 4, 6, 2, 2, 4, 4, 1, 2, 1, 2, 5, 2, 2]);
}
