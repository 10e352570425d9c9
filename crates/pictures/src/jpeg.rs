//! Small pictures for tables and strips, out of the pictures of a workprint.

use image::ExtendedColorType;
use image::codecs::jpeg::JpegEncoder;
use jpeg_decoder::{Decoder, PixelFormat};

use crate::PictureError;

/// JPEG quality of a small picture, of 100: with eight pixels for one it is
/// looked at as a sign, and no grain is left to keep.
const QUALITY: u8 = 82;
/// Memory a picture may take while it is read; a workprint's are far smaller.
/// Unit: bytes.
const MEMORY_MAX: usize = 128 << 20;

/// A picture scaled down. Unit of its sides: pixels.
#[derive(Debug, Clone)]
pub struct Small {
    /// Its width.
    pub width: u32,
    /// Its height.
    pub height: u32,
    /// Red, green and blue of each pixel, line by line.
    pub rgb: Vec<u8>,
}

impl Small {
    /// The brightness of each pixel as television weighs it (ITU-R BT.601), like the
    /// planes of a reading.
    #[must_use]
    pub fn grey(&self) -> Vec<u8> {
        let brightness = |pixel: &[u8]| {
            let [r, g, b] = [pixel[0], pixel[1], pixel[2]].map(u32::from);
            ((299 * r + 587 * g + 114 * b + 500) / 1000) as u8
        };
        self.rgb.chunks_exact(3).map(brightness).collect()
    }
}

/// A picture of a workprint made small: an eighth, a quarter or half of its
/// sides, whichever is the smallest that is at least so wide and so high; the
/// picture itself when none is.
///
/// Unit of `at_least`: pixels, width and height. At 960×720 the sizes are
/// 120×90, 240×180 and 480×360.
///
/// # Errors
/// [`PictureError::Workprint`] when it cannot be read.
///
/// # Examples
/// ```
/// # use onestrand_pictures::small_jpeg;
/// assert!(small_jpeg(b"no picture", (120, 90)).is_err());
/// ```
pub fn small_jpeg(jpeg: &[u8], at_least: (u16, u16)) -> Result<Vec<u8>, PictureError> {
    let mut decoder = open(jpeg)?;
    let eighths = eighths_for(&mut decoder, at_least)?;
    if eighths == WHOLE {
        return Ok(jpeg.to_vec());
    }
    let small = decode(&mut decoder, eighths)?;
    encode_jpeg(&small.rgb, small.width, small.height)
}

/// How large it would become. Unit: pixels, width and height.
///
/// # Errors
/// [`PictureError::Workprint`] when it cannot be read.
pub fn scaled_size(jpeg: &[u8], at_least: (u16, u16)) -> Result<(u32, u32), PictureError> {
    let mut decoder = open(jpeg)?;
    let (width, height) = size(&decoder)?;
    let eighths = eighths_for(&mut decoder, at_least)?;
    Ok((side(width, eighths), side(height, eighths)))
}

/// The same, not yet coded again.
///
/// # Errors
/// [`PictureError::Workprint`] when it cannot be read.
pub fn scaled_down(jpeg: &[u8], at_least: (u16, u16)) -> Result<Small, PictureError> {
    let mut decoder = open(jpeg)?;
    let eighths = eighths_for(&mut decoder, at_least)?;
    decode(&mut decoder, eighths)
}

/// Codes a picture as JPEG, as a small one is kept.
///
/// # Errors
/// [`PictureError::Coding`] when pixels and size do not fit each other.
pub fn encode_jpeg(rgb: &[u8], width: u32, height: u32) -> Result<Vec<u8>, PictureError> {
    let mut jpeg = Vec::with_capacity(rgb.len() / 8);
    JpegEncoder::new_with_quality(&mut jpeg, QUALITY)
        .encode(rgb, width, height, ExtendedColorType::Rgb8)
        .map_err(|source| PictureError::Coding { source })?;
    Ok(jpeg)
}

/// The whole picture, in eighths.
const WHOLE: u32 = 8;

fn open(jpeg: &[u8]) -> Result<Decoder<&[u8]>, PictureError> {
    let mut decoder = Decoder::new(jpeg);
    decoder.set_max_decoding_buffer_size(MEMORY_MAX);
    decoder.read_info().map_err(unreadable)?;
    Ok(decoder)
}

fn size(decoder: &Decoder<&[u8]>) -> Result<(u16, u16), PictureError> {
    let info = decoder
        .info()
        .ok_or_else(|| unreadable(jpeg_decoder::Error::Format("no size is given".to_owned())))?;
    Ok((info.width, info.height))
}

/// One side at so many eighths, rounded up as the coding's blocks are.
fn side(whole: u16, eighths: u32) -> u32 {
    (u32::from(whole) * eighths).div_ceil(WHOLE)
}

fn eighths_for(decoder: &mut Decoder<&[u8]>, at_least: (u16, u16)) -> Result<u32, PictureError> {
    let (width, height) = size(decoder)?;
    let wide_enough = |eighths: &u32| side(width, *eighths) >= u32::from(at_least.0);
    let high_enough = |eighths: &u32| side(height, *eighths) >= u32::from(at_least.1);
    let found = [1, 2, 4]
        .into_iter()
        .find(|e| wide_enough(e) && high_enough(e));
    Ok(found.unwrap_or(WHOLE))
}

/// Decodes at so many eighths of the sides. A picture is coded in squares of
/// eight by eight pixels, each as a sum of waves; leaving out the finer waves
/// gives the square at one, two or four pixels a side without ever making the
/// whole picture.
fn decode(decoder: &mut Decoder<&[u8]>, eighths: u32) -> Result<Small, PictureError> {
    let whole = size(decoder)?;
    let asked = |whole| u16::try_from(side(whole, eighths)).unwrap_or(u16::MAX);
    let (width, height) = decoder
        .scale(asked(whole.0), asked(whole.1))
        .map_err(unreadable)?;
    let pixels = decoder.decode().map_err(unreadable)?;
    let rgb = match decoder.info().map(|info| info.pixel_format) {
        Some(PixelFormat::RGB24) => pixels,
        Some(PixelFormat::L8) => pixels.into_iter().flat_map(|grey| [grey; 3]).collect(),
        _ => {
            let kind = "neither grey nor colour as a workprint has it".to_owned();
            return Err(unreadable(jpeg_decoder::Error::Format(kind)));
        }
    };
    Ok(Small {
        width: width.into(),
        height: height.into(),
        rgb,
    })
}

fn unreadable(source: jpeg_decoder::Error) -> PictureError {
    PictureError::Workprint { source }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn white_is_as_bright_as_can_be() {
        let small = Small {
            width: 2,
            height: 1,
            rgb: vec![255, 255, 255, 0, 0, 0],
        };
        assert_eq!(small.grey(), [255, 0]);
    }
}
