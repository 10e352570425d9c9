//! Small pictures, each asked who it is and laid beside the whole picture.

use image::RgbImage;
use image::imageops::thumbnail;
use onestrand_example::edge_code::read_edge_code_rgb;
use onestrand_production::{CONTACT_STRIP_MAX, ContactStrip, contact_strip, small_picture};

use crate::numbered::{HEIGHT, WIDTH, jpegs, workprint};

fn read(jpeg: &[u8]) -> RgbImage {
    image::load_from_memory_with_format(jpeg, image::ImageFormat::Jpeg)
        .expect("a picture")
        .into_rgb8()
}

/// Mean difference of two pictures of one size. Unit: grey levels.
fn difference(a: &RgbImage, b: &RgbImage) -> f64 {
    assert_eq!(a.dimensions(), b.dimensions());
    let sum: u64 = a
        .iter()
        .zip(b.iter())
        .map(|(a, b)| u64::from(a.abs_diff(*b)))
        .sum();
    sum as f64 / a.len() as f64
}

fn number(picture: &RgbImage) -> Option<(u8, u32)> {
    let (width, height) = picture.dimensions();
    read_edge_code_rgb(picture, width, height, width as usize * 3)
}

#[test]
fn a_small_picture_is_the_whole_one_scaled() {
    let pictures = jpegs(2, 20);
    for (eighths, frame) in [(1, 0), (2, 7), (4, 19)] {
        let (width, height) = (WIDTH * eighths / 8, HEIGHT * eighths / 8);
        let at_least = (
            u16::try_from(width).expect("small"),
            u16::try_from(height).expect("small"),
        );
        let small = read(&small_picture(&pictures[frame], at_least).expect("made"));
        let averaged = |n: usize| thumbnail(&read(&pictures[n]), width, height);
        let same = difference(&small, &averaged(frame));
        let other = difference(&small, &averaged((frame + 5) % 20));
        assert!(same < 3.0, "{eighths} eighths: {same} levels off");
        assert!(other > 2.0 * same, "{eighths} eighths: {other} to {same}");
    }
}

#[test]
fn the_smallest_that_is_large_enough_is_taken() {
    let whole = jpegs(1, 1).remove(0);
    for (at_least, size) in [
        ((1, 1), (120, 90)),
        ((120, 90), (120, 90)),
        ((121, 90), (240, 180)),
        ((120, 91), (240, 180)),
        ((0, 181), (480, 360)),
    ] {
        let small = small_picture(&whole, at_least).expect("made");
        assert_eq!(read(&small).dimensions(), size, "{at_least:?}");
        assert!(small.len() < whole.len());
    }
    // Nothing is to be gained by coding the picture itself again.
    assert_eq!(small_picture(&whole, (481, 1)).expect("made"), whole);
    assert_eq!(
        small_picture(&whole, (u16::MAX, u16::MAX)).expect("made"),
        whole
    );
}

#[test]
fn what_is_no_picture_is_told() {
    let whole = jpegs(1, 1).remove(0);
    for broken in [&b""[..], b"GIF89a", &whole[..whole.len() / 50]] {
        let problem = small_picture(broken, (100, 100)).expect_err("no picture");
        assert_eq!(problem.code(), "production.picture");
        assert!(!problem.hint().is_empty());
    }
}

fn cell(strip: &ContactStrip, sheet: &RgbImage, nth: u32) -> RgbImage {
    let (x, y) = strip.place(nth);
    image::imageops::crop_imm(sheet, x, y, strip.picture.0, strip.picture.1).to_image()
}

#[test]
fn a_contact_strip_shows_each_frame_in_its_cell() {
    let dir = tempfile::tempdir().expect("a folder");
    let pictures = jpegs(3, 40);
    let mut prints = workprint(dir.path(), &pictures, &[11]);
    // Runs, single frames, one twice, one without a picture, one beyond the roll.
    let mut frames: Vec<u32> = (5..30).collect();
    frames.extend([2, 39, 40, 2, 11]);
    let strip = contact_strip(&mut prints, "R1", &frames, (240, 100)).expect("made");
    assert_eq!((strip.picture, strip.cell), ((240, 180), (240, 184)));
    assert_eq!((strip.columns, strip.rows), (2, 24));
    let sheet = read(&strip.jpeg);
    assert_eq!(sheet.dimensions(), (480, 24 * 184));
    for (nth, frame) in (0..).zip(&frames) {
        let picture = cell(&strip, &sheet, nth);
        if [11, 40].contains(frame) {
            assert!(
                picture.iter().all(|v| v.abs_diff(128) <= 1),
                "frame {frame}"
            );
            continue;
        }
        assert_eq!(number(&picture), Some((3, *frame)), "cell {nth}");
        let alone = read(&small_picture(&pictures[*frame as usize], (240, 100)).expect("made"));
        // Coded with the same tables; only the last squares of a cell differ.
        assert!(difference(&picture, &alone) < 0.5, "frame {frame}");
    }
    // The cells that are left are flat too.
    assert!(
        cell(&strip, &sheet, 47)
            .iter()
            .all(|v| v.abs_diff(128) <= 1)
    );
}

#[test]
fn no_picture_shows_a_trace_of_its_neighbour() {
    let dir = tempfile::tempdir().expect("a folder");
    let pictures = jpegs(1, 3);
    let mut prints = workprint(dir.path(), &pictures, &[1]);
    // 90 lines are no whole number of squares: the second cell is grey.
    let strip = contact_strip(&mut prints, "R1", &[0, 1, 2], (120, 90)).expect("made");
    assert_eq!((strip.picture, strip.cell), ((120, 90), (120, 96)));
    let sheet = read(&strip.jpeg);
    assert!(cell(&strip, &sheet, 1).iter().all(|v| v.abs_diff(128) <= 1));
    let last_line = |picture: &RgbImage| {
        picture
            .rows()
            .next_back()
            .expect("a line")
            .copied()
            .collect::<Vec<_>>()
    };
    let alone = read(&small_picture(&pictures[0], (120, 90)).expect("made"));
    for (a, b) in last_line(&cell(&strip, &sheet, 0))
        .iter()
        .zip(last_line(&alone))
    {
        assert!(
            a.0.iter().zip(b.0).all(|(a, b)| a.abs_diff(b) < 12),
            "{a:?} {b:?}"
        );
    }
}

#[test]
fn a_roll_without_a_workprint_is_all_grey_and_too_many_frames_are_refused() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut prints = workprint(dir.path(), &[], &[]);
    let strip = contact_strip(&mut prints, "R9", &[0, 1], (100, 75)).expect("made");
    assert_eq!((strip.picture, strip.cell), ((100, 75), (104, 80)));
    assert!(read(&strip.jpeg).iter().all(|v| *v == 128));
    // No film has such a frame.
    let far = contact_strip(&mut prints, "R1", &[u32::MAX - 1, u32::MAX], (8, 8));
    assert_eq!(far.expect_err("refused").code(), "film.out_of_range");
    for count in [0, CONTACT_STRIP_MAX + 1] {
        let refused = contact_strip(&mut prints, "R1", &vec![0; count], (100, 75));
        assert_eq!(refused.expect_err("refused").code(), "production.unfit");
    }
}
