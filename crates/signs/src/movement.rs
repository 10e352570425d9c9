//! How far the whole picture moved from one frame to the next, to a fraction
//! of a pixel.

use crate::pyramid::{Eighth, Half, Pyramid, Quarter};
use crate::tile_shift::tile_shift;

/// Movement of the whole picture. Unit: pixels of the plane.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Step {
    pub(crate) right: f32,
    pub(crate) down: f32,
    /// Share of the picture that moved by as much. Range: 0 to 1; 0 when
    /// nothing is known.
    pub(crate) agree: f32,
}

/// Farthest movement sought, in pixels of the eighth: a sixth of the width.
const REACH: i32 = 4;
/// A movement must make the small pictures this much more alike to be believed.
const CONVINCING: f32 = 0.75;

/// The movement that lays `from` on `to`; nothing where neither shows enough.
///
/// Sought in whole pixels on the smallest picture first, then made finer by the
/// slopes of the light. Each is what most of many small tiles say, so that
/// figures which walk about do not move the picture.
pub(crate) fn movement(from: &Pyramid, to: &Pyramid) -> Option<Step> {
    let (right, down) = whole_step(&from.eighth, &to.eighth);
    let mut start = (2.0 * right as f32, 2.0 * down as f32);
    // What the slopes say of far movements is too little: once more from there.
    for _ in 0..2 {
        let (a, b) = (&from.smooth_quarter.levels, &to.smooth_quarter.levels);
        let found = tile_shift::<{ Quarter::WIDTH }, 6>(a, b, start);
        start = found.map_or(start, |found| (found.right, found.down));
    }
    let start = (2.0 * start.0, 2.0 * start.1);
    let (a, b) = (&from.smooth_half.levels, &to.smooth_half.levels);
    let mut fine = tile_shift::<{ Half::WIDTH }, 12>(a, b, start)?;
    let apart = (fine.right - start.0.round()).abs();
    if apart.max((fine.down - start.1.round()).abs()) > 0.6 {
        fine = tile_shift::<{ Half::WIDTH }, 12>(a, b, (fine.right, fine.down))?;
    }
    Some(Step {
        right: 2.0 * fine.right,
        down: 2.0 * fine.down,
        agree: fine.agree,
    })
}

/// The whole step under which the eighths are most alike, light made equal.
fn whole_step(from: &Eighth, to: &Eighth) -> (i32, i32) {
    let light = (to.mean() - from.mean()).round() as i16;
    let lit: Vec<u8> = from
        .levels
        .iter()
        .map(|&level| (i16::from(level) + light).clamp(0, 255) as u8)
        .collect();
    let standing = difference(&lit, &to.levels, (0, 0));
    let mut best = (standing, (0, 0));
    for down in -REACH..=REACH {
        for right in -REACH..=REACH {
            let found = difference(&lit, &to.levels, (right, down));
            if found < best.0 {
                best = (found, (right, down));
            }
        }
    }
    if best.0 < CONVINCING * standing {
        best.1
    } else {
        (0, 0)
    }
}

/// Mean difference where two eighths lie over each other.
fn difference(from: &[u8], to: &[u8], (right, down): (i32, i32)) -> f32 {
    let span = |length: usize, by: i32| {
        let skip = by.unsigned_abs() as usize;
        let (a, b) = if by < 0 { (skip, 0) } else { (0, skip) };
        (a, b, length - skip)
    };
    let (ax, bx, wide) = span(Eighth::WIDTH, right);
    let (ay, by, high) = span(Eighth::HEIGHT, down);
    let mut sum = 0_u32;
    for row in 0..high {
        let a = &from[(ay + row) * Eighth::WIDTH + ax..][..wide];
        let b = &to[(by + row) * Eighth::WIDTH + bx..][..wide];
        let row = a.iter().zip(b).map(|(&l, &r)| u16::from(l.abs_diff(r)));
        sum += u32::from(row.fold(0, u16::wrapping_add));
    }
    sum as f32 / (wide * high) as f32
}

#[cfg(test)]
mod tests {
    use super::*;
    use onestrand_inspect::{PLANE_HEIGHT, PLANE_WIDTH, PlaneRef};

    /// Round things of many tones, drawn wherever the camera looks.
    fn seen_from(right: f32, down: f32, lit: f32) -> Pyramid {
        let mut levels = vec![90.0_f32; PLANE_WIDTH * PLANE_HEIGHT];
        let mut state = 7_u32;
        let mut next = || {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            (state >> 8) as f32 / (1 << 24) as f32
        };
        for _ in 0..140 {
            let (x, y) = (240.0 * next() - 24.0 + right, 190.0 * next() - 23.0 + down);
            let (size, tone) = (3.0 + 9.0 * next(), 20.0 + 180.0 * next());
            for (at, level) in levels.iter_mut().enumerate() {
                let (px, py) = ((at % PLANE_WIDTH) as f32, (at / PLANE_WIDTH) as f32);
                let cover = (size - (px - x).hypot(py - y) + 0.5).clamp(0.0, 1.0);
                *level += (tone - *level) * cover;
            }
        }
        let levels: Vec<u8> = levels.iter().map(|level| (level * lit) as u8).collect();
        Pyramid::of(PlaneRef::new(&levels).expect("a plane"))
    }

    #[test]
    fn movement_is_read_to_a_sixth_of_a_pixel() {
        let still = seen_from(0.0, 0.0, 1.0);
        for (right, down) in [
            (0.0, 0.0),
            (0.3, -0.2),
            (1.0, 0.6),
            (-2.2, 1.7),
            (4.1, -3.0),
            (-7.3, 0.4),
            (13.0, 6.0),
        ] {
            let step = movement(&still, &seen_from(right, down, 0.94)).expect("there are edges");
            let off = (step.right - right).abs().max((step.down - down).abs());
            assert!(
                off < 0.15 + 0.01 * right.abs(),
                "{right} {down} read as {step:?}"
            );
        }
    }

    #[test]
    fn grey_says_nothing() {
        let grey = Pyramid::of(PlaneRef::new(&[77; PLANE_WIDTH * PLANE_HEIGHT]).expect("a plane"));
        assert!(movement(&grey, &grey).is_none());
    }
}
