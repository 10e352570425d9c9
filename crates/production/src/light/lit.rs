//! A browsing picture in another light, to look at.

use onestrand_light::{LightTables, Points};
use onestrand_store::{Production, Workprints};

use super::frames::transfer_of_roll;
use super::measure::picture;
use crate::ProductionError;
use crate::small_pictures::encode;

/// A frame as it would be with these points of red, green and blue light, as a JPEG of half
/// the browsing picture's size.
///
/// # Errors
/// [`ProductionError::Light`], [`ProductionError::Unfit`], [`ProductionError::Store`].
pub fn lit_picture(
    production: &Production,
    roll: &str,
    frame: u32,
    points: [i16; 3],
) -> Result<Vec<u8>, ProductionError> {
    let [red, green, blue] = points;
    let points = Points::new(red, green, blue)?;
    let mut prints = Workprints::open(production.dir())?;
    let mut small = picture(&mut prints, roll, frame)?;
    if !points.is_none() {
        let (transfer, _is_said) = transfer_of_roll(production, roll);
        LightTables::new(points, 0.0, transfer).apply_bytes(&mut small.rgb);
    }
    encode(&small.rgb, small.width, small.height)
}
