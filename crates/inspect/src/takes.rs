//! Takes that tile the roll between the fog and the leader at its ends.

use crate::finding::{Begins, Finding, GradualKind};

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
/// from the end of the fog or leader at its start to the beginning of that at
/// its end. `takes[i].from` for i ≥ 1 are the breaks. Empty for a roll without
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
    let (first, begins, end) = between_ends(findings, total);
    let mut takes = vec![TakeSpan {
        from: first,
        until: end,
        begins,
        flash_frames: 0,
        flash_stops: 0.0,
    }];
    for take in likely(findings).filter_map(take_of) {
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

/// The places where one picture gives way to another, as a list of changes
/// counts them: the first frame after a break, the first of a fade in, the last
/// of a fade out, the middle of a dissolve.
///
/// # Examples
/// ```
/// use onestrand_inspect::{Finding, GradualKind, places_of_change};
/// let dissolve = Finding::Gradual { kind: GradualKind::Dissolve, from: 20, until: 40 };
/// assert_eq!(places_of_change(&[dissolve]), [30]);
/// ```
pub fn places_of_change(findings: &[Finding]) -> Vec<u32> {
    let place = |finding: &Finding| match *finding {
        Finding::Break { at, .. } => Some(at),
        Finding::Gradual { kind, from, until } => Some(match kind {
            GradualKind::FadeIn => from,
            GradualKind::FadeOut => until.saturating_sub(1),
            GradualKind::Dissolve => middle_of(from, until),
        }),
        _ => None,
    };
    likely(findings).filter_map(place).collect()
}

/// All findings, but where the camera flashes whenever it starts not the breaks
/// that small jumps of figures alone speak for: there a jump without a flash is
/// what the figures do.
fn likely(findings: &[Finding]) -> impl Iterator<Item = &Finding> {
    /// So many breaks tell what the camera does, when nine in ten flash.
    const ENOUGH: usize = 5;
    let sure = || {
        findings.iter().filter_map(|finding| match *finding {
            Finding::Break {
                flash_frames,
                evidence,
                ..
            } => (!evidence.only_in_one_place).then_some(flash_frames > 0),
            _ => None,
        })
    };
    let (all, flashed) = (sure().count(), sure().filter(|flashed| *flashed).count());
    let flashes = all >= ENOUGH && 10 * flashed >= 9 * all;
    let small = |finding: &&Finding| matches!(finding, Finding::Break { evidence, .. } if evidence.only_in_one_place);
    findings
        .iter()
        .filter(move |finding| !(flashes && small(finding)))
}

fn middle_of(from: u32, until: u32) -> u32 {
    from + until.saturating_sub(from) / 2
}

/// The take that a finding begins. One that comes out of a dissolve begins in
/// its middle, where most of the light is its own.
fn take_of(finding: &Finding) -> Option<TakeSpan> {
    let at_once = |from, begins| TakeSpan {
        from,
        until: from,
        begins,
        flash_frames: 0,
        flash_stops: 0.0,
    };
    match *finding {
        Finding::Break {
            at,
            begins,
            flash_frames,
            flash_stops,
            ..
        } => Some(TakeSpan {
            flash_frames,
            flash_stops,
            ..at_once(at, begins)
        }),
        Finding::Gradual { kind, from, until } => match kind {
            GradualKind::FadeIn => Some(at_once(from, Begins::Fade)),
            GradualKind::Dissolve => Some(at_once(middle_of(from, until), Begins::Fade)),
            GradualKind::FadeOut => None,
        },
        _ => None,
    }
}

/// What lies between the fog and the leader at both ends, and why it begins.
/// Leader is always joined on.
fn between_ends(findings: &[Finding], total: u32) -> (u32, Begins, u32) {
    let (mut first, mut begins, mut end) = (0, Begins::RollStart, total);
    let bare = |finding: &Finding| match *finding {
        Finding::Fog { from, until } => Some((from, until, Begins::Fog)),
        Finding::Leader { from, until, .. } => Some((from, until, Begins::Join)),
        _ => None,
    };
    let mut stretches: Vec<(u32, u32, Begins)> = findings.iter().filter_map(bare).collect();
    stretches.sort_by_key(|stretch| stretch.0);
    for &(from, until, why) in &stretches {
        if from == first {
            (first, begins) = (until.min(total), why);
        }
    }
    for &(from, until, _) in stretches.iter().rev() {
        if until >= end && from >= first {
            end = from;
        }
    }
    (first, begins, end.max(first))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::BreakEvidence;

    fn stop(at: u32, flash_frames: u32, only_in_one_place: bool) -> Finding {
        Finding::Break {
            at,
            begins: Begins::CameraStop,
            flash_frames,
            flash_stops: 0.0,
            evidence: BreakEvidence {
                only_in_one_place,
                ..BreakEvidence::default()
            },
        }
    }

    #[test]
    fn small_jumps_without_a_flash_are_no_breaks_where_the_camera_always_flashes() {
        let mut findings: Vec<Finding> = (1..=5).map(|n| stop(100 * n, 1, false)).collect();
        findings.push(stop(550, 0, true));
        assert_eq!(places_of_change(&findings), [100, 200, 300, 400, 500]);
        assert_eq!(takes_from(&findings, 900).len(), 6);
        // It does not always flash.
        findings.push(stop(600, 0, false));
        assert_eq!(places_of_change(&findings).len(), 7);
        assert_eq!(takes_from(&findings, 900).len(), 8);
        // Too few breaks tell.
        assert_eq!(places_of_change(&findings[2..6]), [300, 400, 500, 550]);
    }
}
