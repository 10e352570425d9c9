//! Files of real coding: repeats found, blends followed, and one-to-one scans
//! left alone.

use onestrand_cadence::Transfer as Kind;
use onestrand_telecine::{Coding, Look, Projection, Roll, Scene, Transfer};

use super::coded::{
    EXAMPLE, H264_18, H264_28, MJPEG, ONCE_IN_25, PRORES, planes, write, write_rgb,
};
use super::score::{Outcome, find_in, settings};

const SIZE: (usize, usize) = (320, 240);

fn roll(seed: u64) -> Roll {
    let look = Look {
        grain: 4.0,
        ..Look::FAIR
    };
    let scenes = [
        (Scene::Clear, 20),
        (Scene::Walk, 100),
        (Scene::Title, 50),
        (Scene::Pan(0.008), 80),
        (Scene::Black, 30),
        (Scene::Still, 50),
        (Scene::Walk, 70),
    ];
    Roll::new(SIZE, look, seed, &scenes)
}

fn through(coding: &str, transfer: &Transfer, seed: u64) -> Outcome {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("transfer.mov");
    let roll = roll(seed);
    let still = Coding { noise: 0.0 };
    let frames = Projection::new(&roll, transfer, still).map(|frame| frame.levels);
    write(&path, frames, SIZE, transfer.file, coding);
    let truth = transfer.truth(roll.frames());
    find_in(planes(&path).into_iter(), truth, settings(transfer.file))
}

#[test]
fn a_scan_of_one_frame_each_is_never_thinned_whatever_the_coding() {
    // Titles, clear and black film included; coding repeats them exactly.
    for (seed, coding) in (60..).zip([H264_18, H264_28, PRORES, MJPEG, ONCE_IN_25]) {
        let outcome = through(coding, &Transfer::clean((24, 1), (24, 1)), seed);
        assert_eq!(outcome.found.transfer, Kind::OneToOne, "{coding}");
        assert_eq!(
            outcome.frames.len(),
            400,
            "{coding}: {:?}",
            outcome.found.faults
        );
        assert!(
            outcome.found.faults.is_empty(),
            "{coding}: {:?}",
            outcome.found.faults
        );
    }
}

#[test]
fn coarse_grain_that_coding_smooths_every_other_frame_is_no_repeat() {
    // The example's scan as it is coded: between two frames that stand by
    // themselves three are coded coarsely, and their grain is less, in a rhythm of
    // four. Read as repeats, the roll had a quarter of its frames.
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("scan.mkv");
    let painter = onestrand_example::RollPainter::new(1).expect("roll 1 is drawn");
    let frames = (390..990).map(|frame| {
        let mut rgb = vec![0; onestrand_example::FRAME_BYTES];
        painter.paint(frame, &mut rgb).expect("a frame of the roll");
        rgb
    });
    write_rgb(&path, frames, (640, 480), (18, 1), EXAMPLE);
    let outcome = find_in(planes(&path).into_iter(), Vec::new(), settings((18, 1)));
    assert_eq!(outcome.found.transfer, Kind::OneToOne);
    assert_eq!(outcome.frames.len(), 600, "{:?}", outcome.found.faults);
}

#[test]
fn repeats_are_found_through_every_coding() {
    for (seed, (coding, film, file)) in (70..).zip([
        (H264_18, (18, 1), (25, 1)),
        (H264_28, (18, 1), (25, 1)),
        (H264_28, (24, 1), (25, 1)),
        (H264_28, (16, 1), (30_000, 1001)),
        (PRORES, (50, 3), (25, 1)),
        (MJPEG, (20, 1), (24, 1)),
    ]) {
        let outcome = through(coding, &Transfer::clean(film, file), seed);
        let what = format!(
            "{coding} {film:?} into {file:?}: {:?}",
            outcome.found.faults
        );
        assert_eq!(outcome.frames.len(), 400, "{what}");
        assert_eq!(outcome.misplaced(), Vec::<u32>::new(), "{what}");
        assert_eq!(outcome.found.transfer, Kind::Repeated, "{what}");
    }
}

#[test]
fn blends_are_followed_through_every_coding() {
    for (seed, (coding, film, file, exposure)) in (80..).zip([
        (H264_18, (18, 1), (25, 1), 1.0),
        (H264_28, (441, 25), (30_000, 1001), 1.0),
        (PRORES, (20, 1), (24, 1), 0.5),
        (MJPEG, (16, 1), (25, 1), 0.8),
    ]) {
        let transfer = Transfer::clean(film, file)
            .exposed(exposure)
            .drifting(0.01, 1200.0);
        let outcome = through(coding, &transfer, seed);
        let what = format!(
            "{coding} {film:?} into {file:?}: {:?}",
            outcome.found.faults
        );
        assert!(
            outcome.frames.len().abs_diff(400) <= 1,
            "{what}: {}",
            outcome.frames.len()
        );
        assert!(
            outcome.misplaced().len() <= 2,
            "{what}: {:?}",
            outcome.misplaced()
        );
        assert_eq!(outcome.found.transfer, Kind::Blended, "{what}");
    }
}
