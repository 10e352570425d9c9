//! Small pictures made fit for a black-and-white printer.

use std::io::Cursor;

use image::codecs::jpeg::JpegEncoder;
use image::{DynamicImage, GrayImage, ImageDecoder, ImageError, ImageReader, Limits};
use onestrand_typeset::{Job, PictureName};

use crate::SheetError;

/// The most a picture is kept at. Unit: pixels.
///
/// A picture is printed 10 mm high at most; 160 lines are then 406 to the
/// inch, more than an office printer's screen can show. A picture is kept at
/// twice as many across, for those much wider than high.
const HEIGHT_MAX: u32 = 160;
/// The largest side read at all: workprints are far smaller. Unit: pixels.
const SIDE_MAX: u32 = 16_384;
/// Memory a picture may take while it is read. Unit: bytes.
const MEMORY_MAX: u64 = 512 * 1024 * 1024;
/// JPEG quality of the printed picture, of 100.
const QUALITY: u8 = 85;
/// The share of pixels at either end that may go to pure black or pure white,
/// as one in so many: dust and scratches must not hold the range open.
const CLIP: u32 = 100;

/// A picture in the job, and its shape.
pub(crate) struct Placed {
    /// The name the form finds it under.
    pub(crate) name: PictureName,
    /// Width over height.
    pub(crate) aspect: f64,
}

/// How a picture is placed on paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Placing {
    /// The most lines it is kept at. Unit: pixels.
    pub(crate) height: u32,
    /// Seen from the other side of the film.
    pub(crate) mirrored: bool,
    /// Where its top comes to lie.
    pub(crate) top: Top,
}

/// Where the top of a picture comes to lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Top {
    /// Where it belongs.
    Up,
    /// At the left: film that runs from left to right.
    Left,
    /// At the right: film that runs from right to left.
    Right,
}

impl Placing {
    /// Upright, in a row of a form.
    pub(crate) const IN_A_ROW: Self = Self {
        height: HEIGHT_MAX,
        mirrored: false,
        top: Top::Up,
    };
    /// A photograph as large as it goes on the page: 112 mm high at 200 lines an inch.
    pub(crate) const A_PHOTOGRAPH: Self = Self {
        height: 880,
        mirrored: false,
        top: Top::Up,
    };
}

/// Reads a picture, makes it grey with its contrast raised and its size cut
/// down to what paper can show, and adds it to the job.
///
/// # Errors
/// [`SheetError::Picture`] naming the frame when it cannot be read.
pub(crate) fn place(
    job: &mut Job,
    sheet: &'static str,
    of: &str,
    bytes: &[u8],
    placing: Placing,
) -> Result<Placed, SheetError> {
    let unreadable = |source| SheetError::Picture {
        of: of.to_owned(),
        source,
    };
    let grey = turned(
        read_grey(bytes, placing.height).map_err(unreadable)?,
        placing,
    );
    let aspect = f64::from(grey.width()) / f64::from(grey.height());
    let jpeg = write(&raise_contrast(grey)).map_err(unreadable)?;
    let name = job
        .picture(jpeg)
        .map_err(|source| SheetError::Form { sheet, source })?;
    Ok(Placed { name, aspect })
}

/// The picture in grey, no larger than it will be printed.
fn read_grey(bytes: &[u8], height: u32) -> Result<GrayImage, ImageError> {
    let width = height * 2;
    let mut limits = Limits::default();
    limits.max_image_width = Some(SIDE_MAX);
    limits.max_image_height = Some(SIDE_MAX);
    limits.max_alloc = Some(MEMORY_MAX);
    let mut reader = ImageReader::new(Cursor::new(bytes)).with_guessed_format()?;
    reader.limits(limits);
    let mut decoder = reader.into_decoder()?;
    // A telephone writes down how it was held (Exif 2.3, tag Orientation) in place of
    // turning the picture.
    let held = decoder.orientation()?;
    let mut picture = DynamicImage::from_decoder(decoder)?;
    picture.apply_orientation(held);
    let grey = picture.into_luma8();
    if grey.width() <= width && grey.height() <= height {
        return Ok(grey);
    }
    // Averaging over whole pixels is all a printer can show, and quick.
    let small = DynamicImage::ImageLuma8(grey).thumbnail(width, height);
    Ok(small.into_luma8())
}

