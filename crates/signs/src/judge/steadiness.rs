//! Movement to and fro of the whole picture.

use crate::kept::KeptFrame;
use crate::limits::SignLimits;
use crate::record::{SignRecord, Take};
use crate::sign::{Sign, SignKind};
use crate::spans::{RunRule, greatest, middle, runs, share};
use onestrand_inspect::PLANE_WIDTH;

/// Frames to either side over which a pan is smoothed away.
const PAN: usize = 8;
/// Frames to either side over which movement to and fro is gathered.
const GATHERED: usize = 9;
/// Shortest take that is asked.
const SHORTEST: usize = 2 * PAN + 2;

/// Movement to and fro about each frame of a take. Unit: % of the width, root
/// mean square.
fn to_and_fro(record: &SignRecord, take: &Take) -> Vec<f32> {
    let frames = &record.frames[take.span.clone()];
    let mut path = Vec::with_capacity(frames.len());
    let (mut x, mut y) = (0.0, 0.0);
    for (place, frame) in frames.iter().enumerate() {
        if place > 0 {
            x += f64::from(frame.right);
            y += f64::from(frame.down);
        }
        path.push((x, y));
    }
    let left_over: Vec<f64> = (0..path.len())
        .map(|at| {
            let smooth = smoothed(&path, at);
            (path[at].0 - smooth.0).powi(2) + (path[at].1 - smooth.1).powi(2)
        })
        .collect();
    (0..path.len())
        .map(|at| {
            let about =
                &left_over[at.saturating_sub(GATHERED)..(at + GATHERED + 1).min(left_over.len())];
            let mean = about.iter().sum::<f64>() / about.len() as f64;
            if of_one_mind(frames, at) {
                (mean.sqrt() / PLANE_WIDTH as f64 * 100.0) as f32
            } else {
                f32::NAN
            }
        })
        .collect()
}

/// Whether the picture moved as a whole about a frame: where what moves fills
/// most of it, nothing is known of the camera.
fn of_one_mind(frames: &[KeptFrame], at: usize) -> bool {
    const LEAST: f32 = 0.5;
    let about = at.saturating_sub(GATHERED)..(at + GATHERED + 1).min(frames.len());
    middle(frames[about].iter().map(|frame| frame.agree)) >= LEAST
}

/// Where a smooth path would be at a frame: the parabola through those about it.
/// So neither a pan counts nor its beginning and end.
fn smoothed(path: &[(f64, f64)], at: usize) -> (f64, f64) {
    let from = at.saturating_sub(PAN);
    let until = (at + PAN + 1).min(path.len());
    let n = (until - from) as f64;
    let middle = (from + until - 1) as f64 / 2.0;
    let times = || (from..until).map(|place| place as f64 - middle);
    let squares = times().map(|t| t * t).sum::<f64>();
    let fourths = times().map(|t| t.powi(4)).sum::<f64>();
    let t = at as f64 - middle;
    let of = |way: fn(&(f64, f64)) -> f64| {
        let values = || path[from..until].iter().map(way).zip(times());
        let sum: f64 = values().map(|(value, _)| value).sum();
        let first: f64 = values().map(|(value, t)| value * t).sum();
        let second: f64 = values().map(|(value, t)| value * t * t).sum();
        // Times lie evenly about 0, so odd and even powers part.
        let bend = (n * second - squares * sum) / (n * fourths - squares * squares);
        (sum - bend * squares) / n + first / squares * t + bend * t * t
    };
    (of(|at| at.0), of(|at| at.1))
}

/// What the roll has all along. Unit: % of the width, root mean square.
pub(super) fn usual_weave(record: &SignRecord, takes: &[Take]) -> f32 {
    let all = takes
        .iter()
        .filter(|take| take.span.len() >= SHORTEST)
        .flat_map(|take| to_and_fro(record, take));
    let weave = share(all, 0.3);
    if weave.is_nan() { 0.0 } else { weave }
}

pub(super) fn of_take(
    record: &SignRecord,
    take: &Take,
    weave: f32,
    limits: &SignLimits,
) -> Vec<Sign> {
    if take.span.len() < SHORTEST {
        return Vec::new();
    }
    let moves = to_and_fro(record, take);
    let limit = limits.shake_above.max(limits.shake_over_weave * weave);
    let rule = RunRule {
        enter: limit,
        stay: 0.7 * limit,
        gap: GATHERED,
        shortest: limits.shortest_run as usize,
    };
    let first = take.span.start;
    let of = |at: usize| moves[at - first];
    let stillest = greatest(take.span.clone(), |at| -of(at));
    let mut signs: Vec<Sign> = runs(&moves, first, rule)
        .into_iter()
        .map(|span| {
            let most = greatest(span.clone(), of);
            let measure = share(span.clone().map(of), 0.67);
            Sign::new(SignKind::Shake, span, measure).beside(most, stillest)
        })
        .collect();
    let usual = middle(moves.iter().copied());
    let known = moves.iter().filter(|value| !value.is_nan()).count();
    if signs.is_empty() && 2 * known > moves.len() && usual >= limits.weave_above {
        let most = greatest(take.span.clone(), of);
        let sign = Sign::new(SignKind::Weave, take.span.clone(), usual);
        signs.push(sign.beside(most, stillest));
    }
    signs
}
