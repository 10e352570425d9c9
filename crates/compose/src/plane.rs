//! The planes on which a film frame is measured.

use onestrand_cadence::unmix;
use onestrand_intake::Plane;

use crate::ComposeError;

/// The plane of a film frame that is unmixed out of several.
///
/// # Errors
/// [`ComposeError::Cadence`] when there is none.
pub fn mixed_plane(parts: &[(&Plane, f32)]) -> Result<Plane, ComposeError> {
    let bytes: Vec<(&[u8], f32)> = parts.iter().map(|(plane, w)| (plane.bytes(), *w)).collect();
    of_bytes(unmix(&bytes)?)
}

/// The plane of a film frame from the planes of its two fields: each was scaled
/// from half of the lines, so all lines together are their mean.
///
/// # Errors
/// None in earnest: planes are of one size.
pub fn woven_plane(top: &Plane, bottom: &Plane) -> Result<Plane, ComposeError> {
    let both = top.bytes().iter().zip(bottom.bytes());
    of_bytes(both.map(|(a, b)| a.midpoint(*b)).collect())
}

fn of_bytes(bytes: Vec<u8>) -> Result<Plane, ComposeError> {
    Plane::from_bytes(bytes).ok_or_else(|| ComposeError::picture("a plane of another size"))
}
