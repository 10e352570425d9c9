//! What reading one transfer tells of the changes in it.

use std::path::Path;

use onestrand_intake::Cancel;
use onestrand_production::documents::{ReadDocument, SignDocument};
use onestrand_production::{Quiet, ReadRequest, read_scan};

fn read(name: &str) -> ReadDocument {
    let file = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../tests/media/video")
        .join(name);
    let request = ReadRequest {
        files: vec![file],
        gauge: None,
        film_speed: None,
        measured: None,
        shrinkage: None,
        frames_dir: None,
        unslit: None,
    };
    read_scan(&request, &Cancel::new(), &mut Quiet).expect("read")
}

/// Frames of the shorter that both share.
fn shares_half(sign: &SignDocument, (from, until): (u32, u32)) -> bool {
    let shared = sign.thrown.min(until).saturating_sub(sign.first.max(from));
    2 * shared >= (until - from).max(sign.thrown - sign.first)
}

#[test]
fn dissolves_have_their_spans_and_takes_begin_in_them_by_a_fade() {
    let document = read("bbb_trailer.webm");
    // Two dissolves between titles and pictures, found by eye.
    for span in [(88, 111), (158, 178)] {
        let found = document
            .gradual
            .iter()
            .find(|sign| sign.kind == "dissolve" && shares_half(sign, span))
            .unwrap_or_else(|| panic!("none at {span:?}: {:?}", document.gradual));
        let middle = found.first + (found.thrown - found.first) / 2;
        let take = document.takes.iter().find(|take| take.first == middle);
        assert_eq!(take.map(|take| take.begins), Some("fade"), "{span:?}");
    }
    for pair in document.takes.windows(2) {
        assert_eq!(pair[0].thrown, pair[1].first, "takes tile the transfer");
    }
}

#[test]
fn a_flashed_start_says_how_fast_the_camera_ran() {
    // Four of its shots begin with two over-exposed frames.
    let document = read("camera_roll_b.mp4");
    let flashed: Vec<_> = document
        .takes
        .iter()
        .filter(|take| take.flash_frames == 2)
        .collect();
    assert!(flashed.len() >= 3, "{:?}", document.takes);
    for take in flashed {
        assert_eq!(take.begins, "camera_stop");
        let speed = take.start_speed.expect("it is flashed");
        let settled = 18.0 / take.flash_stops.exp2();
        assert!((speed - settled).abs() < 0.06, "{take:?}");
    }
    assert!(document.takes.iter().any(|take| take.start_speed.is_none()));
}
