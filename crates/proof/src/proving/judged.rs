//! Where the course of a reel is not its plan.

use super::course::{At, Walk};
use super::laid::Laid;
use super::replaced::{replaced, too_many};
use super::{ReelSpan, Wanted};
use crate::rolls::RollSketches;

/// What is wrong at a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum FaultKind {
    /// Frames of the plan that are not on the reel.
    Missing,
    /// Frames that are there twice.
    Doubled,
    /// A piece seen from the other side.
    Mirrored,
    /// A piece with its head where its tail should be.
    UpsideDown,
    /// A piece that stands elsewhere in the plan.
    Order,
    /// Pictures that the plan does not have.
    Foreign,
    /// A join off the frame line: pictures stand too high or too low after it.
    OutOfRack,
}

/// One fault of a reel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ReelFault {
    /// Frame of the scan at which it is met.
    pub at: usize,
    /// First frame of the scan at which it may be as well: where nothing moves it cannot
    /// be told to a frame.
    pub earliest: usize,
    /// Last frame of the scan at which it may be.
    pub latest: usize,
    /// What it is.
    pub kind: FaultKind,
    /// Frames it concerns.
    pub frames: usize,
    /// What the plan wants there: roll, first frame, one behind the last.
    pub expected: Option<(usize, usize, usize)>,
}

impl ReelFault {
    pub(super) fn new(at: usize, kind: FaultKind, frames: usize) -> Self {
        Self {
            at,
            earliest: at,
            latest: at,
            kind,
            frames,
            expected: None,
        }
    }
}

/// Runs of one roll, one way, one after the other.
pub(super) fn spans(course: &[At]) -> Vec<ReelSpan> {
    let mut spans: Vec<ReelSpan> = Vec::new();
    let mut last = None;
    for (t, &at) in course.iter().enumerate() {
        if let At::Frame(roll, frame, way) = at {
            let next = match last {
                Some(At::Frame(r, f, w)) if (r, w) == (roll, way) => {
                    if way.upside_down {
                        frame + 1 == f
                    } else {
                        f + 1 == frame
                    }
                }
                _ => false,
            };
            match spans.last_mut().filter(|_| next) {
                Some(span) => {
                    span.first = span.first.min(frame);
                    span.end = span.end.max(frame + 1);
                }
                None => spans.push(ReelSpan {
                    at: t,
                    roll,
                    first: frame,
                    end: frame + 1,
                    way,
                }),
            }
        }
        last = Some(at);
    }
    spans
}

/// All faults but joins out of rack.
pub(super) fn faults(
    scan: &RollSketches,
    (walk, course): (&Walk<'_>, &[At]),
    plan: &[Wanted],
) -> Vec<ReelFault> {
    let laid = Laid::of(course, plan);
    let mut faults = laid.turned(course);
    faults.extend(laid.out_of_order());
    faults.extend(laid.missing(plan));
    faults.extend(laid.not_planned(course, plan));
    replaced(&mut faults);
    for fault in &mut faults {
        let frames = i64::try_from(fault.frames).unwrap_or(0);
        let by = match fault.kind {
            FaultKind::Missing => frames,
            FaultKind::Doubled => -frames,
            _ => continue,
        };
        (fault.earliest, fault.latest) = walk.slack(scan, course, (fault.at, by));
    }
    for fault in &mut faults {
        too_many(fault, scan, walk, course);
    }
    faults
}
