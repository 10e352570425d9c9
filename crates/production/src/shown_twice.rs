//! Frames that a version brought in shows twice: told, not refused.

use std::collections::BTreeMap;

use onestrand_cut::TrialCut;
use onestrand_film::{FrameRange, RollId};

use crate::ImportProblem;

/// A remark for each piece that shows frames which an earlier line shows too.
///
/// It is no problem of the file: a version is a trial, and the strand check
/// refuses it with the ways out. But who brings it in is told at once, by line.
pub(crate) fn shown_twice(cut: &TrialCut, places: &[(u64, String)]) -> Vec<ImportProblem> {
    let mut on_roll: BTreeMap<&RollId, Vec<(FrameRange, usize)>> = BTreeMap::new();
    for (index, piece) in cut.pieces().iter().enumerate() {
        if let Some(span) = piece.span() {
            on_roll
                .entry(&span.roll)
                .or_default()
                .push((span.range, index));
        }
    }
    let mut told = Vec::new();
    for (roll, mut spans) in on_roll {
        spans.sort();
        // The span that reaches furthest of those before: whatever overlaps any
        // of them overlaps it or has been told already.
        let mut furthest: Option<(FrameRange, usize)> = None;
        for (range, index) in spans {
            if let Some((before, other)) = furthest
                && let Some(both) = before.overlap(range)
            {
                told.push(remark(
                    roll,
                    both,
                    index.max(other),
                    index.min(other),
                    places,
                ));
            }
            if furthest.is_none_or(|(before, _)| before.end() < range.end()) {
                furthest = Some((range, index));
            }
        }
    }
    told
}

fn remark(
    roll: &RollId,
    both: FrameRange,
    later: usize,
    earlier: usize,
    places: &[(u64, String)],
) -> ImportProblem {
    let line_of = |index: usize| places.get(index).map_or(0, |(line, _)| *line);
    let place = places.get(later).map(|(_, place)| place.clone());
    let frames = match both.len().count() {
        1 => "1 frame".to_owned(),
        n => format!("{n} frames"),
    };
    ImportProblem {
        line: line_of(later),
        column: place.unwrap_or_default(),
        message: format!(
            "{frames} of {roll}, {} to {}, are shown by line {} too: there is one strand. The \
             strand check says so and names the ways out",
            both.begin(),
            both.last(),
            line_of(earlier)
        ),
    }
}
