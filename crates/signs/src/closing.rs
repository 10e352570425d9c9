//! Dark things too thin to stand by themselves are filled with what lies
//! around them.

use onestrand_inspect::{PLANE_BYTES, PLANE_HEIGHT, PLANE_WIDTH};

/// Things thinner than this are filled. Unit: pixels.
const THIN: usize = 9;
const REACH: usize = THIN / 2;
/// The plane goes on so far outside as it is at its border, so that a gate of one
/// dark pixel counts as the dark that it is.
const MARGIN: usize = 2 * REACH;
const WIDTH: usize = PLANE_WIDTH + 2 * MARGIN;
const HEIGHT: usize = PLANE_HEIGHT + 2 * MARGIN;

/// The grey closing of a plane by a square: the lightest level about each
/// pixel, then the darkest of those about it.
pub(crate) fn closed(plane: &[u8; PLANE_BYTES]) -> Vec<u8> {
    let wider = across(&framed(plane), u8::max);
    let higher = down(&wider, u8::max);
    let narrower = across(&higher, u8::min);
    let closed = down(&narrower, u8::min);
    let mut inner = Vec::with_capacity(PLANE_BYTES);
    for row in closed.chunks_exact(WIDTH).skip(MARGIN).take(PLANE_HEIGHT) {
        inner.extend_from_slice(&row[MARGIN..MARGIN + PLANE_WIDTH]);
    }
    inner
}

/// The plane with its margin.
fn framed(plane: &[u8; PLANE_BYTES]) -> Vec<u8> {
    let mut framed = Vec::with_capacity(WIDTH * HEIGHT);
    for y in 0..HEIGHT {
        let y = y.saturating_sub(MARGIN).min(PLANE_HEIGHT - 1);
        let row = &plane[y * PLANE_WIDTH..][..PLANE_WIDTH];
        framed.extend_from_slice(&[row[0]; MARGIN]);
        framed.extend_from_slice(row);
        framed.extend_from_slice(&[row[PLANE_WIDTH - 1]; MARGIN]);
    }
    framed
}

/// Each pixel with those up to `REACH` to its left and right.
fn across(levels: &[u8], pick: impl Fn(u8, u8) -> u8 + Copy) -> Vec<u8> {
    let mut out = levels.to_vec();
    for (row, best) in levels.chunks_exact(WIDTH).zip(out.chunks_exact_mut(WIDTH)) {
        let inner = &mut best[REACH..WIDTH - REACH];
        inner.copy_from_slice(&row[..WIDTH - 2 * REACH]);
        for by in 1..THIN {
            pick_each(inner, &row[by..], pick);
        }
    }
    out
}

/// Each pixel with those up to `REACH` above and below.
fn down(levels: &[u8], pick: impl Fn(u8, u8) -> u8 + Copy) -> Vec<u8> {
    let mut out = levels.to_vec();
    let row = |y: usize| &levels[y * WIDTH..][..WIDTH];
    for y in REACH..HEIGHT - REACH {
        let best = &mut out[y * WIDTH..][..WIDTH];
        best.copy_from_slice(row(y - REACH));
        for at in y - REACH + 1..=y + REACH {
            pick_each(best, row(at), pick);
        }
    }
    out
}

fn pick_each(best: &mut [u8], levels: &[u8], pick: impl Fn(u8, u8) -> u8) {
    for (best, &level) in best.iter_mut().zip(levels) {
        *best = pick(*best, level);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_thin_dark_thing_is_filled_and_the_gate_is_not() {
        let mut plane = Box::new([120_u8; PLANE_BYTES]);
        for y in 0..PLANE_HEIGHT {
            // A gate of one pixel on the left, and a hair of two across it.
            plane[y * PLANE_WIDTH] = 5;
            if (70..72).contains(&y) {
                plane[y * PLANE_WIDTH..][..30].fill(8);
            }
        }
        let closed = closed(&plane);
        assert_eq!(closed[70 * PLANE_WIDTH + 12], 120);
        assert_eq!(closed[40 * PLANE_WIDTH], 5);
        assert_eq!(closed[40 * PLANE_WIDTH + 1], 120);
    }
}
