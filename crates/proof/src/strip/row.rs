//! Strips without holes to go by: their outline, or a picture that is frames in a row.

use onestrand_film::Gauge;

use super::patch::frame_at;
use super::{Beyond, FoundBy, FoundStrip};
use crate::grey::GreyPicture;

/// Levels by which film differs from what lies around it.
const DIFFERS: i32 = 14;
/// The most frames that are looked for in one outline.
const MOST: usize = 60;

/// A rectangle in a picture, turned. Unit: pixels.
#[derive(Debug, Clone, Copy)]
struct Outline {
    middle: (f32, f32),
    /// Half of its long side and half of its short side, as ways.
    long: (f32, f32),
    short: (f32, f32),
}

/// Readings of a photograph as frames in a row within an outline.
pub(super) fn by_outline(
    photo: GreyPicture<'_>,
    (small, by): (GreyPicture<'_>, usize),
    gauge: Gauge,
) -> Vec<FoundStrip> {
    let mut outlines = vec![whole(small)];
    outlines.extend(turned(small));
    let mut strips = Vec::new();
    for outline in outlines {
        for (count, upright) in counts(&outline, gauge) {
            strips.extend(cut(photo, by, &outline, (count, upright)));
        }
    }
    strips
}

/// All of the picture.
fn whole(small: GreyPicture<'_>) -> Outline {
    let (w, h) = (small.width() as f32 / 2.0, small.height() as f32 / 2.0);
    let (long, short) = if w >= h {
        ((w, 0.0), (0.0, h))
    } else {
        ((0.0, h), (w, 0.0))
    };
    Outline {
        middle: (w - 0.5, h - 0.5),
        long,
        short,
    }
}

/// The narrowest rectangle about what differs from the border of the picture.
fn turned(small: GreyPicture<'_>) -> Option<Outline> {
    let (width, height) = (small.width(), small.height());
    let levels = small.levels();
    let mut border: Vec<u8> = levels[..width].to_vec();
    border.extend(&levels[(height - 1) * width..]);
    border.extend((0..height).flat_map(|y| [levels[y * width], levels[y * width + width - 1]]));
    border.sort_unstable();
    let around = i32::from(border[border.len() / 2]);
    let mut points = Vec::new();
    for y in (0..height).step_by(3) {
        for x in (0..width).step_by(3) {
            let differs =
                |x: usize, y: usize| (i32::from(levels[y * width + x]) - around).abs() > DIFFERS;
            // Specks are no film: its neighbours differ too.
            let (l, r) = (x.saturating_sub(3), (x + 3).min(width - 1));
            let (t, b) = (y.saturating_sub(3), (y + 3).min(height - 1));
            let near = [(l, y), (r, y), (x, t), (x, b)];
            if differs(x, y) && near.iter().filter(|n| differs(n.0, n.1)).count() >= 3 {
                points.push((x as f32, y as f32));
            }
        }
    }
    let share = points.len() as f32 * 9.0 / (width * height) as f32;
    if !(0.005..0.9).contains(&share) {
        return None;
    }
    narrowest(&points)
}

fn narrowest(points: &[(f32, f32)]) -> Option<Outline> {
    let mut best: Option<(f32, Outline)> = None;
    for degrees in 0_i16..180 {
        let (sin, cos) = f32::from(degrees).to_radians().sin_cos();
        let extent = |along: (f32, f32)| {
            let mut at: Vec<f32> = points
                .iter()
                .map(|p| p.0 * along.0 + p.1 * along.1)
                .collect();
            let ends = at.len() / 200;
            let last = at.len() - 1 - ends;
            let low = *at.select_nth_unstable_by(ends, f32::total_cmp).1;
            let high = *at.select_nth_unstable_by(last, f32::total_cmp).1;
            (f32::midpoint(low, high), (high - low) / 2.0 + 1.0)
        };
        let (along, across) = (extent((cos, sin)), extent((-sin, cos)));
        if along.1 < across.1 {
            continue;
        }
        let area = along.1 * across.1;
        if best.as_ref().is_none_or(|b| area < b.0) {
            let outline = Outline {
                middle: (
                    along.0 * cos - across.0 * sin,
                    along.0 * sin + across.0 * cos,
                ),
                long: (along.1 * cos, along.1 * sin),
                short: (-across.1 * sin, across.1 * cos),
            };
            best = Some((area, outline));
        }
    }
    best.map(|b| b.1)
}

/// How many frames may lie along an outline, and whether their tops point along it.
fn counts(outline: &Outline, gauge: Gauge) -> Vec<(usize, bool)> {
    let size = |way: (f32, f32)| 2.0 * way.0.hypot(way.1);
    let shape = size(outline.long) / size(outline.short);
    let spec = gauge.spec();
    let strip = spec.pitch_um as f32 / spec.strip.width_um as f32;
    let picture = spec.pitch_um as f32 / spec.camera.width_um as f32;
    let mut counts = Vec::new();
    // The long way of one frame for the short way of the outline.
    let pitches = [
        (strip, true),
        (picture, true),
        (0.75, true),
        (0.5625, true),
        (4.0 / 3.0, false),
        (16.0 / 9.0, false),
    ];
    for (pitch, upright) in pitches {
        let count = (shape / pitch).round() as usize;
        let fits = (shape / (pitch * count.max(1) as f32) - 1.0).abs() < 0.12;
        if (2..=MOST).contains(&count) && fits && !counts.contains(&(count, upright)) {
            counts.push((count, upright));
        }
    }
    counts
}

fn cut(
    photo: GreyPicture<'_>,
    by: usize,
    outline: &Outline,
    (count, upright): (usize, bool),
) -> Option<FoundStrip> {
    let part = 1.0 / count as f32;
    let long = (outline.long.0 * part, outline.long.1 * part);
    // Right-handed: what is not mirrored in the photograph is not here.
    let turn = |(x, y): (f32, f32)| (-y, x);
    let dot = |a: (f32, f32), b: (f32, f32)| a.0 * b.0 + a.1 * b.1;
    let short = outline.short;
    let facing = |a: (f32, f32), b: (f32, f32)| if dot(a, b) < 0.0 { (-b.0, -b.1) } else { b };
    let (across, along) = if upright {
        let back = turn(turn(turn(long)));
        (facing(back, short), long)
    } else {
        (long, facing(turn(long), short))
    };
    let frames = (0..count).filter_map(|at| {
        let off = (2 * at + 1) as f32 - count as f32;
        let middle = (
            outline.middle.0 + off * long.0,
            outline.middle.1 + off * long.1,
        );
        // A frame of a row is the whole pitch: the picture in it a little less.
        let lying = (middle, scaled(across, 0.98), scaled(along, 0.97));
        frame_at(photo, by, lying, None, i32::try_from(at).ok()?)
    });
    let frames: Vec<_> = frames.collect();
    (frames.len() >= 2).then_some(FoundStrip {
        by: FoundBy::Outline,
        frames,
        beyond: (Beyond::Ends, Beyond::Ends),
        up: (-along.0, -along.1),
    })
}

fn scaled((x, y): (f32, f32), by: f32) -> (f32, f32) {
    (x * by, y * by)
}
