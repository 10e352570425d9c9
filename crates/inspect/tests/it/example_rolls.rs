//! The rolls of the example film: every break to the frame.

use crate::measuring_plane::plane_of;
use crate::reading::found_in;
use onestrand_example::{
    FRAME_BYTES, FRAMES_PER_ROLL, HEIGHT, RollPainter, WIDTH, fog_spans, takes,
};
use onestrand_inspect::{Begins, Finding, TakeSpan, takes_from};

fn findings_of(roll: u8) -> Vec<Finding> {
    let painter = RollPainter::new(roll).expect("the example has this roll");
    let mut rgb = vec![0; FRAME_BYTES];
    found_in((0..FRAMES_PER_ROLL).map(|frame| {
        painter
            .paint(frame, &mut rgb)
            .expect("the roll has this frame");
        plane_of(&rgb, WIDTH as usize, HEIGHT as usize)
    }))
}

/// Checks fog and flashes, and returns the takes found that the log lacks.
fn beyond_the_log(roll: u8) -> Vec<u32> {
    let findings = findings_of(roll);
    let fog: Vec<(u32, u32)> = findings
        .iter()
        .filter_map(|finding| match *finding {
            Finding::Fog { from, until } => Some((from, until)),
            _ => None,
        })
        .collect();
    let logged_fog = fog_spans().iter().filter(|span| span.roll == roll);
    let logged_fog: Vec<(u32, u32)> = logged_fog
        .map(|span| (span.span_in, span.span_out))
        .collect();
    assert_eq!(fog, logged_fog, "R{roll}");

    let found = takes_from(&findings, FRAMES_PER_ROLL);
    let logged: Vec<u32> = takes()
        .iter()
        .filter(|take| take.roll == roll)
        .map(|take| take.span_in)
        .collect();
    for start in &logged {
        let take = found.iter().find(|take| take.from == *start);
        check_start(roll, *start, take, logged[0]);
    }
    let starts = found.iter().map(|take| take.from);
    starts.filter(|start| !logged.contains(start)).collect()
}

fn check_start(roll: u8, start: u32, take: Option<&TakeSpan>, first: u32) {
    let take = take.unwrap_or_else(|| panic!("no take begins at R{roll}·{start}"));
    let begins = if start == first {
        Begins::Fog
    } else {
        Begins::CameraStop
    };
    assert_eq!(take.begins, begins, "R{roll}·{start}");
    assert_eq!(take.flash_frames, 1, "R{roll}·{start}");
    assert!(
        (0.4..=1.6).contains(&take.flash_stops),
        "R{roll}·{start}: {}",
        take.flash_stops
    );
}

#[test]
fn roll_1_has_its_ten_takes_and_no_other() {
    assert_eq!(beyond_the_log(1), []);
}
