//! Gate weave, by parts of a pixel, and the grain laid on at the end.

use super::FRAME_LINE;
use super::grain::Grain;
use crate::noise::{signed, wander};
use crate::{HEIGHT, WIDTH};

/// Widest weave to either side, pixels: slow wandering and a quick tremble.
const SLOW: (f32, f32) = (1.2, 0.9);
const QUICK: (f32, f32) = (0.18, 0.32);
const W: usize = WIDTH as usize;
const H: usize = HEIGHT as usize;

/// How far a frame stands from its place. Unit: pixels right and down.
pub(crate) fn offset(number: (u8, u32)) -> (f32, f32) {
    let seed = 700 + u64::from(number.0) * 10;
    let at = number.1 as f32;
    let slow = |s: u64| wander(seed + s, at / 23.0) * 0.7 + wander(seed + s + 4, at / 7.0) * 0.3;
    (
        SLOW.0 * slow(0) + QUICK.0 * signed(seed + 2, u64::from(number.1)),
        SLOW.1 * slow(1) + QUICK.1 * signed(seed + 3, u64::from(number.1)),
    )
}

/// Moves the film (RGBA) by `offset`, lays grain on, gives RGB24.
pub(crate) fn weave(
    film: &[u8],
    offset: (f32, f32),
    grain: &Grain,
    number: (u8, u32),
    out: &mut [u8],
) {
    let (left, part_x) = split(-offset.0);
    let (up, part_y) = split(-offset.1);
    let lie = Grain::lie(number);
    // One line, with four pixels more at each side than the picture has.
    let mut line = vec![0_u16; (W + 8) * 4];
    let mut moved = vec![0_u8; W * 4];
    let black = [FRAME_LINE; W * 4];
    for (y, out_line) in out.chunks_exact_mut(W * 3).enumerate() {
        let above = film_line(film, y as i32 + up, &black);
        let below = film_line(film, y as i32 + up + 1, &black);
        for ((sum, a), b) in line[16..].iter_mut().zip(above).zip(below) {
            *sum = blend(u16::from(*a), u16::from(*b), part_y);
        }
        spread_ends(&mut line);
        let start = ((left + 4) * 4) as usize;
        let (first, second) = (&line[start..], &line[start + 4..]);
        for ((new, a), b) in moved.iter_mut().zip(first).zip(second) {
            *new = (blend(*a, *b, part_x).wrapping_add(128) >> 8) as u8;
        }
        grain.lay(lie, y, &moved, out_line);
    }
}

/// Sixteen times the value between two, `part` sixteenths of the way.
///
/// Values up to 4,080 and parts up to 16 stay within 65,280; the arithmetic is
/// of the wrapping kind only so that the compiler may do many at once.
#[inline]
fn blend(a: u16, b: u16, part: u16) -> u16 {
    a.wrapping_mul(16 - part).wrapping_add(b.wrapping_mul(part))
}

/// Whole pixels and sixteenths of one.
fn split(by: f32) -> (i32, u16) {
    let sixteenths = (by * 16.0).round() as i32;
    (sixteenths >> 4, (sixteenths & 15) as u16)
}

fn film_line<'a>(film: &'a [u8], y: i32, black: &'a [u8]) -> &'a [u8] {
    usize::try_from(y)
        .ok()
        .filter(|y| *y < H)
        .map_or(black, |y| &film[y * W * 4..(y + 1) * W * 4])
}

/// Repeats the outermost pixels, so that weave never shows an end.
fn spread_ends(line: &mut [u16]) {
    for pixel in 0..4 {
        for colour in 0..4 {
            line[pixel * 4 + colour] = line[16 + colour];
            line[(W + 4 + pixel) * 4 + colour] = line[(W + 3) * 4 + colour];
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn weave_stays_within_two_pixels() {
        for roll in 1..=3 {
            for frame in 0..3600 {
                let (x, y) = offset((roll, frame));
                assert!(x.abs() < 2.0 && y.abs() < 2.0, "R{roll}·{frame}: {x}, {y}");
            }
        }
    }
}
