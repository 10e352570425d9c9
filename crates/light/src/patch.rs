//! How much light a rectangle of a picture holds.

use crate::{LightError, Transfer};

/// A rectangle on a picture, as shares of its sides, so that it means the same on a
/// small picture and at full size.
///
/// Range: all from 0 to 1; at least a two-hundredth wide and high.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PatchPlace {
    left: f64,
    top: f64,
    width: f64,
    height: f64,
}

/// The least side of a rectangle, as a share.
const LEAST: f64 = 0.005;

impl PatchPlace {
    /// A rectangle by its left and upper edge and its sides; what hangs over the edge of
    /// the picture is left out.
    ///
    /// # Errors
    /// [`LightError::Rectangle`] when too little of it lies in the picture.
    pub fn new(left: f64, top: f64, width: f64, height: f64) -> Result<Self, LightError> {
        let inside = |from: f64, length: f64| {
            let begin = from.clamp(0.0, 1.0);
            (begin, (from + length).clamp(0.0, 1.0) - begin)
        };
        let ((x, across), (y, down)) = (inside(left, width), inside(top, height));
        let enough = across >= LEAST && down >= LEAST;
        if enough {
            Ok(Self {
                left: x,
                top: y,
                width: across,
                height: down,
            })
        } else {
            Err(LightError::Rectangle {
                left,
                top,
                width,
                height,
            })
        }
    }

    /// Left edge, upper edge, width, height, as shares.
    #[must_use]
    pub const fn shares(self) -> [f64; 4] {
        [self.left, self.top, self.width, self.height]
    }

    /// First and first no longer inside pixel along a side of `pixels`.
    fn pixels(from: f64, length: f64, pixels: usize) -> (usize, usize) {
        let whole = pixels as f64;
        let begin = ((from * whole).round() as usize).min(pixels.saturating_sub(1));
        let end =
            (((from + length) * whole).round() as usize).clamp(begin + 1, pixels.max(begin + 1));
        (begin, end)
    }
}

/// The light of a patch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PatchLight {
    /// Mean light of red, green and blue. Range: 0 to 1.
    pub light: [f64; 3],
    /// Share of pixels where a colour is at the top of what can be said: their light is
    /// not known. Range: 0 to 1.
    pub blown: f64,
    /// Share of pixels where a colour is so near black that grain and fog decide.
    pub black: f64,
    /// Pixels looked at.
    pub pixels: usize,
}

/// Numbers above this, of 1, may have been more.
const TOP: f64 = 0.985;
/// Numbers below this, of 1, are black.
const BOTTOM: f64 = 0.02;
/// A patch of which more than this share cannot be told is not to be used.
const TOO_MUCH: f64 = 0.02;

impl PatchLight {
    /// Whether it can be matched by: little of it blown or black.
    #[must_use]
    pub fn is_usable(&self) -> bool {
        self.blown <= TOO_MUCH && self.black <= TOO_MUCH && self.light.iter().all(|l| *l > 0.0)
    }

    /// log10 of its light; none where a colour has no light at all.
    #[must_use]
    pub fn log(&self) -> Option<[f64; 3]> {
        self.light
            .iter()
            .all(|light| *light > 0.0)
            .then(|| self.light.map(f64::log10))
    }
}

/// Measures a patch on a picture of red, green and blue bytes, line by line.
///
/// # Errors
/// [`LightError::PictureSize`].
pub fn measure_patch(
    rgb: &[u8],
    size: (usize, usize),
    place: PatchPlace,
    transfer: Transfer,
) -> Result<PatchLight, LightError> {
    let needed = size.0 * size.1 * 3;
    if rgb.len() != needed || needed == 0 {
        let found = rgb.len();
        return Err(LightError::PictureSize { found, needed });
    }
    let numbers: Vec<f64> = (0..=255_u8).map(|n| f64::from(n) / 255.0).collect();
    let lights: Vec<f64> = numbers.iter().map(|n| transfer.light(*n)).collect();
    let (x0, x1) = PatchPlace::pixels(place.left, place.width, size.0);
    let (y0, y1) = PatchPlace::pixels(place.top, place.height, size.1);
    let (mut sums, mut blown, mut black, mut pixels) = ([0.0; 3], 0_usize, 0_usize, 0_usize);
    for y in y0..y1 {
        let line = &rgb[(y * size.0 + x0) * 3..(y * size.0 + x1) * 3];
        for pixel in line.chunks_exact(3) {
            for (sum, number) in sums.iter_mut().zip(pixel) {
                *sum += lights[usize::from(*number)];
            }
            blown += usize::from(pixel.iter().any(|n| numbers[usize::from(*n)] > TOP));
            black += usize::from(pixel.iter().any(|n| numbers[usize::from(*n)] < BOTTOM));
            pixels += 1;
        }
    }
    let all = pixels as f64;
    Ok(PatchLight {
        light: sums.map(|sum| sum / all),
        blown: blown as f64 / all,
        black: black as f64 / all,
        pixels,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn half_and_half() -> Vec<u8> {
        let line: Vec<u8> = (0..20)
            .flat_map(|x| {
                if x < 10 {
                    [100, 120, 140]
                } else {
                    [255, 200, 5]
                }
            })
            .collect();
        line.repeat(10)
    }

    #[test]
    fn a_patch_is_its_own_light() {
        let place = PatchPlace::new(0.1, 0.1, 0.3, 0.5).expect("inside");
        let found =
            measure_patch(&half_and_half(), (20, 10), place, Transfer::Srgb).expect("whole");
        let wanted = [100.0, 120.0, 140.0].map(|n| Transfer::Srgb.light(n / 255.0));
        for (found, wanted) in found.light.into_iter().zip(wanted) {
            assert!((found - wanted).abs() < 1e-12);
        }
        assert!(found.is_usable());
        assert_eq!(found.pixels, 30);
    }

    #[test]
    fn blown_and_black_patches_are_not_used() {
        let place = PatchPlace::new(0.4, 0.0, 0.4, 1.0).expect("inside");
        let found =
            measure_patch(&half_and_half(), (20, 10), place, Transfer::Srgb).expect("whole");
        assert!((found.blown - 0.75).abs() < 1e-12);
        assert!((found.black - 0.75).abs() < 1e-12);
        assert!(!found.is_usable());
    }

    #[test]
    fn what_lies_outside_is_refused() {
        assert!(PatchPlace::new(1.2, 0.1, 0.3, 0.3).is_err());
        assert!(PatchPlace::new(0.1, f64::NAN, 0.3, 0.3).is_err());
        assert!(PatchPlace::new(-0.1, 0.0, 0.3, 0.3).is_ok());
        let place = PatchPlace::new(0.0, 0.0, 1.0, 1.0).expect("inside");
        assert!(measure_patch(&[0; 10], (2, 2), place, Transfer::Srgb).is_err());
    }
}
