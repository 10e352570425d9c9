//! The picture of one frame taken out of a photograph.

use super::light::BoxLight;
use super::{Beyond, StripFrame};
use crate::grey::{GreyOwned, GreyPicture};

/// Size of a patch. Unit: pixels.
pub(crate) const PATCH: (usize, usize) = (120, 90);
/// The patch beside the picture: an eighth more on each side.
pub(crate) const MARGIN: f32 = 1.25;
/// Above this share of the light box there is no film.
const CLEAR: f32 = 0.94;
/// How much of a patch may lie outside the photograph: beside perforations, and in a
/// row that may fill its picture.
const OUTSIDE: (f32, f32) = (0.12, 0.45);

/// Middle, half the width and half the height of a picture. Unit: pixels.
pub(super) type Lying = ((f32, f32), (f32, f32), (f32, f32));

/// The frame that lies somewhere in a photograph, given in pixels of the picture made
/// small `by` times; nothing when it is outside, or when the light box shines through
/// where film should be. Without a light box only the first is looked at.
pub(super) fn frame_at(
    photo: GreyPicture<'_>,
    by: usize,
    lying: Lying,
    light: Option<&BoxLight>,
    place: i32,
) -> Option<StripFrame> {
    let (centre, across, along) = lying;
    let (patch, seen) = taken(photo, by, lying);
    let outside = if light.is_some() {
        OUTSIDE.0
    } else {
        OUTSIDE.1
    };
    let is_clear = light.is_some_and(|l| is_clear(&patch, l.at(centre.0, centre.1)));
    if seen < 1.0 - outside || is_clear {
        return None;
    }
    let by = by as f32;
    let corner = |x: f32, y: f32| {
        (
            by * (centre.0 + x * across.0 + y * along.0),
            by * (centre.1 + x * across.1 + y * along.1),
        )
    };
    Some(StripFrame {
        place,
        corners: [
            corner(-1.0, -1.0),
            corner(1.0, -1.0),
            corner(1.0, 1.0),
            corner(-1.0, 1.0),
        ],
        within: true,
        patch,
    })
}

/// What is seen of the place where a strip's next frame would be.
pub(super) fn beyond(photo: GreyPicture<'_>, by: usize, lying: Lying, light: &BoxLight) -> Beyond {
    let (patch, seen) = taken(photo, by, lying);
    if is_clear(&patch, light.at(lying.0.0, lying.0.1)) {
        Beyond::Ends
    } else if seen < 1.0 - OUTSIDE.0 {
        Beyond::OutOfPicture
    } else {
        Beyond::Hidden
    }
}

/// The picture with its margin, and which share of it the photograph shows.
pub(super) fn taken(
    photo: GreyPicture<'_>,
    by: usize,
    (centre, across, along): Lying,
) -> (GreyOwned, f32) {
    let (wide, high) = PATCH;
    let by = by as f32;
    let mut levels = Vec::with_capacity(wide * high);
    let mut seen = 0_u32;
    // Where pixels of the photograph are finer than the patch's, several make one.
    let pixel = by * 2.0 * MARGIN * across.0.hypot(across.1) / wide as f32;
    let taps = (pixel.ceil() as usize).clamp(1, 4);
    let mut last = photo.at(by * centre.0, by * centre.1).unwrap_or(128.0);
    for y in 0..high {
        for x in 0..wide {
            let (mut sum, mut count) = (0.0, 0.0);
            for tap in 0..taps * taps {
                let part = |at: usize, tap: usize, of: usize| {
                    let within = (tap as f32 + 0.5) / taps as f32;
                    ((at as f32 + within) / of as f32 * 2.0 - 1.0) * MARGIN
                };
                let (u, v) = (part(x, tap % taps, wide), part(y, tap / taps, high));
                let px = by * (centre.0 + u * across.0 + v * along.0) + (by - 1.0) / 2.0;
                let py = by * (centre.1 + u * across.1 + v * along.1) + (by - 1.0) / 2.0;
                if let Some(level) = photo.at(px, py) {
                    sum += level;
                    count += 1.0;
                }
            }
            if count > 0.0 {
                last = sum / count;
                seen += 1;
            }
            levels.push(last.round() as u8);
        }
    }
    let patch = GreyOwned {
        width: wide,
        height: high,
        levels,
    };
    (patch, seen as f32 / (wide * high) as f32)
}

/// Whether the light box shines through everywhere.
fn is_clear(patch: &GreyOwned, light: f32) -> bool {
    let (wide, high) = PATCH;
    let mut clear = 0;
    let mut of = 0;
    for y in (high / 5..high * 4 / 5).step_by(3) {
        for x in (wide / 5..wide * 4 / 5).step_by(3) {
            of += 1;
            clear += u32::from(f32::from(patch.levels[y * wide + x]) > CLEAR * light);
        }
    }
    clear * 10 > of * 8
}
