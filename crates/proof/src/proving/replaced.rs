//! Faults that two reports are of, made one.

use super::course::{At, Walk};
use super::judged::{FaultKind, ReelFault};
use crate::rolls::RollSketches;

/// Foreign pictures exactly in the place of as many missing ones are one fault; where
/// the missing ones are of several pieces, one for each.
pub(super) fn replaced(faults: &mut Vec<ReelFault>) {
    let of_kind = |kind: FaultKind| move |fault: &&ReelFault| fault.kind == kind;
    let missing: Vec<ReelFault> = faults
        .iter()
        .filter(of_kind(FaultKind::Missing))
        .copied()
        .collect();
    let mut gone: Vec<ReelFault> = Vec::new();
    let mut parted: Vec<ReelFault> = Vec::new();
    for foreign in faults.iter().filter(of_kind(FaultKind::Foreign)) {
        let near = |m: &&ReelFault| m.at.abs_diff(foreign.at) <= 2 && !gone.contains(*m);
        let near: Vec<ReelFault> = missing.iter().filter(near).copied().collect();
        let Some(of) = as_many(&near, foreign.frames) else {
            continue;
        };
        let (mut at, end) = (foreign.at, foreign.at + foreign.frames);
        for (index, part) in of.iter().enumerate() {
            let last = index + 1 == of.len();
            let to = if last {
                end
            } else {
                (at + part.frames).min(end)
            };
            parted.push(ReelFault {
                at,
                earliest: at,
                latest: at,
                frames: to - at,
                expected: part.expected,
                ..*foreign
            });
            at = to;
        }
        gone.push(*foreign);
        gone.extend_from_slice(of);
    }
    faults.retain(|fault| !gone.contains(fault));
    faults.extend(parted.into_iter().filter(|fault| fault.frames > 0));
}

/// Those of the missing ones that are as many frames, or about as many. The first ones may
/// be of the piece before, whose frames are missing nearby.
fn as_many(missing: &[ReelFault], frames: usize) -> Option<&[ReelFault]> {
    let sum = |of: &[ReelFault]| of.iter().map(|m| m.frames).sum::<usize>();
    let tails = (0..missing.len()).map(|skipped| &missing[skipped..]);
    let best = tails.min_by_key(|of| sum(of).abs_diff(frames))?;
    (sum(best).abs_diff(frames) <= sum(best) / 8).then_some(best)
}

/// Frames of the roll just before a piece or just after it may as well be a frame of the
/// piece doubled, where hardly anything moves: then that is told, and how far.
pub(super) fn too_many(fault: &mut ReelFault, scan: &RollSketches, walk: &Walk<'_>, course: &[At]) {
    let (first, end) = (fault.at, fault.at + fault.frames);
    let runs_on = |t: usize| match (course.get(t), course.get(t + 1)) {
        (Some(&At::Frame(roll, frame, way)), Some(&At::Frame(r, f, w))) => {
            let next = if way.upside_down {
                f + 1 == frame
            } else {
                frame + 1 == f
            };
            (roll, way) == (r, w) && next
        }
        _ => false,
    };
    let within = (first..end - 1).all(runs_on);
    if fault.kind != FaultKind::Foreign || fault.expected.is_some() || !within {
        return;
    }
    let by = -i64::try_from(fault.frames).unwrap_or(0);
    let doubled = if first > 0 && runs_on(first - 1) {
        let (low, _) = walk.slack(scan, course, (end, by));
        (low < first).then_some((low, end))
    } else if runs_on(end - 1) {
        let (_, high) = walk.slack(scan, course, (first, by));
        (high > end).then_some((first, high))
    } else {
        None
    };
    if let Some((earliest, latest)) = doubled {
        let kind = FaultKind::Doubled;
        *fault = ReelFault {
            kind,
            earliest,
            latest,
            ..*fault
        };
    }
}
