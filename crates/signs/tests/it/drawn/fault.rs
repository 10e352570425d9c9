//! Faults laid on drawn frames, each with its strength.

use super::noise::Noise;
use super::scene::oval;
use onestrand_inspect::{PLANE_HEIGHT, PLANE_WIDTH};
use std::ops::Range;

/// A fault and how strong it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Fault {
    /// The light of a point spread; standard deviation in % of the width.
    Blur(f32),
    /// More light or less, in stops.
    Stops(f32),
    /// The whole picture moved to and fro; root mean square in % of the width.
    Shake(f32),
    /// A hair from the side of the gate: thickness and length in % of the
    /// width; seed of its place.
    Hair(f32, f32, u64),
    /// An upright line, a half per cent of the width wide: % of the level, dark
    /// below 0; place in % of the width.
    Line(f32, f32),
    /// Stray light from one side: light added at the side, in parts of full
    /// light; `true` for the left side.
    Leak(f32, bool),
    /// The light changes from frame to frame, in stops peak to peak.
    Flicker(f32),
    /// Specks a frame.
    Dust(u32),
    /// A blank frame of this level.
    Blank(u8),
}

/// A fault on some frames.
#[derive(Debug, Clone)]
pub(crate) struct Planted {
    pub(crate) fault: Fault,
    pub(crate) span: Range<u32>,
}

/// Spreads light by a standard deviation in pixels, exactly: passes of three
/// weights whose variances add up.
pub(crate) fn spread(light: &mut [f32], deviation: f32) {
    let variance = deviation * deviation;
    let passes = (variance / 0.4).ceil().max(1.0);
    let side = variance / passes / 2.0;
    for _ in 0..passes as usize {
        let was = light.to_vec();
        let at = |x: usize, y: usize| was[y * PLANE_WIDTH + x];
        for y in 0..PLANE_HEIGHT {
            for x in 0..PLANE_WIDTH {
                let (w, e) = (x.saturating_sub(1), (x + 1).min(PLANE_WIDTH - 1));
                let sides = at(w, y) + at(e, y) - 2.0 * at(x, y);
                light[y * PLANE_WIDTH + x] = at(x, y) + side * sides;
            }
        }
        let was = light.to_vec();
        let at = |x: usize, y: usize| was[y * PLANE_WIDTH + x];
        for y in 0..PLANE_HEIGHT {
            let (n, s) = (y.saturating_sub(1), (y + 1).min(PLANE_HEIGHT - 1));
            for x in 0..PLANE_WIDTH {
                let ends = at(x, n) + at(x, s) - 2.0 * at(x, y);
                light[y * PLANE_WIDTH + x] = at(x, y) + side * ends;
            }
        }
    }
}

/// A hair that bends in from a side of the gate, moved with the frame by weave.
pub(crate) fn hair(light: &mut [f32], size: (f32, f32), seed: u64, weave: (f32, f32)) {
    for (value, cover) in light.iter_mut().zip(hair_cover(size, seed, weave)) {
        *value *= 1.0 - 0.93 * cover;
    }
}

/// Share of a hair that lies on what is light enough for it to be seen.
pub(crate) fn hair_on_light(light: &[f32], size: (f32, f32), seed: u64) -> f32 {
    const LIGHT: f32 = 0.09;
    let (mut on_light, mut all) = (0.0, 0.0);
    for (value, cover) in light.iter().zip(hair_cover(size, seed, (0.0, 0.0))) {
        all += cover;
        on_light += if *value > LIGHT { cover } else { 0.0 };
    }
    on_light / all
}

