//! A user's picture made to fit the card.

use std::io::Cursor;

use image::imageops::FilterType;
use image::{DynamicImage, ImageDecoder, ImageReader, Limits, imageops};

use crate::LetteringError;

/// Most pixels across or down of a picture that is brought: more than any scanner
/// or camera gives, and less than a file made to burst would say.
const MOST_PIXELS: u32 = 20_000;
/// Most memory that opening one may take. Unit: bytes. A picture of 100 million
/// pixels in three bytes needs 300 million.
const MOST_BYTES: u64 = 512 << 20;
/// Two shapes are the same when less than this part would be cut away.
const SAME_SHAPE: f64 = 0.01;

/// How a picture was made to fill the card.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fitted {
    /// Width and height of the picture as it came, upright. Unit: pixels.
    pub was: (u32, u32),
    /// What was cut from its width, both sides together. Range: 0 to 1.
    pub cut_across: f64,
    /// What was cut from its height, top and bottom together. Range: 0 to 1.
    pub cut_down: f64,
    /// How many times it was enlarged; below 1 it was made smaller.
    pub enlarged: f64,
}

impl Fitted {
    /// Whether the picture had another shape than the card, so that something
    /// worth telling was cut away.
    #[must_use]
    pub fn is_another_shape(&self) -> bool {
        self.cut_across.max(self.cut_down) >= SAME_SHAPE
    }
}

/// A picture (PNG or JPEG) as the ground of a card: turned upright as the file
/// says, cut to the card's shape about its middle, and made `size` large. Gives
/// 8-bit sRGB, three bytes a pixel, rows from the top; clear parts become black.
///
/// # Errors
/// [`LetteringError::CorruptPicture`] when it cannot be decoded,
/// [`LetteringError::PictureTooLarge`] when it is larger than a picture may be,
/// [`LetteringError::OutOfRange`] for a size that no card has.
pub fn ground_of(bytes: &[u8], size: (u32, u32)) -> Result<(Vec<u8>, Fitted), LetteringError> {
    crate::measures::picture_size(size)?;
    let picture = decoded(bytes)?;
    let (width, height) = (picture.width(), picture.height());
    if width == 0 || height == 0 {
        return Err(LetteringError::CorruptPicture {
            why: "it has no pixels".into(),
        });
    }
    let scale = (f64::from(size.0) / f64::from(width)).max(f64::from(size.1) / f64::from(height));
    let kept =
        |whole: u32, wanted: u32| ((f64::from(wanted) / scale).round() as u32).clamp(1, whole);
    let (across, down) = (kept(width, size.0), kept(height, size.1));
    let cut = imageops::crop_imm(
        &picture,
        (width - across) / 2,
        (height - down) / 2,
        across,
        down,
    )
    .to_image();
    let filled = imageops::resize(&cut, size.0, size.1, FilterType::Triangle);
    let fitted = Fitted {
        was: (width, height),
        cut_across: 1.0 - f64::from(across) / f64::from(width),
        cut_down: 1.0 - f64::from(down) / f64::from(height),
        enlarged: scale,
    };
    Ok((filled.into_raw(), fitted))
}

/// The picture upright, with what is clear made black.
fn decoded(bytes: &[u8]) -> Result<image::RgbImage, LetteringError> {
    let mut limits = Limits::default();
    limits.max_image_width = Some(MOST_PIXELS);
    limits.max_image_height = Some(MOST_PIXELS);
    limits.max_alloc = Some(MOST_BYTES);
    let mut reader = ImageReader::new(Cursor::new(bytes))
        .with_guessed_format()
        .map_err(|error| corrupt(&error))?;
    reader.limits(limits);
    let mut decoder = reader.into_decoder().map_err(of_decoder)?;
    if decoder.total_bytes() > MOST_BYTES {
        return Err(too_large());
    }
    let turned = decoder
        .orientation()
        .unwrap_or(image::metadata::Orientation::NoTransforms);
    let mut picture = DynamicImage::from_decoder(decoder).map_err(of_decoder)?;
    picture.apply_orientation(turned);
    if !picture.color().has_alpha() {
        return Ok(picture.into_rgb8());
    }
    let mut out = image::RgbImage::new(picture.width(), picture.height());
    for (to, from) in out.pixels_mut().zip(picture.into_rgba8().pixels()) {
        let [red, green, blue, alpha] = from.0;
        to.0 = [red, green, blue].map(|level| (u16::from(level) * u16::from(alpha) / 255) as u8);
    }
    Ok(out)
}

fn of_decoder(error: image::ImageError) -> LetteringError {
    match error {
        image::ImageError::Limits(_) => too_large(),
        other => corrupt(&other),
    }
}

fn corrupt(error: &dyn std::error::Error) -> LetteringError {
    LetteringError::CorruptPicture {
        why: error.to_string(),
    }
}

fn too_large() -> LetteringError {
    LetteringError::PictureTooLarge {
        most: MOST_PIXELS,
        megabytes: MOST_BYTES >> 20,
    }
}
