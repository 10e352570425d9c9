//! Takes that tile the roll between its fogged ends.

use crate::finding::{Begins, Finding};

/// A take as the picture shows it: frames `from` up to, not including, `until`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TakeSpan {
    /// First frame. Unit: frames of the roll, from 0.
    pub from: u32,
    /// First frame after it. Always above `from`.
    pub until: u32,
    /// Why it begins there.
    pub begins: Begins,
    /// Over-exposed frames at its start. Unit: frames.
    pub flash_frames: u32,
    /// By how much the first of them is over. Unit: stops; 0 without a flash.
    pub flash_stops: f32,
}

/// The takes of a roll of `total` frames, in order, without gap or overlap
/// from the end of the fog at its start to the beginning of the fog at its
/// end. `takes[i].from` for i ≥ 1 are the breaks. Empty for a roll without
/// frames or fogged from end to end.
///
/// # Examples
/// ```
/// use onestrand_inspect::{Begins, Finding, takes_from};
/// let fog = [Finding::Fog { from: 0, until: 24 }];
/// let takes = takes_from(&fog, 3_600);
/// assert_eq!((takes[0].from, takes[0].until), (24, 3_600));
/// assert_eq!(takes[0].begins, Begins::Fog);
/// assert!(takes_from(&[], 0).is_empty());
/// ```
pub fn takes_from(findings: &[Finding], total: u32) -> Vec<TakeSpan> {
    let (first, end) = between_fog(findings, total);
    let mut takes = vec![TakeSpan {
        from: first,
        until: end,
        begins: if first == 0 {
            Begins::RollStart
        } else {
            Begins::Fog
        },
        flash_frames: 0,
        flash_stops: 0.0,
    }];
    for take in findings.iter().filter_map(take_of) {
        let Some(last) = takes.last_mut() else {
            continue;
        };
        if take.from == first {
            // The take after the fog (or at the roll's head): its flash.
            (last.flash_frames, last.flash_stops) = (take.flash_frames, take.flash_stops);
        } else if take.from > last.from && take.from < end {
            last.until = take.from;
            takes.push(TakeSpan { until: end, ..take });
        }
    }
    takes.retain(|take| take.from < take.until);
    takes
}

fn take_of(finding: &Finding) -> Option<TakeSpan> {
    let Finding::Break {
        at,
        begins,
        flash_frames,
        flash_stops,
        ..
    } = *finding
    else {
        return None;
    };
    Some(TakeSpan {
        from: at,
        until: at,
        begins,
        flash_frames,
        flash_stops,
    })
}

fn between_fog(findings: &[Finding], total: u32) -> (u32, u32) {
    let mut span = (0, total);
    for finding in findings {
        if let Finding::Fog { from, until } = *finding {
            if from == 0 {
                span.0 = until.min(total);
            } else if until >= total {
                span.1 = from.max(span.0);
            }
        }
    }
    span
}