/// The picture as its film lies: first seen from the other side, then turned.
fn turned(picture: GrayImage, placing: Placing) -> GrayImage {
    let seen = match placing.mirrored {
        true => image::imageops::flip_horizontal(&picture),
        false => picture,
    };
    match placing.top {
        Top::Up => seen,
        Top::Left => image::imageops::rotate270(&seen),
        Top::Right => image::imageops::rotate90(&seen),
    }
}

/// Stretches the tones to the whole range and steepens the middle, so that
/// shapes survive a coarse printer.
fn raise_contrast(mut picture: GrayImage) -> GrayImage {
    let (black, white) = ends(&picture);
    let curve = curve(black, white);
    for pixel in picture.iter_mut() {
        *pixel = curve[usize::from(*pixel)];
    }
    picture
}

/// The tones below and above which only one pixel in [`CLIP`] lies.
fn ends(picture: &GrayImage) -> (u8, u8) {
    let mut tally = [0_u32; 256];
    for pixel in picture.iter() {
        tally[usize::from(*pixel)] += 1;
    }
    let spare = picture.width() * picture.height() / CLIP;
    (
        reach(&tally, 0..=255, spare),
        reach(&tally, (0..=255).rev(), spare),
    )
}

/// The first tone, going along `tones`, at which more than `spare` pixels are
/// passed.
fn reach(tally: &[u32; 256], tones: impl Iterator<Item = u8>, spare: u32) -> u8 {
    let mut passed = 0;
    let mut last = 0;
    for tone in tones {
        last = tone;
        passed += tally[usize::from(tone)];
        if passed > spare {
            break;
        }
    }
    last
}

/// What each tone becomes: `black` to 0, `white` to 255, between them halfway
/// from a straight line to 3t² − 2t³, the gentlest curve that is level at both
/// ends.
fn curve(black: u8, white: u8) -> [u8; 256] {
    let mut curve = [0_u8; 256];
    // A picture of one tone has no contrast to raise; it keeps its tone.
    if white <= black {
        for (tone, out) in (0..=255).zip(curve.iter_mut()) {
            *out = tone;
        }
        return curve;
    }
    let (low, range) = (f32::from(black), f32::from(white) - f32::from(black));
    for (tone, out) in (0_u8..=255).zip(curve.iter_mut()) {
        let t = ((f32::from(tone) - low) / range).clamp(0.0, 1.0);
        let steep = t * t * (3.0 - 2.0 * t);
        *out = ((t + steep) / 2.0 * 255.0).round() as u8;
    }
    curve
}

