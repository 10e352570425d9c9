//! What stands still at the edge of the gate through a shot: hairs and dirt.

use crate::gate::{Measured, Side, axis};
use crate::median::quantile;
use crate::scan_picture::Grey;

/// How deep into the picture is looked, as a share of its height.
const DEPTH: f32 = 0.22;
/// What stands in the gate is dark: at most this share of the light beside it.
const DARK: f32 = 0.55;
/// What is beside it must be so light that dark can be told. Unit: levels.
const LIGHT: f32 = 40.0;
/// Shortest thing that is told, as a share of the picture's height.
const SHORTEST: f32 = 0.012;
/// Widest thing, as a share of the picture's width: more is something in the scene.
const WIDEST: f32 = 0.03;

/// The error of a length that cannot be told. Unit: thousandths of the picture's width.
const UNKNOWN: f32 = 80.0;

/// A thing that stands in the gate through the whole shot, from its edge into the picture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StandingThing {
    /// The side it hangs on.
    pub side: Side,
    /// Where along the side, from the middle, in thousandths of the picture's width.
    pub along: f32,
    /// Its length, in thousandths of the picture's width.
    pub length: f32,
    /// How far that may be off (one standard deviation), in the same.
    pub error: f32,
}

/// The edge of the gate seen through a shot.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Standing {
    pub(crate) things: Vec<StandingThing>,
    /// For each side and forty-eighth of it: light enough that a thing would be seen.
    pub(crate) light: [Vec<bool>; 4],
}

/// One side unrolled: rows go into the picture, columns along the side.
struct Strip {
    long: usize,
    deep: usize,
    levels: Vec<f32>,
}

impl Strip {
    fn at(&self, along: usize, depth: usize) -> f32 {
        self.levels[depth * self.long + along]
    }
}

/// Looks along all four sides.
pub(crate) fn standing(frames: &[Grey], gate: &Measured, parts: usize) -> Standing {
    let [left, right, top, bottom] = gate.edges;
    let unit = 1_000.0 / (right - left);
    let mut things = Vec::new();
    let light = Side::ALL.map(|side| {
        let strip = unrolled(frames, gate, side);
        let long = if side.is_upright() {
            bottom - top
        } else {
            right - left
        };
        let widest = WIDEST * (right - left);
        let found = hanging(&strip, (SHORTEST * (bottom - top)) as usize, widest);
        things.extend(
            found
                .iter()
                .map(|&(along, length, is_whole)| StandingThing {
                    side,
                    along: (along - long / 2.0) * unit,
                    length: length * unit,
                    // Where its end lies in the dark it may be longer.
                    error: if is_whole {
                        (1.5 + 0.04 * length) * unit
                    } else {
                        UNKNOWN
                    },
                }),
        );
        lightness(&strip, parts)
    });
    Standing { things, light }
}

/// The lighter quarter of what each place shows over the shot: what moves is gone, what
/// stands remains.
fn unrolled(frames: &[Grey], gate: &Measured, side: Side) -> Strip {
    let [left, right, top, bottom] = gate.edges;
    let (from, to) = if side.is_upright() {
        (top, bottom)
    } else {
        (left, right)
    };
    let (long, deep) = ((to - from) as usize, ((bottom - top) * DEPTH) as usize);
    let walk = axis(side);
    let mut levels = Vec::with_capacity(long * deep);
    for depth in 0..deep {
        for along in 0..long {
            let edge = gate.edge(side, along as f32 / long as f32);
            // Two pixels in, the soft edge itself is passed.
            let place = walk.place(edge, from + along as f32, depth as f32 + 2.0);
            levels.push(stays(frames, gate, place));
        }
    }
    Strip { long, deep, levels }
}

fn stays(frames: &[Grey], gate: &Measured, (x, y): (f32, f32)) -> f32 {
    let level = |(frame, weave): (&Grey, &(f32, f32))| frame.between(x + weave.0, y + weave.1);
    let mut seen: Vec<f32> = frames.iter().zip(&gate.weave).map(level).collect();
    quantile(&mut seen, 0.75)
}

