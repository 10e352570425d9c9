//! Pictures as PNG: written from pixels, and parted.

use std::io::Cursor;

use image::{ColorType, DynamicImage, ImageFormat};

use crate::PictureError;

/// Codes red, green and blue of each pixel, line by line, as PNG. Unit of the sides: pixels.
///
/// # Errors
/// [`PictureError::Coding`] when pixels and size do not fit each other.
pub fn encode_png(rgb: &[u8], (width, height): (u32, u32)) -> Result<Vec<u8>, PictureError> {
    let coding = |source| PictureError::Coding { source };
    let whole = u64::from(width) * u64::from(height) * 3;
    if rgb.len() as u64 != whole {
        return Err(coding(size_unfit()));
    }
    let mut bytes = Cursor::new(Vec::new());
    let (colour, format) = (ColorType::Rgb8, ImageFormat::Png);
    image::write_buffer_with_format(&mut bytes, rgb, width, height, colour, format)
        .map_err(coding)?;
    Ok(bytes.into_inner())
}

/// Pixels that do not fill the size that was given, or more than fill it.
fn size_unfit() -> image::ImageError {
    use image::error::{ImageError, ParameterError, ParameterErrorKind};
    ImageError::Parameter(ParameterError::from_kind(
        ParameterErrorKind::DimensionMismatch,
    ))
}

/// A PNG that was read.
#[derive(Debug)]
pub struct Png(DynamicImage);

impl Png {
    /// Reads it.
    ///
    /// # Errors
    /// [`PictureError::Unreadable`] for anything but a PNG.
    pub fn read(bytes: &[u8]) -> Result<Self, PictureError> {
        image::load_from_memory_with_format(bytes, ImageFormat::Png)
            .map(Self)
            .map_err(|source| PictureError::Unreadable { source })
    }

    /// Width and height. Unit: pixels.
    #[must_use]
    pub fn size(&self) -> (u32, u32) {
        (self.0.width(), self.0.height())
    }

    /// A piece of it as a PNG of the same depth, turned upside down where that is asked.
    /// Unit: pixels, from the left and from the top.
    ///
    /// # Errors
    /// [`PictureError::Coding`] when there is no such piece.
    pub fn piece(
        &self,
        (left, top): (u32, u32),
        (width, height): (u32, u32),
        upside_down: bool,
    ) -> Result<Vec<u8>, PictureError> {
        let part = self.0.crop_imm(left, top, width, height);
        let part = if upside_down { part.rotate180() } else { part };
        let mut bytes = Cursor::new(Vec::new());
        part.write_to(&mut bytes, ImageFormat::Png)
            .map_err(|source| PictureError::Coding { source })?;
        Ok(bytes.into_inner())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Four pixels: red, green above, blue, white below.
    const FOUR: [u8; 12] = [255, 0, 0, 0, 255, 0, 0, 0, 255, 255, 255, 255];

    #[test]
    fn a_piece_keeps_its_pixels_and_turns() {
        let whole = Png::read(&encode_png(&FOUR, (2, 2)).expect("coded")).expect("read");
        assert_eq!(whole.size(), (2, 2));
        let piece = whole.piece((1, 0), (1, 2), true).expect("a piece");
        let piece = Png::read(&piece).expect("read");
        assert_eq!(piece.size(), (1, 2));
        assert_eq!(piece.0.to_rgb8().into_raw(), [255, 255, 255, 0, 255, 0]);
    }

    #[test]
    fn pixels_that_do_not_fill_the_size_are_refused() {
        assert!(encode_png(&FOUR, (2, 3)).is_err());
        assert!(encode_png(&FOUR, (1, 2)).is_err());
        assert!(Png::read(b"no picture").is_err());
    }
}
