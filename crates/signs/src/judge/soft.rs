//! Sharpness against the best frame of the take.

use crate::kept::KeptFrame;
use crate::limits::SignLimits;
use crate::record::{BEST, SignRecord, Take};
use crate::sharpness::Edges;
use crate::sign::{Sign, SignKind};
use crate::spans::{RunRule, greatest, middle, middles, runs, share};

/// Frames to either side that steady a frame's sharpness.
const STEADY: usize = 2;
/// Movement of the picture at which its own blur takes the place of the
/// lens's. Unit: pixels of the plane a frame.
const FAST: f32 = 4.0;
/// A frame with so many times as many edges as the best frames have shows other
/// things: softness makes none.
const MORE_EDGES: f32 = 1.15;
/// A soft part goes on until sharpness has come back by this share of what was
/// lost at the limit.
const BACK: f32 = 0.4;

pub(super) fn of_take(record: &SignRecord, take: &Take, limits: &SignLimits) -> Vec<Sign> {
    let frames = &record.frames[take.span.clone()];
    let sharp = of_best(frames);
    let lost: Vec<f32> = sharp.iter().map(|sharp| 1.0 - sharp).collect();
    let rule = RunRule {
        enter: 1.0 - limits.soft_below,
        stay: (1.0 - limits.soft_below) * (1.0 - BACK),
        gap: 2 * STEADY,
        shortest: limits.shortest_part as usize,
    };
    let first = take.span.start;
    runs(&lost, first, rule)
        .into_iter()
        .map(|span| {
            let of = |at: usize| sharp[at - first];
            // The softest third of the part: the slopes at its ends are no
            // part of how soft it got.
            let measure = share(span.clone().map(of), 0.33);
            let softest = greatest(span.clone(), |at| -of(at));
            let best = greatest(take.span.clone(), of);
            Sign::new(SignKind::Soft, span, measure).beside(softest, best)
        })
        .collect()
}

/// Sharpness of each frame against the best of them; not a number where a
/// frame has no edges or the picture goes by too fast.
///
/// The better of the two ways counts: movement blurs one, the lens both.
fn of_best(frames: &[KeptFrame]) -> Vec<f32> {
    let way = |of: fn(&KeptFrame) -> Edges| {
        let values: Vec<f32> = frames.iter().map(|frame| of(frame).sharp).collect();
        let steady = middles(&values, STEADY);
        let best = share(steady.iter().copied(), BEST);
        let blocks = |at: usize| f32::from(of(&frames[at]).blocks);
        let of_best = (0..frames.len()).filter(|&at| steady[at] >= best);
        let most = MORE_EDGES * middle(of_best.map(blocks));
        let ratio = |at: usize| {
            if blocks(at) > most {
                1.0
            } else {
                steady[at] / best
            }
        };
        (0..frames.len()).map(ratio).collect::<Vec<f32>>()
    };
    let across = way(|frame| frame.across);
    let along = way(|frame| frame.along);
    let speed = |at: usize| {
        let from = at.saturating_sub(1);
        let until = (at + 2).min(frames.len());
        middle(frames[from..until].iter().map(|f| f.right.hypot(f.down)))
    };
    (0..frames.len())
        .map(|at| {
            if speed(at) > FAST {
                f32::NAN
            } else {
                across[at].max(along[at])
            }
        })
        .collect()
}
