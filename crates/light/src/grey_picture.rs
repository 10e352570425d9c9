//! Small grey pictures that steadiness and flicker are measured on.

use crate::LightError;

/// A grey picture, line by line, a byte a pixel.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GreyPicture {
    width: usize,
    height: usize,
    grey: Vec<u8>,
}

/// The least side that is measured on. Unit: pixels.
const LEAST: usize = 32;
/// The greatest: more costs time and tells no more. Unit: pixels.
const MOST: usize = 1024;

impl GreyPicture {
    /// A picture of its bytes.
    ///
    /// # Errors
    /// [`LightError::PictureSize`], [`LightError::OutOfRange`] for sides under 32 or over
    /// 1024 pixels.
    pub fn new(grey: Vec<u8>, width: usize, height: usize) -> Result<Self, LightError> {
        for side in [width, height] {
            if !(LEAST..=MOST).contains(&side) {
                return Err(LightError::OutOfRange {
                    what: "the side of a picture",
                    given: side as f64,
                    least: LEAST as f64,
                    most: MOST as f64,
                });
            }
        }
        if grey.len() != width * height {
            return Err(LightError::PictureSize {
                found: grey.len(),
                needed: width * height,
            });
        }
        Ok(Self {
            width,
            height,
            grey,
        })
    }

    /// Width. Unit: pixels.
    #[must_use]
    pub const fn width(&self) -> usize {
        self.width
    }

    /// Height. Unit: pixels.
    #[must_use]
    pub const fn height(&self) -> usize {
        self.height
    }

    /// The bytes.
    #[must_use]
    pub fn grey(&self) -> &[u8] {
        &self.grey
    }
}
