//! Small pictures for tables and strips, out of the pictures of a workprint.

use onestrand_pictures::{PictureError, encode_jpeg, small_jpeg};

use crate::ProductionError;

pub(crate) use onestrand_pictures::Small;

/// A picture of a workprint made small: an eighth, a quarter or half of its
/// sides, whichever is the smallest that is at least so wide and so high; the
/// picture itself when none is.
///
/// Unit of `at_least`: pixels, width and height. At 960×720 the sizes are
/// 120×90, 240×180 and 480×360.
///
/// # Errors
/// [`ProductionError::Picture`] when it cannot be read.
///
/// # Examples
/// ```
/// # use onestrand_production::small_picture;
/// assert!(small_picture(b"no picture", (120, 90)).is_err());
/// ```
pub fn small_picture(jpeg: &[u8], at_least: (u16, u16)) -> Result<Vec<u8>, ProductionError> {
    Ok(small_jpeg(jpeg, at_least)?)
}

/// How large it would become. Unit: pixels, width and height.
pub(crate) fn scaled_size(
    jpeg: &[u8],
    at_least: (u16, u16),
) -> Result<(u32, u32), ProductionError> {
    Ok(onestrand_pictures::scaled_size(jpeg, at_least)?)
}

/// The same, not yet coded again.
pub(crate) fn scaled_down(jpeg: &[u8], at_least: (u16, u16)) -> Result<Small, ProductionError> {
    Ok(onestrand_pictures::scaled_down(jpeg, at_least)?)
}

pub(crate) fn encode(rgb: &[u8], width: u32, height: u32) -> Result<Vec<u8>, ProductionError> {
    Ok(encode_jpeg(rgb, width, height)?)
}

impl From<PictureError> for ProductionError {
    fn from(source: PictureError) -> Self {
        match source {
            PictureError::Coding { .. } => Self::SmallPicture { source },
            _ => Self::Picture { source },
        }
    }
}