/// How much of each pixel a hair covers.
fn hair_cover(size: (f32, f32), seed: u64, weave: (f32, f32)) -> Vec<f32> {
    let mut noise = Noise::new(seed);
    let (thick, long) = (
        size.0 / 100.0 * PLANE_WIDTH as f32,
        size.1 / 100.0 * PLANE_WIDTH as f32,
    );
    let (right, along) = (PLANE_WIDTH as f32, 0.15 + 0.7 * noise.unit());
    let (start, mut heading) = match noise.below(4) {
        0 => ((-1.0, along * PLANE_HEIGHT as f32), 0.0_f32),
        1 => ((right, along * PLANE_HEIGHT as f32), std::f32::consts::PI),
        2 => ((along * right, -1.0), std::f32::consts::FRAC_PI_2),
        _ => (
            (along * right, PLANE_HEIGHT as f32),
            -std::f32::consts::FRAC_PI_2,
        ),
    };
    heading += 0.5 * noise.signed();
    let bend = 0.06 * noise.signed();
    let (mut x, mut y) = (start.0 - weave.0, start.1 - weave.1);
    let mut points = Vec::new();
    for _ in 0..((long + 1.0) * 2.0) as usize {
        points.push((x, y));
        heading += 0.5 * bend;
        x += 0.5 * heading.cos();
        y += 0.5 * heading.sin();
    }
    let mut covers = Vec::with_capacity(PLANE_WIDTH * PLANE_HEIGHT);
    for py in 0..PLANE_HEIGHT {
        for px in 0..PLANE_WIDTH {
            let near = points
                .iter()
                .map(|(x, y)| (x - px as f32).hypot(y - py as f32))
                .fold(f32::INFINITY, f32::min);
            // Of a pixel, the part that lies in the band.
            let cover = (thick / 2.0 + 0.5 - near).clamp(0.0, 1.0).min(thick);
            covers.push(cover);
        }
    }
    covers
}

/// Share of the height in which a place across has an upright edge beside it, or
/// is too dark for a line.
pub(crate) fn edges_along(light: &[f32], x: f32) -> f32 {
    const BESIDE: usize = 3;
    const DARK: f32 = 0.03;
    let x = (x / 100.0 * PLANE_WIDTH as f32) as usize;
    let beside = x - BESIDE..x + BESIDE + 1;
    let edges = light.chunks_exact(PLANE_WIDTH).filter(|row| {
        let ends = row[beside.clone()]
            .iter()
            .fold((f32::MAX, 0.0_f32), |(low, high), &v| {
                (low.min(v), high.max(v))
            });
        ends.0 < DARK || ends.1 > 1.25 * ends.0
    });
    edges.count() as f32 / PLANE_HEIGHT as f32
}

/// An upright line drawn on developed levels.
pub(crate) fn line(levels: &mut [f32], contrast: f32, x: f32, at: u32, noise: &mut Noise) {
    let wander = 0.5 * (at as f32 / 17.0).sin();
    let x = x / 100.0 * PLANE_WIDTH as f32 + wander;
    for row in levels.chunks_exact_mut(PLANE_WIDTH) {
        let rough = 0.8 + 0.4 * noise.unit();
        for (column, value) in row.iter_mut().enumerate() {
            let cover = (x + 0.5).min(column as f32 + 1.0) - (x - 0.5).max(column as f32);
            if cover > 0.0 {
                *value += *value * contrast / 100.0 * rough * cover;
            }
        }
    }
}

/// Stray light that falls off from one side.
pub(crate) fn leak(light: &mut [f32], strength: f32, left: bool) {
    for (place, value) in light.iter_mut().enumerate() {
        let x = (place % PLANE_WIDTH) as f32 / PLANE_WIDTH as f32;
        let from = if left { x } else { 1.0 - x };
        *value += strength * (-(from / 0.35).powi(2)).exp();
    }
}

/// Dark and light specks of one to three pixels.
pub(crate) fn dust(light: &mut [f32], specks: u32, noise: &mut Noise) {
    for _ in 0..specks {
        let place = (
            noise.unit() * PLANE_WIDTH as f32,
            noise.unit() * PLANE_HEIGHT as f32,
        );
        let size = 0.7 + 1.2 * noise.unit().powi(2);
        let tone = if noise.below(3) == 0 { 0.95 } else { 0.01 };
        oval(light, place, (size, size), tone);
    }
}
