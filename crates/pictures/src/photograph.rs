//! A photograph as it was handed in, turned upright, in grey.

use std::io::Cursor;

use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, ImageError, ImageReader, Limits};

use crate::PictureError;

/// The largest side that is looked at. Unit: pixels.
const LARGEST: u32 = 20_000;
/// Memory a photograph may take while it is read. Unit: bytes.
const MEMORY: u64 = 1 << 30;

/// A photograph in grey. Unit of its sides: pixels.
#[derive(Debug, Clone)]
pub struct Photograph {
    /// Its width.
    pub width: usize,
    /// Its height.
    pub height: usize,
    /// The brightness of each pixel, line by line.
    pub levels: Vec<u8>,
}

/// Reads a photograph, JPEG or PNG, and turns it as its camera says it was held.
///
/// # Errors
/// [`PictureError::Unreadable`] for anything else, and for one that is too large.
pub fn upright_grey(bytes: &[u8]) -> Result<Photograph, PictureError> {
    let unreadable = |source: ImageError| PictureError::Unreadable { source };
    let mut reader = ImageReader::new(Cursor::new(bytes))
        .with_guessed_format()
        .map_err(|problem| unreadable(problem.into()))?;
    let mut limits = Limits::default();
    limits.max_image_width = Some(LARGEST);
    limits.max_image_height = Some(LARGEST);
    limits.max_alloc = Some(MEMORY);
    reader.limits(limits);
    let mut decoder = reader.into_decoder().map_err(unreadable)?;
    let turn = decoder.orientation().unwrap_or(Orientation::NoTransforms);
    let mut picture = DynamicImage::from_decoder(decoder).map_err(unreadable)?;
    picture.apply_orientation(turn);
    let grey = picture.into_luma8();
    Ok(Photograph {
        width: grey.width() as usize,
        height: grey.height() as usize,
        levels: grey.into_raw(),
    })
}
