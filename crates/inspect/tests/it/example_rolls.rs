//! The rolls of the example film: every break to the frame.

use crate::measuring_plane::plane_of;
use crate::reading::found_in;
use onestrand_example::{
    ExampleTake, FRAME_BYTES, FRAMES_PER_ROLL, HEIGHT, RollPainter, WIDTH, fog_spans, takes,
};
use onestrand_inspect::{Begins, Finding, TakeSpan, takes_from};
use std::ops::Range;

fn findings_in(painter: &RollPainter, frames: Range<u32>) -> Vec<Finding> {
    let mut rgb = vec![0; FRAME_BYTES];
    found_in(frames.map(|frame| {
        painter
            .paint(frame, &mut rgb)
            .expect("the roll has this frame");
        plane_of(&rgb, WIDTH as usize, HEIGHT as usize)
    }))
}

fn painter_of(roll: u8) -> RollPainter {
    RollPainter::new(roll).expect("the example has this roll")
}

fn logged(roll: u8) -> impl Iterator<Item = &'static ExampleTake> {
    takes().iter().filter(move |take| take.roll == roll)
}

fn assert_flashed(take: &TakeSpan, begins: Begins, place: &str) {
    assert_eq!(take.begins, begins, "{place}");
    // The second frame is a fifth as much over, which may just count.
    assert!((1..=2).contains(&take.flash_frames), "{place}: {take:?}");
    assert!((0.4..=1.6).contains(&take.flash_stops), "{place}: {take:?}");
}

/// Painting takes long, so every other roll is read about its breaks only.
#[test]
fn roll_1_has_its_ten_takes_and_fogged_ends_and_nothing_else() {
    let findings = findings_in(&painter_of(1), 0..FRAMES_PER_ROLL);
    let found = takes_from(&findings, FRAMES_PER_ROLL);
    let spans: Vec<(u32, u32)> = found.iter().map(|take| (take.from, take.until)).collect();
    let log: Vec<(u32, u32)> = logged(1)
        .map(|take| (take.span_in, take.span_out))
        .collect();
    assert_eq!(spans, log);
    assert_flashed(&found[0], Begins::Fog, "R1·24");
    for take in &found[1..] {
        assert_flashed(take, Begins::CameraStop, &format!("R1·{}", take.from));
    }
    let fog: Vec<(u32, u32)> = findings.iter().filter_map(fog_of).collect();
    assert_eq!(fog, [(0, 24), (3572, 3600)]);
    // Story 4: the first frame of 1-T2 is 1.2 stop over.
    assert!((found[1].flash_stops - 1.2).abs() < 0.2, "{:?}", found[1]);
}

/// Painting takes long: of these rolls only what lies about the breaks.
#[test]
fn rolls_2_and_3_break_where_their_takes_begin() {
    for roll in [2, 3] {
        let painter = painter_of(roll);
        for take in logged(roll).skip(1) {
            let start = take.span_in;
            let frames = start - 30..start + 30;
            let found = takes_from(&findings_in(&painter, frames), 60);
            let place = format!("R{roll}·{start}");
            assert_eq!(found.len(), 2, "{place}: {found:?}");
            assert_eq!(found[1].from, 30, "{place}");
            assert_flashed(&found[1], Begins::CameraStop, &place);
        }
    }
}

#[test]
fn rolls_2_and_3_are_fogged_at_their_ends() {
    for roll in [2, 3] {
        let painter = painter_of(roll);
        for span in fog_spans().iter().filter(|span| span.roll == roll) {
            let at_head = span.span_in == 0;
            // Enough of the fog, and some of the take beside it.
            let frames = match at_head {
                true => 0..span.span_out + 30,
                false => span.span_in - 30..span.span_in + 20,
            };
            let length = frames.end - frames.start;
            let found: Vec<(u32, u32)> = findings_in(&painter, frames)
                .iter()
                .filter_map(fog_of)
                .collect();
            let expected = if at_head {
                (0, span.span_out)
            } else {
                (30, length)
            };
            assert_eq!(found, [expected], "R{roll}·{}", span.span_in);
        }
    }
}

fn fog_of(finding: &Finding) -> Option<(u32, u32)> {
    match *finding {
        Finding::Fog { from, until } => Some((from, until)),
        _ => None,
    }
}