/// Dark things that hang on the edge: place along and length, in pixels, and whether their
/// ends are seen.
fn hanging(strip: &Strip, shortest: usize, widest: f32) -> Vec<(f32, f32, bool)> {
    let dark = darkness(strip, widest as usize);
    let mut steps = vec![0_u32; dark.len()];
    let mut found = Vec::new();
    let roots = rooted(strip, &dark);
    for root in 0..strip.long {
        if !roots[root] || steps[root] != 0 {
            continue;
        }
        let (area, (length, end), middle) = walked(strip, (&dark, &roots), &mut steps, root);
        let is_thin = area as f32 / length.max(1) as f32 <= widest;
        // What runs out of the band is something of the scene.
        if length as usize >= shortest.max(3) && is_thin && (length as usize) < strip.deep * 2 {
            found.push((middle, length as f32, ends(strip, end, widest as usize)));
        }
    }
    found
}

/// Where along the strip something dark touches the edge, or comes as near as its softness.
fn rooted(strip: &Strip, dark: &[bool]) -> Vec<bool> {
    let near = 4.min(strip.deep);
    let touches = |along: usize| (0..near).any(|depth| dark[depth * strip.long + along]);
    (0..strip.long).map(touches).collect()
}

/// Follows a dark thing from the edge: pixels, steps to its far end and that end, where it
/// hangs.
fn walked(
    strip: &Strip,
    (dark, roots): (&[bool], &[bool]),
    steps: &mut [u32],
    root: usize,
) -> (u32, (u32, (usize, usize)), f32) {
    let mut queue = std::collections::VecDeque::new();
    // All of the thing that touches the edge is as near.
    let mut end = root;
    while end < strip.long && roots[end] {
        steps[end] = 1;
        queue.push_back((end, 0_usize));
        end += 1;
    }
    let (mut area, mut longest) = (0, (0, (root, 0)));
    while let Some((along, depth)) = queue.pop_front() {
        let here = steps[depth * strip.long + along];
        area += 1;
        longest = longest.max((here, (along, depth)));
        for (a, d) in neighbours(along, depth, strip) {
            let at = d * strip.long + a;
            if dark[at] && steps[at] == 0 {
                steps[at] = here + 1;
                queue.push_back((a, d));
            }
        }
    }
    (area, longest, (root + end - 1) as f32 / 2.0)
}

/// Whether it is light enough about the far end of a thing for its end to be one.
fn ends(strip: &Strip, (along, depth): (usize, usize), widest: usize) -> bool {
    let off = widest.max(3);
    let light = |depth: usize| {
        let far = (along + off).min(strip.long - 1);
        strip
            .at(along.saturating_sub(off), depth)
            .min(strip.at(far, depth))
            >= LIGHT
    };
    depth + 4 < strip.deep && (1..=4).all(|further| light(depth + further))
}

fn neighbours(along: usize, depth: usize, strip: &Strip) -> impl Iterator<Item = (usize, usize)> {
    let alongs = along.saturating_sub(1)..(along + 2).min(strip.long);
    let deeps = depth.saturating_sub(1)..(depth + 2).min(strip.deep);
    alongs.flat_map(move |a| deeps.clone().map(move |d| (a, d)))
}

/// Where the strip is much darker than on both sides along it.
fn darkness(strip: &Strip, widest: usize) -> Vec<bool> {
    let off = widest.max(3);
    let mut dark = vec![false; strip.levels.len()];
    for depth in 0..strip.deep {
        for along in off..strip.long.saturating_sub(off) {
            let beside = strip
                .at(along - off, depth)
                .min(strip.at(along + off, depth));
            let is_dark = beside >= LIGHT && strip.at(along, depth) < DARK * beside;
            dark[depth * strip.long + along] = is_dark;
        }
    }
    dark
}

/// Which parts of a side are light enough near the edge for a thing to be seen.
fn lightness(strip: &Strip, parts: usize) -> Vec<bool> {
    let part = |p: usize| {
        let (from, to) = (p * strip.long / parts, (p + 1) * strip.long / parts);
        let near = strip.deep.min(6);
        let mut levels: Vec<f32> = (0..near)
            .flat_map(|depth| (from..to).map(move |along| (along, depth)))
            .map(|(along, depth)| strip.at(along, depth))
            .collect();
        quantile(&mut levels, 0.75) >= LIGHT
    };
    (0..parts).map(part).collect()
}
