//! Browsing pictures, JPEG to JPEG.

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

use jpeg_encoder::{ColorType, Encoder, SamplingFactor};
use onestrand_cadence::{unmix, weave};
use zune_core::bytestream::ZCursor;
use zune_core::colorspace::ColorSpace;
use zune_core::options::DecoderOptions;
use zune_jpeg::JpegDecoder;

use crate::ComposeError;

/// JPEG quality of what is put together, of 100. Unmixing makes the noise of
/// coding larger; a second coding should add little to it.
const QUALITY: u8 = 90;

/// Puts browsing pictures together. Neighbouring film frames share file frames, so
/// what has been decoded is kept for a while.
#[derive(Debug, Default)]
pub struct Browsing {
    decoded: BTreeMap<u64, Picture>,
}

impl Browsing {
    /// The browsing picture of a film frame in two fields, out of the pictures of file
    /// frames, which `jpeg` looks up: the even lines of one and the odd lines of another.
    ///
    /// # Errors
    /// [`ComposeError::Picture`] when one is not there, is no JPEG in colour, or is of
    /// another size.
    pub fn woven<'a>(
        &mut self,
        top: u64,
        bottom: u64,
        jpeg: impl Fn(u64) -> Option<&'a [u8]>,
    ) -> Result<Vec<u8>, ComposeError> {
        self.decode([top, bottom].into_iter(), jpeg)?;
        let (top, bottom) = (self.of(top)?, self.of(bottom)?);
        let line = usize::from(top.width) * SAMPLES;
        top.with(weave(&top.samples, &bottom.samples, line)?)
            .write()
    }

    /// The same of a film frame that is blended with its neighbours, by weights that
    /// hold for the whole picture.
    ///
    /// # Errors
    /// As [`Browsing::woven`].
    pub fn mixed<'a>(
        &mut self,
        parts: &[(u64, f32)],
        jpeg: impl Fn(u64) -> Option<&'a [u8]>,
    ) -> Result<Vec<u8>, ComposeError> {
        self.decode(parts.iter().map(|part| part.0), jpeg)?;
        let weighed: Result<Vec<(&[u8], f32)>, ComposeError> = parts
            .iter()
            .map(|(frame, weight)| Ok((self.of(*frame)?.samples.as_slice(), *weight)))
            .collect();
        let first = parts.first().map(|part| self.of(part.0)).transpose()?;
        let first = first.ok_or_else(|| ComposeError::picture("no pictures"))?;
        first.with(unmix(&weighed?)?).write()
    }

    fn decode<'a>(
        &mut self,
        frames: impl Iterator<Item = u64>,
        jpeg: impl Fn(u64) -> Option<&'a [u8]>,
    ) -> Result<(), ComposeError> {
        for frame in frames {
            if let Entry::Vacant(place) = self.decoded.entry(frame) {
                place.insert(Picture::read(jpeg(frame).ok_or_else(|| wanting(frame))?)?);
            }
        }
        Ok(())
    }

    fn of(&self, frame: u64) -> Result<&Picture, ComposeError> {
        self.decoded.get(&frame).ok_or_else(|| wanting(frame))
    }

    /// Lets go of what no later film frame needs.
    pub fn forget_before(&mut self, file_frame: u64) {
        self.decoded = self.decoded.split_off(&file_frame);
    }
}

fn wanting(frame: u64) -> ComposeError {
    ComposeError::picture(format!("file frame {frame} is not there"))
}

/// Luma and two colours of each pixel.
const SAMPLES: usize = 3;

#[derive(Debug)]
struct Picture {
    width: u16,
    height: u16,
    samples: Vec<u8>,
}

impl Picture {
    fn read(jpeg: &[u8]) -> Result<Self, ComposeError> {
        // Sums of luma and colour are as good as sums of red, green and blue, and
        // neither has to be turned into the other.
        let options = DecoderOptions::default().jpeg_set_out_colorspace(ColorSpace::YCbCr);
        let mut decoder = JpegDecoder::new_with_options(ZCursor::new(jpeg), options);
        let samples = decoder.decode().map_err(ComposeError::picture)?;
        let (width, height) = decoder
            .dimensions()
            .and_then(|(w, h)| Some((u16::try_from(w).ok()?, u16::try_from(h).ok()?)))
            .ok_or_else(|| ComposeError::picture("a picture without a size"))?;
        if samples.len() != usize::from(width) * usize::from(height) * SAMPLES {
            return Err(ComposeError::picture("a picture without colour"));
        }
        Ok(Self {
            width,
            height,
            samples,
        })
    }

    fn with(&self, samples: Vec<u8>) -> Self {
        Self {
            width: self.width,
            height: self.height,
            samples,
        }
    }

    fn write(&self) -> Result<Vec<u8>, ComposeError> {
        let mut jpeg = Vec::with_capacity(self.samples.len() / 8);
        let mut encoder = Encoder::new(&mut jpeg, QUALITY);
        encoder.set_sampling_factor(SamplingFactor::F_2_2);
        encoder
            .encode(&self.samples, self.width, self.height, ColorType::Ycbcr)
            .map_err(ComposeError::picture)?;
        Ok(jpeg)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn flat(levels: impl Fn(usize) -> u8) -> Vec<u8> {
        let (width, height) = (64_u16, 48_u16);
        let picture = Picture {
            width,
            height,
            samples: (0..48)
                .flat_map(|y| (0..64).flat_map(move |_| [y, usize::MAX, usize::MAX]))
                .map(|y| if y == usize::MAX { 128 } else { levels(y) })
                .collect(),
        };
        picture.write().expect("a picture")
    }

    fn luma(jpeg: &[u8], y: usize) -> i32 {
        let picture = Picture::read(jpeg).expect("a picture");
        i32::from(picture.samples[(y * 64 + 20) * SAMPLES])
    }

    #[test]
    fn a_blend_is_unmixed_to_the_levels_of_its_film_frame() {
        let (clean, blend) = (flat(|_| 100), flat(|_| 110));
        let of = |frame| Some(if frame == 3 { &clean[..] } else { &blend[..] });
        let mut browsing = Browsing::default();
        let film = browsing.mixed(&[(3, -1.0), (4, 2.0)], of);
        let film = film.expect("a picture");
        assert!((luma(&film, 20) - 120).abs() <= 2, "{}", luma(&film, 20));
    }

    #[test]
    fn lines_are_woven() {
        let (top, bottom) = (flat(|_| 60), flat(|_| 180));
        let of = |frame| Some(if frame == 3 { &top[..] } else { &bottom[..] });
        let mut browsing = Browsing::default();
        let woven = browsing.woven(3, 4, of).expect("a picture");
        assert!((luma(&woven, 20) - 60).abs() < 8);
        assert!((luma(&woven, 21) - 180).abs() < 8);
    }

    #[test]
    fn what_is_wanting_or_no_picture_is_told() {
        let mut browsing = Browsing::default();
        let nothing = browsing.woven(3, 4, |_| None).unwrap_err();
        assert_eq!(nothing.code(), "compose.picture");
        let no_jpeg = browsing.mixed(&[(3, 0.5), (4, 0.5)], |_| Some(&b"no picture"[..]));
        assert!(no_jpeg.is_err());
        assert!(browsing.mixed(&[], |_| None).is_err());
    }
}
