//! Unmixing of full pictures.

use crate::CadenceError;

/// A sample of a picture: 8 or 16 bits.
pub trait Sample: Copy + Into<f32> {
    /// The sample nearest to a value.
    fn nearest(value: f32) -> Self;
}

impl Sample for u8 {
    fn nearest(value: f32) -> Self {
        value.round().clamp(0.0, 255.0) as Self
    }
}

impl Sample for u16 {
    fn nearest(value: f32) -> Self {
        value.round().clamp(0.0, 65_535.0) as Self
    }
}

/// Puts pictures together by weights, sample by sample, as
/// [`crate::FilmFrame::unmix`] says; any order of samples does, if it is the
/// same in all pictures.
///
/// # Errors
/// [`CadenceError::PictureSize`] when the pictures differ in size.
///
/// # Examples
/// ```
/// let clean = [100_u8, 100];
/// let blend = [110_u8, 90]; // half of the frame before, half of the one wanted
/// let film = onestrand_cadence::unmix(&[(&clean, -1.0), (&blend, 2.0)])?;
/// assert_eq!(film, [120, 80]);
/// # Ok::<(), onestrand_cadence::CadenceError>(())
/// ```
pub fn unmix<S: Sample>(pictures: &[(&[S], f32)]) -> Result<Vec<S>, CadenceError> {
    let first = pictures.first().map_or(0, |picture| picture.0.len());
    let mut sums = vec![0.0_f32; first];
    for (picture, weight) in pictures {
        if picture.len() != first {
            return Err(CadenceError::PictureSize {
                first,
                other: picture.len(),
            });
        }
        for (sum, sample) in sums.iter_mut().zip(*picture) {
            *sum += weight * (*sample).into();
        }
    }
    Ok(sums.into_iter().map(S::nearest).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sixteen_bits_keep_their_levels_and_sizes_must_agree() {
        let (a, b) = ([60_000_u16, 10], [62_000_u16, 0]);
        assert_eq!(
            unmix(&[(&a[..], -1.0), (&b[..], 2.0)]).unwrap(),
            [64_000, 0]
        );
        assert!(unmix(&[(&a[..], 0.5), (&b[..1], 0.5)]).is_err());
    }
}
