//! Pictures that users bring.

use std::io::Cursor;

use image::{ImageFormat, Rgb, RgbImage};
use onestrand_lettering::{LetteringError, ground_of};

const SIZE: (u32, u32) = (400, 300);

fn encoded(width: u32, height: u32, format: ImageFormat) -> Vec<u8> {
    // Red at the left, blue at the right, green in the middle.
    let picture = RgbImage::from_fn(width, height, |x, _| match x * 10 / width {
        0..=1 => Rgb([200, 0, 0]),
        8..=9 => Rgb([0, 0, 200]),
        _ => Rgb([0, 200, 0]),
    });
    let mut bytes = Cursor::new(Vec::new());
    picture.write_to(&mut bytes, format).expect("encoded");
    bytes.into_inner()
}

#[test]
fn a_picture_of_the_same_shape_is_taken_whole() {
    let (ground, fitted) = ground_of(&encoded(800, 600, ImageFormat::Png), SIZE).expect("it fits");
    assert!(!fitted.is_another_shape());
    assert_eq!((fitted.was, ground.len()), ((800, 600), 400 * 300 * 3));
    assert_eq!(&ground[..3], [200, 0, 0]);
    assert!((fitted.enlarged - 0.5).abs() < 1e-9);
}

#[test]
fn a_wider_picture_loses_its_sides_evenly_and_says_how_much() {
    for format in [ImageFormat::Png, ImageFormat::Jpeg] {
        let (ground, fitted) = ground_of(&encoded(1600, 600, format), SIZE).expect("it fits");
        assert!(fitted.is_another_shape());
        assert!((fitted.cut_across - 0.5).abs() < 1e-9 && fitted.cut_down.abs() < 1e-9);
        // Only the green middle is left.
        let green = |at: usize| ground[at + 1] > 180 && ground[at] < 20 && ground[at + 2] < 20;
        assert!(green(0) && green(399 * 3));
    }
}

#[test]
fn what_is_no_picture_is_refused() {
    let whole = encoded(80, 60, ImageFormat::Png);
    for bytes in [
        &b""[..],
        b"GIF89a",
        b"no picture at all",
        &whole[..whole.len() / 2],
    ] {
        let refused = ground_of(bytes, SIZE).expect_err("it is none");
        assert!(
            matches!(refused, LetteringError::CorruptPicture { .. }),
            "{refused}"
        );
        assert!(refused.hint().contains("PNG or JPEG"));
    }
}

#[test]
fn a_file_that_would_burst_is_refused_before_it_is_opened() {
    // Only the head of the file is altered: 60,000 pixels a side, and its sum made anew.
    let mut bytes = encoded(80, 60, ImageFormat::Png);
    bytes[16..24].copy_from_slice(&[0, 0, 0xea, 0x60, 0, 0, 0xea, 0x60]);
    let sum = crc(&bytes[12..29]);
    bytes[29..33].copy_from_slice(&sum.to_be_bytes());
    let refused = ground_of(&bytes, SIZE).expect_err("too large");
    assert!(
        matches!(refused, LetteringError::PictureTooLarge { .. }),
        "{refused}"
    );
}

/// The sum of a PNG's part (ISO/IEC 15948, annex D), bit by bit.
fn crc(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(u32::MAX, |sum, byte| {
        (0..8).fold(sum ^ u32::from(*byte), |sum, _| {
            (sum >> 1) ^ if sum & 1 == 1 { 0xedb8_8320 } else { 0 }
        })
    })
}

#[test]
fn no_card_is_as_small_or_large_as_that() {
    let picture = encoded(80, 60, ImageFormat::Png);
    for size in [(0, 300), (400, 9000)] {
        let refused = ground_of(&picture, size).expect_err("no card");
        assert!(matches!(refused, LetteringError::OutOfRange { .. }));
    }
}
