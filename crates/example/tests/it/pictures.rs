//! The pictures themselves: the same every time, numbered, different at breaks.

use onestrand_example::edge_code::{MAX_FRAME, read_edge_code, read_edge_code_rgb};
use onestrand_example::{
    ExampleError, FRAME_BYTES, FRAMES_PER_ROLL, HEIGHT, RollPainter, WIDTH, fog_spans,
    numbered_picture, takes,
};
use proptest::prelude::*;

const STRIDE: usize = WIDTH as usize * 3;

fn painted(painter: &RollPainter, frame: u32) -> Vec<u8> {
    let mut out = vec![0; FRAME_BYTES];
    painter.paint(frame, &mut out).expect("the frame exists");
    out
}

/// Luma as BT.601 weighs it, near enough to compare pictures.
fn luma(rgb: &[u8]) -> Vec<u8> {
    rgb.chunks_exact(3)
        .map(|p| ((u32::from(p[0]) * 77 + u32::from(p[1]) * 150 + u32::from(p[2]) * 29) >> 8) as u8)
        .collect()
}

/// Mean difference of two pictures seen small, so that grain is nothing.
fn difference(a: &[u8], b: &[u8]) -> f32 {
    let small = |rgb: &[u8]| -> Vec<f32> {
        let plane = luma(rgb);
        let mut cells = vec![0.0_f32; 40 * 30];
        for (index, value) in plane.iter().enumerate() {
            let (x, y) = (index % WIDTH as usize, index / WIDTH as usize);
            cells[y / 16 * 40 + x / 16] += f32::from(*value) / 256.0;
        }
        // Lamp and shutter flicker; what is compared is the picture.
        let mean = cells.iter().sum::<f32>() / cells.len() as f32;
        cells.iter().map(|cell| cell / mean * 128.0).collect()
    };
    let (a, b) = (small(a), small(b));
    a.iter().zip(&b).map(|(a, b)| (a - b).abs()).sum::<f32>() / a.len() as f32
}

#[test]
fn a_frame_is_the_same_whoever_paints_it_and_when() {
    let here = RollPainter::new(2).expect("roll 2");
    let frames = [5, 18, 531, 1900, 2441, 2833, 3590];
    let forth: Vec<Vec<u8>> = frames.iter().map(|f| painted(&here, *f)).collect();
    let there = std::thread::spawn(move || {
        let painter = RollPainter::new(2).expect("roll 2");
        frames
            .iter()
            .rev()
            .map(|f| painted(&painter, *f))
            .collect::<Vec<_>>()
    })
    .join()
    .expect("the other painter finished");
    for (index, frame) in frames.iter().enumerate() {
        assert!(
            forth[index] == there[frames.len() - 1 - index],
            "R2·{frame}"
        );
    }
}

#[test]
fn numbers_are_read_from_takes_flashes_and_fog() {
    for roll in 1..=3 {
        let painter = RollPainter::new(roll).expect("rolls 1 to 3");
        let fog = fog_spans().iter().filter(|f| f.roll == roll);
        let begun = takes().iter().filter(|t| t.roll == roll);
        let frames: Vec<u32> = fog
            .flat_map(|f| (f.span_in..f.span_out).step_by(3))
            .chain(begun.flat_map(|t| [t.span_in, t.span_in + 1, t.span_out - 1]))
            .chain((0..FRAMES_PER_ROLL).step_by(311))
            .chain([0, FRAMES_PER_ROLL - 1])
            .collect();
        for frame in frames {
            let rgb = painted(&painter, frame);
            let read = read_edge_code_rgb(&rgb, WIDTH, HEIGHT, STRIDE);
            assert_eq!(read, Some((roll, frame)));
            let read = read_edge_code(&luma(&rgb), WIDTH, HEIGHT, WIDTH as usize);
            assert_eq!(read, Some((roll, frame)), "from luma");
        }
    }
}

#[test]
fn a_break_is_a_change_of_picture() {
    for roll in 1..=3 {
        let painter = RollPainter::new(roll).expect("rolls 1 to 3");
        for take in takes().iter().filter(|t| t.roll == roll) {
            let at = take.span_in;
            // Looked at clear of the flash: the frame before, the fourth after.
            let across = difference(&painted(&painter, at - 1), &painted(&painter, at + 3));
            let within = difference(&painted(&painter, at + 3), &painted(&painter, at + 7));
            assert!(
                across > 1.3 * within,
                "R{roll}·{at}: {across} across, {within} within"
            );
        }
    }
}

#[test]
fn the_first_frame_of_a_take_is_over_exposed() {
    let painter = RollPainter::new(1).expect("roll 1");
    let mean = |frame| {
        let plane = luma(&painted(&painter, frame));
        plane.iter().map(|v| f64::from(*v)).sum::<f64>() / plane.len() as f64
    };
    for take in takes().iter().filter(|t| t.roll == 1) {
        let (first, later) = (mean(take.span_in), mean(take.span_in + 4));
        assert!(first > later * 1.08, "{}: {first} {later}", take.name());
    }
}

#[test]
fn what_cannot_be_painted_is_refused_with_the_reason() {
    let painter = RollPainter::new(1).expect("roll 1");
    let mut room = vec![0; FRAME_BYTES];
    let beyond = painter
        .paint(3600, &mut room)
        .expect_err("there is no frame 3600");
    assert_eq!(
        beyond,
        ExampleError::NoSuchFrame {
            roll: 1,
            asked: 3600,
            last: 3599
        }
    );
    assert_eq!(beyond.code(), "example.no_such_frame");
    let narrow = painter
        .paint(0, &mut room[1..])
        .expect_err("one byte short");
    assert_eq!(narrow.code(), "example.wrong_room");
    assert!(RollPainter::new(0).is_err());
}

#[test]
fn test_pictures_move_and_carry_their_number() {
    let (w, h) = (320, 240);
    let mut one = vec![0; w * h * 3];
    let mut two = one.clone();
    for frame in [0, 1, 35, 3599, MAX_FRAME - 1] {
        numbered_picture(320, 240, 7, frame, &mut one).expect("a size that will do");
        numbered_picture(320, 240, 7, frame + 1, &mut two).expect("a size that will do");
        assert!(one != two);
        assert_eq!(read_edge_code_rgb(&one, 320, 240, w * 3), Some((7, frame)));
    }
    assert!(numbered_picture(318, 240, 1, 0, &mut one).is_err());
    assert!(numbered_picture(321, 240, 1, 0, &mut one).is_err());
    assert!(numbered_picture(320, 240, 1, 0, &mut one[1..]).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    #[test]
    fn test_pictures_of_any_size_are_read(
        half_w in 160_u32..400,
        half_h in 120_u32..300,
        roll in 0_u8..16,
        frame in 0..=MAX_FRAME,
    ) {
        let (w, h) = (half_w * 2, half_h * 2);
        let mut rgb = vec![0; (w * h * 3) as usize];
        numbered_picture(w, h, roll, frame, &mut rgb).expect("a size that will do");
        prop_assert_eq!(read_edge_code_rgb(&rgb, w, h, w as usize * 3), Some((roll, frame)));
    }
}
