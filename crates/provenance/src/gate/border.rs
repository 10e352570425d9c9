//! Roughly where the unexposed border of the film meets the picture on each side.

use super::outline::Side;
use crate::median::{median, quantile};
use crate::scan_picture::Grey;

/// How far in from the edge of the scan the border may reach, as a share of the side.
const REACH: f32 = 0.3;
/// A border must be so much darker than the middle of the picture. Unit: levels.
const DARKER: f32 = 20.0;
/// Borders of one strip are as dark as each other within this. Unit: levels.
const ALIKE: f32 = 28.0;

/// Where the border was seen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct BorderSeen {
    /// Left, right, top, bottom: the first place of the picture, in pixels of the scan.
    pub(crate) edges: [f32; 4],
}

/// The border on all four sides, or the sides on which none is seen.
pub(crate) fn rough_border(frames: &[Grey]) -> Result<BorderSeen, Vec<Side>> {
    let found = rough_sides(frames);
    let unseen = |side: &Side| found[side.index()].is_none();
    let missing: Vec<Side> = Side::ALL.into_iter().filter(unseen).collect();
    if !missing.is_empty() {
        return Err(missing);
    }
    let edges = found.map(Option::unwrap_or_default);
    let (wide, high) = (edges[1] - edges[0], edges[3] - edges[2]);
    // A picture of film is between square and twice as wide as high.
    if !(0.8..2.4).contains(&(wide / high.max(1.0))) {
        return Err(Side::ALL.to_vec());
    }
    Ok(BorderSeen { edges })
}

/// Left, right, top, bottom: where the picture begins, in pixels of the scan, on those
/// sides where a border is seen.
pub(crate) fn rough_sides(frames: &[Grey]) -> [Option<f32>; 4] {
    let most = brightest(frames).softened(1);
    let found = Side::ALL.map(|side| rough_edge(&most, side));
    let mut levels: Vec<f32> = found.iter().flatten().map(|(_, level)| *level).collect();
    let level = median(&mut levels);
    found.map(|found| found.filter(|f| (f.1 - level).abs() < ALIKE).map(|f| f.0))
}

/// How light each place of the scan gets, but for a frame or two that may be fogged: what
/// stays dark is no picture.
fn brightest(frames: &[Grey]) -> Grey {
    let mut most = frames[0].clone();
    let mut seen = Vec::with_capacity(frames.len());
    for (at, most) in most.levels.iter_mut().enumerate() {
        seen.clear();
        seen.extend(frames.iter().map(|frame| frame.levels[at]));
        *most = quantile(&mut seen, 0.8);
    }
    most
}

/// Where the picture begins on a side and how light its border is; nothing without one.
fn rough_edge(most: &Grey, side: Side) -> Option<(f32, f32)> {
    let (long, across) = if side.is_upright() {
        (most.width, most.height)
    } else {
        (most.height, most.width)
    };
    // From outside inward.
    let line = |i: usize| {
        let at = if side.is_far() { long - 1 - i } else { i };
        let lot: Vec<f32> = (across / 5..across * 4 / 5)
            .step_by(2)
            .map(|j| {
                if side.is_upright() {
                    most.at(at, j)
                } else {
                    most.at(j, at)
                }
            })
            .collect();
        lot
    };
    // A perforation takes less than half of a line, and lightens it there.
    let low: Vec<f32> = (0..long).map(|i| quantile(&mut line(i), 0.5)).collect();
    let reach = (long as f32 * REACH) as usize;
    let border = low[..reach].iter().copied().fold(f32::MAX, f32::min);
    let picture = median(&mut low[reach..long - reach].to_vec());
    if picture - border < DARKER {
        return None;
    }
    // A side of the picture may be darker than its middle.
    let limit = border + (0.15 * (picture - border)).max(10.0);
    let mut from = 0;
    while from < reach {
        let begin = (from..reach).find(|&i| low[i] <= limit)?;
        let end = (begin..long)
            .find(|&i| low[i] > limit)
            .filter(|&i| i < reach)?;
        let is_even = (begin..end).any(|i| quantile(&mut line(i), 0.9) <= limit);
        if end - begin >= 3.max(long / 250) && is_even {
            let at = if side.is_far() { long - end } else { end };
            let level = median(&mut low[begin..end].to_vec());
            return Some((at as f32, level));
        }
        from = end;
    }
    None
}
