//! The edge of the picture to a part of a pixel, over several frames.

use super::border::BorderSeen;
use super::places::axis;
use crate::median::{median, middle};
use crate::scan_picture::Grey;

/// Places looked at along each side.
pub const PLACES: usize = 48;
/// The edge is found where border and picture differ by so much. Unit: levels.
const CONTRAST: f32 = 20.0;
/// Frames that must show a place of the edge.
const LEAST_FRAMES: usize = 3;
/// Places that must be seen of each side, and of all together.
const LEAST_SIDE: usize = 10;
const LEAST_ALL: usize = 84;
/// An edge is straight within this on the mean; more is something in the picture.
/// Unit: thousandths of the picture's width.
const STRAIGHT: f32 = 12.0;

/// A side of the picture, as the scan shows it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Side {
    /// Left.
    Left,
    /// Right.
    Right,
    /// Top.
    Top,
    /// Bottom.
    Bottom,
}

impl Side {
    /// All four, in the order of every table here.
    pub const ALL: [Self; 4] = [Self::Left, Self::Right, Self::Top, Self::Bottom];

    /// Whether it runs from top to bottom.
    #[must_use]
    pub fn is_upright(self) -> bool {
        matches!(self, Self::Left | Self::Right)
    }

    pub(crate) fn is_far(self) -> bool {
        matches!(self, Self::Right | Self::Bottom)
    }

    pub(crate) fn index(self) -> usize {
        self as usize
    }
}

/// The outline of a gate: where the picture ends, side by side.
#[derive(Debug, Clone, PartialEq)]
pub struct GateOutline {
    /// For each side and place, from the middle of the picture: where the edge lies and its
    /// standard error, in thousandths of the picture's width; nothing where it was not seen.
    pub(crate) edge: [[Option<(f32, f32)>; PLACES]; 4],
    /// Height as a share of the width, in thousandths.
    pub(crate) height: f32,
}

impl GateOutline {
    /// Along a side, the place of a point from the middle of the picture, in thousandths of
    /// the width.
    pub(crate) fn along(&self, side: Side, place: usize) -> f32 {
        let long = if side.is_upright() {
            self.height
        } else {
            1_000.0
        };
        (share(place) - 0.5) * long
    }

    /// The outline as points from the middle of the picture, side by side, in thousandths of
    /// the picture's width: x, y, and the standard error.
    #[must_use]
    pub fn points(&self, side: Side) -> Vec<Option<(f32, f32, f32)>> {
        let point = |(place, seen): (usize, &Option<(f32, f32)>)| {
            let (at, error) = (*seen)?;
            let along = self.along(side, place);
            Some(if side.is_upright() {
                (at, along, error)
            } else {
                (along, at, error)
            })
        };
        self.edge[side.index()]
            .iter()
            .enumerate()
            .map(point)
            .collect()
    }

    /// Height of the picture as a share of its width.
    #[must_use]
    pub fn height_share(&self) -> f32 {
        self.height / 1_000.0
    }
}

/// Where along a side a place lies: 0 to 1.
pub(crate) fn share(place: usize) -> f32 {
    0.005 + 0.99 * (place as f32 + 0.5) / PLACES as f32
}

/// How a shot's edge was measured: the outline, and the picture's place in each frame.
pub(crate) struct Measured {
    pub(crate) outline: GateOutline,
    /// Left, right, top, bottom in pixels, without weave.
    pub(crate) edges: [f32; 4],
    /// The edge at each place of each side, in pixels; the mean one where it is not seen.
    pub(crate) line: [[f32; PLACES]; 4],
    /// How far each frame's picture lies off that, in pixels.
    pub(crate) weave: Vec<(f32, f32)>,
}

/// Measures the outline over all frames; nothing when what was taken for an edge is none.
pub(crate) fn measured(frames: &[Grey], border: BorderSeen) -> Option<Measured> {
    let edges = border.edges;
    let width = edges[1] - edges[0];
    let reach = (width * 0.016).max(8.0) as i32;
    let seen = Side::ALL.map(|side| {
        let of = |frame: &Grey| frame_edge(frame, side, edges, reach);
        frames.iter().map(of).collect::<Vec<_>>()
    });
    let [left, right, top, bottom] = &seen;
    let (across, x) = polished([left, right]);
    let (down, y) = polished([top, bottom]);
    let [left, right] = across;
    let [top, bottom] = down;
    let sides = [left, right, top, bottom];
    let count = |side: &Places| side.iter().flatten().count();
    if sides.iter().any(|side| count(side) < LEAST_SIDE)
        || sides.iter().map(count).sum::<usize>() < LEAST_ALL
    {
        return None;
    }
    let mean = |side: &Places| median(&mut side.iter().flatten().map(|s| s.0).collect::<Vec<_>>());
    let placed = [0, 1, 2, 3].map(|i| edges[i] + mean(&sides[i]));
    let outline = in_thousandths(&sides, edges, placed)?;
    let line = [0, 1, 2, 3].map(|i| {
        std::array::from_fn(|place| sides[i][place].map_or(placed[i], |seen| edges[i] + seen.0))
    });
    Some(Measured {
        outline,
        line,
        edges: placed,
        weave: x.into_iter().zip(y).collect(),
    })
}