/// The picture as a grey JPEG file.
fn write(picture: &GrayImage) -> Result<Vec<u8>, ImageError> {
    let mut bytes = Vec::new();
    JpegEncoder::new_with_quality(&mut bytes, QUALITY).encode_image(picture)?;
    Ok(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;
    use image::{ImageFormat, Luma, Rgb, RgbImage};

    /// A file of the given kind with a sideways ramp of tones from 80 to 160.
    fn ramp(width: u32, height: u32, format: ImageFormat) -> Vec<u8> {
        let picture = RgbImage::from_fn(width, height, |x, _| {
            let tone = u8::try_from(80 + 80 * x / width).expect("at most 160");
            Rgb([tone, tone, tone])
        });
        let mut file = Cursor::new(Vec::new());
        picture.write_to(&mut file, format).expect("memory");
        file.into_inner()
    }

    #[test]
    fn a_large_colour_picture_becomes_small_and_grey() {
        for format in [ImageFormat::Jpeg, ImageFormat::Png] {
            let mut job = Job::new("a.typ", "");
            let placed = place(
                &mut job,
                "form",
                "R1·1",
                &ramp(640, 480, format),
                Placing::IN_A_ROW,
            )
            .expect("sound");
            assert!((placed.aspect - 4.0 / 3.0).abs() < 0.01);
            let grey = read_grey(&ramp(640, 480, format), HEIGHT_MAX).expect("sound");
            assert_eq!((grey.width(), grey.height()), (213, 160));
        }
    }

    /// A JPEG that says in its Exif part that it was taken with the camera on its side:
    /// Orientation (0x0112) is 6, a quarter turn to the right to be looked at (Exif 2.3,
    /// 4.6.4 A; the bytes set by hand).
    #[test]
    fn a_photograph_taken_on_its_side_is_put_upright() {
        let file = ramp(64, 48, ImageFormat::Jpeg);
        let mut exif = b"Exif\0\0MM\0\x2a\0\0\0\x08\0\x01".to_vec();
        exif.extend(b"\x01\x12\0\x03\0\0\0\x01\0\x06\0\0\0\0\0\0");
        let length = u16::try_from(exif.len() + 2).expect("short");
        let mut held = file[..2].to_vec();
        held.extend([0xff, 0xe1]);
        held.extend(length.to_be_bytes());
        held.extend(&exif);
        held.extend(&file[2..]);
        let plain = read_grey(&file, HEIGHT_MAX).expect("sound");
        let upright = read_grey(&held, HEIGHT_MAX).expect("sound");
        assert_eq!((plain.width(), plain.height()), (64, 48));
        assert_eq!((upright.width(), upright.height()), (48, 64));
        // What was dark at the left is dark at the top.
        assert!(upright.get_pixel(24, 2).0[0] < upright.get_pixel(24, 61).0[0]);
        assert!(upright.get_pixel(2, 30).0[0].abs_diff(upright.get_pixel(45, 30).0[0]) < 4);
    }

    #[test]
    fn a_flat_ramp_is_stretched_to_black_and_white_without_a_step_back() {
        let grey = read_grey(&ramp(200, 10, ImageFormat::Png), HEIGHT_MAX).expect("sound");
        let raised = raise_contrast(grey);
        let row: Vec<u8> = (0..200).map(|x| raised.get_pixel(x, 5).0[0]).collect();
        assert_eq!((row[0], row[199]), (0, 255));
        assert!(row.windows(2).all(|pair| pair[0] <= pair[1]), "{row:?}");
    }

    #[test]
    fn film_that_runs_to_the_right_has_the_tops_of_its_pictures_at_the_left() {
        // The top left corner is black.
        let picture = GrayImage::from_fn(4, 3, |x, y| Luma([if x + y == 0 { 0 } else { 255 }]));
        let corner = |mirrored, top| {
            let placing = Placing {
                height: 3,
                mirrored,
                top,
            };
            let turned = turned(picture.clone(), placing);
            let black = turned.enumerate_pixels().find(|(_, _, p)| p.0[0] == 0);
            let (x, y, _) = black.expect("it is somewhere");
            (x > 0, y > 0)
        };
        assert_eq!(corner(false, Top::Up), (false, false));
        assert_eq!(corner(true, Top::Up), (true, false));
        // Heads to the left: what was above is left, what was left is below.
        assert_eq!(corner(false, Top::Left), (false, true));
        assert_eq!(corner(true, Top::Left), (false, false));
        assert_eq!(corner(false, Top::Right), (true, false));
        assert_eq!(corner(true, Top::Right), (true, true));
    }

    #[test]
    fn a_picture_of_one_tone_keeps_it() {
        for tone in [0, 77, 255] {
            let raised = raise_contrast(GrayImage::from_pixel(8, 8, Luma([tone])));
            assert!(raised.iter().all(|pixel| *pixel == tone));
        }
    }

    #[test]
    fn a_speck_does_not_hold_the_range_open() {
        let mut picture =
            GrayImage::from_fn(100, 100, |x, _| Luma([if x < 50 { 100 } else { 150 }]));
        picture.put_pixel(3, 3, Luma([255]));
        let raised = raise_contrast(picture);
        assert_eq!(raised.get_pixel(10, 10).0[0], 0);
        assert_eq!(raised.get_pixel(90, 90).0[0], 255);
    }

    #[test]
    fn what_is_no_picture_is_refused_by_the_name_of_its_frame() {
        let mut job = Job::new("a.typ", "");
        let refused = place(
            &mut job,
            "form",
            "R2·547",
            b"not a picture",
            Placing::IN_A_ROW,
        )
        .err()
        .expect("refused");
        assert_eq!(refused.code(), "sheets.picture");
        assert!(refused.to_string().contains("R2·547"), "{refused}");
        let cut = &ramp(64, 48, ImageFormat::Png)[..60];
        assert!(place(&mut job, "form", "R2·547", cut, Placing::IN_A_ROW).is_err());
    }
}
