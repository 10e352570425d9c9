//! How much of the picture each copy shows: a printer's window is smaller than a gate.

use super::Pair;
use crate::gate::{Side, rough_sides};
use crate::scan_picture::Grey;

/// On each side, how much more of the picture the first copy shows than the second, in
/// thousandths of the first picture's width; nothing where the scans do not show it.
pub(super) fn shown_more(pairs: &[Pair]) -> [Option<f32>; 4] {
    let frames = |of: fn(&Pair) -> &[Grey; 3]| -> Vec<Grey> {
        pairs.iter().map(|pair| of(pair)[1].clone()).collect()
    };
    let edges = [
        rough_sides(&frames(|p| &p.first)),
        rough_sides(&frames(|p| &p.second)),
    ];
    let pair = &pairs[0];
    let (first, second) = (&pair.first[1], &pair.second[1]);
    let (ox, oy) = pair.placed.place(first, second, 0.0, 0.0);
    Side::ALL.map(|side| {
        let origin = if side.is_upright() { ox } else { oy };
        let theirs = (edges[1][side.index()]? - origin) / pair.placed.size;
        let long = if side.is_upright() {
            first.width
        } else {
            first.height
        };
        // Where the first scan shows no edge, its picture reaches at least to the scan's.
        let end = if side.is_far() { long as f32 } else { 0.0 };
        let ours = edges[0][side.index()];
        let more = |ours: f32| {
            if side.is_far() {
                ours - theirs
            } else {
                theirs - ours
            }
        };
        let more = match ours {
            Some(ours) => more(ours),
            None if more(end) > 0.0 => more(end),
            None => return None,
        };
        Some(more * 1_000.0 / first.width as f32)
    })
}
