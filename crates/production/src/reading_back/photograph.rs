//! A photograph as it was handed in, turned upright, in grey.

use std::io::Cursor;

use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, ImageReader, Limits};

use crate::ProductionError;
use crate::error::unfit;

/// The largest side that is looked at. Unit: pixels.
const LARGEST: u32 = 20_000;
/// Memory a photograph may take while it is read. Unit: bytes.
const MEMORY: u64 = 1 << 30;

/// A photograph in grey.
pub(super) struct Photograph {
    pub(super) width: usize,
    pub(super) height: usize,
    pub(super) levels: Vec<u8>,
}

/// Reads a photograph: JPEG or PNG.
pub(super) fn read(bytes: &[u8]) -> Result<Photograph, ProductionError> {
    let unreadable = |problem: &dyn std::fmt::Display| {
        unfit(
            format!("the photograph cannot be read: {problem}"),
            "hand in a JPEG or a PNG; most telephones can save one",
        )
    };
    let mut reader = ImageReader::new(Cursor::new(bytes))
        .with_guessed_format()
        .map_err(|problem| unreadable(&problem))?;
    let mut limits = Limits::default();
    limits.max_image_width = Some(LARGEST);
    limits.max_image_height = Some(LARGEST);
    limits.max_alloc = Some(MEMORY);
    reader.limits(limits);
    let mut decoder = reader
        .into_decoder()
        .map_err(|problem| unreadable(&problem))?;
    let turn = decoder.orientation().unwrap_or(Orientation::NoTransforms);
    let mut picture =
        DynamicImage::from_decoder(decoder).map_err(|problem| unreadable(&problem))?;
    picture.apply_orientation(turn);
    let grey = picture.into_luma8();
    Ok(Photograph {
        width: grey.width() as usize,
        height: grey.height() as usize,
        levels: grey.into_raw(),
    })
}
