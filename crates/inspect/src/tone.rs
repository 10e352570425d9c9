//! Making two frames comparable when one had more light.

use crate::small::{SMALL_PIXELS, Small};

/// The widest change of contrast that light alone is taken to explain.
///
/// A flash of +1.4 stop raises coded levels by 2^(1.4/2.2) = 1.55; with some
/// room for veiling glare, two. Beyond that the picture itself has changed.
const WIDEST_GAIN: f32 = 2.0;

/// A table that gives `from` the tones of `to`.
///
/// The levels are matched share by share (the tone that a tenth of one frame
/// lies below goes to the tone that a tenth of the other lies below), which
/// follows any exposure, fog or flicker, clipping included, and does not mind
/// where things stand. It would also turn any picture into any other picture's
/// tones; so where contrast changes more than light can explain, the
/// levels stay as they are.
pub(crate) fn tones_from_to(from: &Small, to: &Small) -> [u8; 256] {
    let mut table: [u8; 256] = std::array::from_fn(|level| level as u8);
    let gain = (to.contrast + 1.0) / (from.contrast + 1.0);
    if !(1.0 / WIDEST_GAIN..=WIDEST_GAIN).contains(&gain) {
        return table;
    }
    let mut reached = 0;
    for (level, tone) in table.iter_mut().enumerate() {
        // The middle of this level's own share, so that equal frames map
        // onto themselves.
        let upper = u32::from(from.at_most[level]);
        let lower = if level == 0 {
            0
        } else {
            u32::from(from.at_most[level - 1])
        };
        let middle = (upper + lower).div_ceil(2).clamp(1, SMALL_PIXELS as u32);
        while reached < 255 && u32::from(to.at_most[reached]) < middle {
            reached += 1;
        }
        *tone = reached as u8;
    }
    table
}

/// The frame's pixels sent through a table of tones.
pub(crate) fn retoned(frame: &Small, table: &[u8; 256]) -> [u8; SMALL_PIXELS] {
    let mut pixels = *frame.pixels;
    for pixel in pixels.iter_mut() {
        *pixel = table[usize::from(*pixel)];
    }
    pixels
}
