//! Dark things too thin to stand by themselves are filled with what lies
//! around them.

use onestrand_inspect::{PLANE_BYTES, PLANE_HEIGHT, PLANE_WIDTH};

/// Things thinner than this are filled. Unit: pixels.
const THIN: usize = 9;
const REACH: usize = THIN / 2;

/// The grey closing of a plane by a square: the lightest level about each
/// pixel, then the darkest of those about it. Outside the plane everything goes
/// on as it is at the border, so that the gate stays what it is.
pub(crate) fn closed(plane: &[u8; PLANE_BYTES]) -> Vec<u8> {
    let wider = across(plane, u8::max);
    let higher = down(&wider, u8::max);
    let narrower = across(&higher, u8::min);
    down(&narrower, u8::min)
}

/// Each pixel with those up to `REACH` to its left and right.
fn across(levels: &[u8], pick: impl Fn(u8, u8) -> u8 + Copy) -> Vec<u8> {
    let mut out = Vec::with_capacity(levels.len());
    let mut padded = [0_u8; PLANE_WIDTH + 2 * REACH];
    for row in levels.chunks_exact(PLANE_WIDTH) {
        padded[..REACH].fill(row[0]);
        padded[REACH..][..PLANE_WIDTH].copy_from_slice(row);
        padded[REACH + PLANE_WIDTH..].fill(row[PLANE_WIDTH - 1]);
        let mut best = [0_u8; PLANE_WIDTH];
        best.copy_from_slice(&padded[..PLANE_WIDTH]);
        for by in 1..THIN {
            pick_each(&mut best, &padded[by..], pick);
        }
        out.extend_from_slice(&best);
    }
    out
}

/// Each pixel with those up to `REACH` above and below.
fn down(levels: &[u8], pick: impl Fn(u8, u8) -> u8 + Copy) -> Vec<u8> {
    let mut out = Vec::with_capacity(levels.len());
    let row = |y: usize| &levels[y * PLANE_WIDTH..][..PLANE_WIDTH];
    for y in 0..PLANE_HEIGHT {
        let mut best = [0_u8; PLANE_WIDTH];
        let rows = y.saturating_sub(REACH)..(y + REACH + 1).min(PLANE_HEIGHT);
        best.copy_from_slice(row(rows.start));
        for at in rows.start + 1..rows.end {
            pick_each(&mut best, row(at), pick);
        }
        out.extend_from_slice(&best);
    }
    out
}

fn pick_each(best: &mut [u8; PLANE_WIDTH], levels: &[u8], pick: impl Fn(u8, u8) -> u8 + Copy) {
    for (best, &level) in best.iter_mut().zip(levels) {
        *best = pick(*best, level);
    }
}