/// The edge's places in one frame, as pixels to the right or down of the rough one.
fn frame_edge(frame: &Grey, side: Side, edges: [f32; 4], reach: i32) -> Vec<Option<f32>> {
    let walk = axis(side);
    let (begin, end) = if side.is_upright() {
        (edges[2], edges[3])
    } else {
        (edges[0], edges[1])
    };
    let edge = edges[side.index()];
    let profile =
        |place: usize| walk.profile(frame, edge, begin + share(place) * (end - begin), reach);
    let profiles: Vec<Option<Vec<f32>>> = (0..PLACES).map(profile).collect();
    let outer = reach as usize / 2;
    let mut levels: Vec<f32> = profiles
        .iter()
        .flatten()
        .flat_map(|p| p[..outer].to_vec())
        .collect();
    let border = median(&mut levels);
    let depth = |p: &Vec<f32>| crossing(p, border, reach);
    let found = profiles.iter().map(|p| p.as_ref().and_then(depth));
    found
        .map(|depth| depth.map(|d| walk.across(0.0, d)))
        .collect()
}

/// How deep the light comes half-way up from the border, in pixels from the rough edge.
fn crossing(profile: &[f32], border: f32, reach: i32) -> Option<f32> {
    let outer = &profile[..reach as usize / 2];
    let inner = &profile[reach as usize * 3 / 2..];
    let outside = outer.iter().sum::<f32>() / outer.len() as f32;
    let inside = inner.iter().sum::<f32>() / inner.len() as f32;
    if (outside - border).abs() > 12.0 || inside - border < CONTRAST {
        return None;
    }
    let half = 0.5 * (border + inside);
    let at = profile.iter().position(|&level| level > half)?;
    let (before, after) = (*profile.get(at.checked_sub(1)?)?, profile[at]);
    Some(at as f32 - (after - half) / (after - before).max(1e-3) - reach as f32)
}

type Places = Vec<Option<(f32, f32)>>;

/// Parts what the edges of two opposite sides have in common in each frame, which is weave,
/// from what each place keeps over all frames, which is the outline.
fn polished(sides: [&Vec<Vec<Option<f32>>>; 2]) -> ([Places; 2], Vec<f32>) {
    let frames = sides[0].len();
    let mut weave = vec![0.0; frames];
    let mut kept: [Places; 2] = [vec![None; PLACES], vec![None; PLACES]];
    for _round in 0..4 {
        kept = sides.map(|side| (0..PLACES).map(|p| over_frames(side, p, &weave)).collect());
        for (frame, weave) in weave.iter_mut().enumerate() {
            let mut off = Vec::new();
            for (side, kept) in sides.iter().zip(&kept) {
                let seen = side[frame].iter().zip(kept);
                off.extend(seen.filter_map(|(at, kept)| Some((*at)? - (*kept)?.0)));
            }
            *weave = median(&mut off);
        }
        let middle = median(&mut weave.clone());
        weave.iter_mut().for_each(|w| *w -= middle);
    }
    (kept, weave)
}

/// A place of the edge over all frames, with its standard error in pixels.
fn over_frames(side: &[Vec<Option<f32>>], place: usize, weave: &[f32]) -> Option<(f32, f32)> {
    let seen = side.iter().zip(weave);
    let mut values: Vec<f32> = seen.filter_map(|(f, w)| Some(f[place]? - w)).collect();
    let count = values.len();
    if count < LEAST_FRAMES {
        return None;
    }
    let (value, spread) = middle(&mut values);
    Some((value, (1.2533 * spread / (count as f32).sqrt()).max(0.03)))
}

fn in_thousandths(sides: &[Places; 4], rough: [f32; 4], placed: [f32; 4]) -> Option<GateOutline> {
    let width = placed[1] - placed[0];
    let (x, y) = ((placed[0] + placed[1]) / 2.0, (placed[2] + placed[3]) / 2.0);
    let unit = 1_000.0 / width.max(1.0);
    let mut edge = [[None; PLACES]; 4];
    for side in Side::ALL {
        let i = side.index();
        let middle = if side.is_upright() { x } else { y };
        let mut off = Vec::new();
        for (to, from) in edge[i].iter_mut().zip(&sides[i]) {
            *to = from.map(|(at, error)| ((at + rough[i] - middle) * unit, error * unit));
            off.extend(from.map(|(at, _)| ((at + rough[i] - placed[i]) * unit).abs()));
        }
        if median(&mut off) > STRAIGHT {
            return None;
        }
    }
    Some(GateOutline {
        edge,
        height: (placed[3] - placed[2]) * unit,
    })
}

impl Measured {
    /// The edge of a side, in pixels, at a share of the way along it.
    pub(crate) fn edge(&self, side: Side, share: f32) -> f32 {
        let at = (share * PLACES as f32 - 0.5).clamp(0.0, PLACES as f32 - 1.0);
        let (before, part) = (at as usize, at.fract());
        let line = &self.line[side.index()];
        line[before] + (line[(before + 1).min(PLACES - 1)] - line[before]) * part
    }
}
