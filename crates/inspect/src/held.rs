//! Findings that wait until nothing can change them any more.

use std::ops::Range;

use crate::finding::{Finding, GradualKind};
use crate::fog::SHORTEST as SHORTEST_FOG;

/// Findings in order of place.
#[derive(Debug, Default)]
pub(crate) struct Held {
    findings: Vec<Finding>,
}

impl Held {
    /// Takes a finding in. A fade speaks before a dissolve that it overlaps by
    /// half, and the first of two of a kind before the second.
    pub(crate) fn add(&mut self, finding: Finding) {
        if let Finding::Gradual { kind, from, until } = finding {
            let dissolves = kind == GradualKind::Dissolve;
            if self.gradual().any(|(other, span)| {
                half_over(&span, &(from..until)) && (dissolves || other == kind)
            }) {
                return;
            }
            self.findings.retain(|held| match *held {
                Finding::Gradual {
                    kind: GradualKind::Dissolve,
                    from: start,
                    until: end,
                } => !half_over(&(start..end), &(from..until)),
                _ => true,
            });
        }
        let place = place_of(&finding);
        let after = self
            .findings
            .partition_point(|held| place_of(held) <= place);
        self.findings.insert(after, finding);
    }

    /// Takes in film without a picture at an end of the roll: what of it is no
    /// leader is fog.
    pub(crate) fn add_fog(&mut self, from: usize, until: usize) {
        let mut start = from as u32;
        let leaders: Vec<(u32, u32)> = self
            .findings
            .iter()
            .filter_map(|held| match *held {
                Finding::Leader { from, until, .. } => Some((from, until)),
                _ => None,
            })
            .filter(|leader| leader.0 >= start && leader.1 <= until as u32)
            .collect();
        for (first, after) in leaders.into_iter().chain([(until as u32, until as u32)]) {
            if first >= start + SHORTEST_FOG {
                self.add(Finding::Fog {
                    from: start,
                    until: first,
                });
            }
            start = after;
        }
    }

    fn gradual(&self) -> impl Iterator<Item = (GradualKind, Range<u32>)> {
        self.findings.iter().filter_map(|held| match *held {
            Finding::Gradual { kind, from, until } => Some((kind, from..until)),
            _ => None,
        })
    }

    /// Drops breaks in these frames.
    pub(crate) fn clear_breaks(&mut self, frames: &Range<usize>) {
        self.findings.retain(|held| {
            let is_break = matches!(held, Finding::Break { .. });
            !(is_break && frames.contains(&place_of(held)))
        });
    }

    /// Drops flashes in these frames.
    pub(crate) fn clear_flashes(&mut self, frames: &Range<usize>) {
        self.findings.retain(|held| {
            let is_flash = matches!(held, Finding::Flash { .. });
            !(is_flash && frames.contains(&place_of(held)))
        });
    }

    /// Gives what lies before frame `end`. What happens at once inside a fade or
    /// a dissolve belongs to it and is dropped.
    pub(crate) fn take_before(&mut self, end: usize) -> Vec<Finding> {
        let spans: Vec<(GradualKind, Range<u32>)> = self.gradual().collect();
        self.findings.retain(|held| match *held {
            Finding::Break { at, .. } | Finding::Flash { at, .. } => {
                !spans.iter().any(|(kind, span)| is_part_of(at, *kind, span))
            }
            _ => true,
        });
        let sure = self.findings.partition_point(|held| place_of(held) < end);
        self.findings.drain(..sure).collect()
    }
}

/// Whether a change at once is part of a gradual one. Where a fade out ends,
/// another picture may begin at once.
fn is_part_of(at: u32, kind: GradualKind, span: &Range<u32>) -> bool {
    let from = span.start.saturating_sub(1);
    match kind {
        GradualKind::FadeOut => (from..span.end).contains(&at),
        GradualKind::FadeIn | GradualKind::Dissolve => (from..=span.end).contains(&at),
    }
}

/// Whether the two share half of the shorter.
fn half_over(one: &Range<u32>, other: &Range<u32>) -> bool {
    let shared = one
        .end
        .min(other.end)
        .saturating_sub(one.start.max(other.start));
    2 * shared >= (one.end - one.start).min(other.end - other.start)
}

/// The first frame that a finding speaks of.
pub(crate) fn place_of(finding: &Finding) -> usize {
    match *finding {
        Finding::Break { at, .. } | Finding::Flash { at, .. } => at as usize,
        Finding::Fog { from, .. }
        | Finding::Leader { from, .. }
        | Finding::Black { from, .. }
        | Finding::Gradual { from, .. } => from as usize,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fades::gradual;
    use crate::finding::{Begins, BreakEvidence};

    fn cut(at: u32) -> Finding {
        Finding::Break {
            at,
            begins: Begins::Cut,
            flash_frames: 0,
            flash_stops: 0.0,
            evidence: BreakEvidence::default(),
        }
    }

    #[test]
    fn a_break_inside_a_dissolve_belongs_to_it() {
        let mut held = Held::default();
        let dissolve = gradual(GradualKind::Dissolve, 20, 40);
        for finding in [cut(10), cut(30), dissolve, cut(41), cut(60)] {
            held.add(finding);
        }
        assert_eq!(held.take_before(50), [cut(10), dissolve, cut(41)]);
        assert_eq!(held.take_before(100), [cut(60)]);
    }

    #[test]
    fn a_picture_may_begin_where_a_fade_out_ends() {
        let mut held = Held::default();
        let fade = gradual(GradualKind::FadeOut, 20, 40);
        for finding in [fade, cut(25), cut(40)] {
            held.add(finding);
        }
        assert_eq!(held.take_before(100), [fade, cut(40)]);
    }

    #[test]
    fn a_fade_speaks_before_a_dissolve() {
        let fade = gradual(GradualKind::FadeIn, 20, 40);
        let dissolve = gradual(GradualKind::Dissolve, 15, 38);
        for order in [[fade, dissolve], [dissolve, fade]] {
            let mut held = Held::default();
            order.into_iter().for_each(|finding| held.add(finding));
            assert_eq!(held.take_before(100), [fade]);
        }
    }
}
