//! Small pictures made fit for a black-and-white printer.

use std::io::Cursor;

use image::codecs::jpeg::JpegEncoder;
use image::{DynamicImage, GrayImage, ImageError, ImageReader, Limits};
use onestrand_typeset::{Job, PictureName};

use crate::SheetError;

/// The most a picture is kept at. Unit: pixels.
///
/// A picture is printed 10 mm high at most; 160 lines are then 406 to the
/// inch, more than an office printer's screen can show.
const HEIGHT_MAX: u32 = 160;
/// The same across, for pictures much wider than high. Unit: pixels.
const WIDTH_MAX: u32 = 320;
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
) -> Result<Placed, SheetError> {
    let unreadable = |source| SheetError::Picture {
        of: of.to_owned(),
        source,
    };
    let grey = read_grey(bytes).map_err(unreadable)?;
    let aspect = f64::from(grey.width()) / f64::from(grey.height());
    let jpeg = write(&raise_contrast(grey)).map_err(unreadable)?;
    let name = job
        .picture(jpeg)
        .map_err(|source| SheetError::Form { sheet, source })?;
    Ok(Placed { name, aspect })
}

/// The picture in grey, no larger than it will be printed.
fn read_grey(bytes: &[u8]) -> Result<GrayImage, ImageError> {
    let mut limits = Limits::default();
    limits.max_image_width = Some(SIDE_MAX);
    limits.max_image_height = Some(SIDE_MAX);
    limits.max_alloc = Some(MEMORY_MAX);
    let mut reader = ImageReader::new(Cursor::new(bytes)).with_guessed_format()?;
    reader.limits(limits);
    let grey = reader.decode()?.into_luma8();
    if grey.width() <= WIDTH_MAX && grey.height() <= HEIGHT_MAX {
        return Ok(grey);
    }
    // Averaging over whole pixels is all a printer can show, and quick.
    let small = DynamicImage::ImageLuma8(grey).thumbnail(WIDTH_MAX, HEIGHT_MAX);
    Ok(small.into_luma8())
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
            let placed = place(&mut job, "form", "R1·1", &ramp(640, 480, format)).expect("sound");
            assert!((placed.aspect - 4.0 / 3.0).abs() < 0.01);
            let grey = read_grey(&ramp(640, 480, format)).expect("sound");
            assert_eq!((grey.width(), grey.height()), (213, 160));
        }
    }

    #[test]
    fn a_flat_ramp_is_stretched_to_black_and_white_without_a_step_back() {
        let grey = read_grey(&ramp(200, 10, ImageFormat::Png)).expect("sound");
        let raised = raise_contrast(grey);
        let row: Vec<u8> = (0..200).map(|x| raised.get_pixel(x, 5).0[0]).collect();
        assert_eq!((row[0], row[199]), (0, 255));
        assert!(row.windows(2).all(|pair| pair[0] <= pair[1]), "{row:?}");
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
        let refused = place(&mut job, "form", "R2·547", b"not a picture")
            .err()
            .expect("refused");
        assert_eq!(refused.code(), "sheets.picture");
        assert!(refused.to_string().contains("R2·547"), "{refused}");
        let cut = &ramp(64, 48, ImageFormat::Png)[..60];
        assert!(place(&mut job, "form", "R2·547", cut).is_err());
    }
}
