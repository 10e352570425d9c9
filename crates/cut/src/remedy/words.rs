//! Ways out in the user's words, and as changes.

use onestrand_film::{FrameRange, Span};

use super::bounds::ShiftCost;
use super::layout::{Spot, Trial};
use super::{Faults, Remedy, RemedyKind, WaysOut};
use crate::{Change, JoinKind, Piece, PieceKind, TrialCut};

impl WaysOut<'_> {
    pub(super) fn shift(
        &self,
        trial: &Trial,
        cost: ShiftCost,
        strict: &Faults,
        quarrel: &[usize],
    ) -> Remedy {
        let mut changes = Vec::new();
        let mut said = Vec::new();
        for (piece, spot) in &trial.spots {
            let was = &self.cut.pieces()[*piece];
            let Some(now) = moved(was, *spot) else {
                continue;
            };
            said.push(shifted(*piece + 1, self.layout.spots[*piece], *spot, &now));
            let piece_now = Piece {
                kind: PieceKind::Shot(now),
                ..was.clone()
            };
            changes.push(replace(*piece, piece_now));
        }
        let by = match said.as_slice() {
            [(_, Some(by))] => by.clone(),
            _ => format!("{} in all", frames_in_words(cost.frames)),
        };
        let said: Vec<String> = said.into_iter().map(|s| s.0).collect();
        Remedy {
            kind: RemedyKind::Shift,
            text: format!("{}, {by}", said.join("; ")),
            joins: cost.joins,
            frames: u32::try_from(cost.frames).unwrap_or(u32::MAX),
            mends: true,
            warns: !self.reaches(trial, strict, quarrel),
            change: one_change(changes),
        }
    }

    pub(super) fn other_join(&self, trial: &Trial, strict: &Faults, quarrel: &[usize]) -> Remedy {
        Remedy {
            kind: RemedyKind::OtherJoin,
            text: joins_in_words(trial, self.cut.pieces().len()),
            joins: trial.kinds.len(),
            frames: 0,
            mends: true,
            warns: !self.reaches(trial, strict, quarrel),
            change: other_kinds(trial, self.cut),
        }
    }
}

/// Several changes as one; a single one as itself.
pub(super) fn one_change(mut changes: Vec<Change>) -> Change {
    match changes.len() {
        1 => changes.remove(0),
        _ => Change::All(changes),
    }
}

pub(super) const fn replace(at: usize, piece: Piece) -> Change {
    Change::Replace { at, piece }
}

fn moved(was: &Piece, spot: Spot) -> Option<Span> {
    let at = |frame: i64| u32::try_from(frame).ok();
    let range = FrameRange::of(at(spot.begin)?, at(spot.end)?).ok()?;
    Some(Span::new(was.span()?.roll.clone(), range))
}

/// What is done to a piece, and by how much when one figure says it.
fn shifted(position: usize, was: Spot, now: Spot, span: &Span) -> (String, Option<String>) {
    let (roll, range) = (&span.roll, span.range);
    let (begin, last) = (range.begin(), range.last());
    let (head, tail) = (now.begin - was.begin, now.end - was.end);
    let way = |by: i64| {
        let when = if by > 0 { "later" } else { "earlier" };
        Some(format!("{} {when}", frames_in_words(by.unsigned_abs())))
    };
    match (head, tail) {
        (_, 0) => (format!("start {position} at {roll}·{begin}"), way(head)),
        (0, _) => (format!("end {position} at {roll}·{last}"), way(tail)),
        _ => {
            let said = format!("take {position} from {roll}·{begin} to {last}");
            (said, (head == tail).then(|| way(head)).flatten())
        }
    }
}

pub(super) fn frames_in_words(frames: u64) -> String {
    match frames {
        1 => "1 frame".to_owned(),
        n => format!("{n} frames"),
    }
}

fn joins_in_words(trial: &Trial, pieces: usize) -> String {
    let place = |gap: usize| match gap {
        0 => "head leader | 1".to_owned(),
        gap if gap == pieces => format!("{gap} | tail leader"),
        gap => format!("{gap} | {}", gap + 1),
    };
    let each: Vec<String> = trial
        .kinds
        .iter()
        .map(|(gap, kind)| format!("{} with {kind}", place(*gap)))
        .collect();
    match each.as_slice() {
        [one] => format!("make join {one}"),
        several => format!("make joins {}", several.join(" and ")),
    }
}

/// The joins of a trial as a change. The head leader always takes the usual
/// join: when that one changes, the others are written down as they were.
pub(super) fn other_kinds(trial: &Trial, cut: &TrialCut) -> Change {
    let usual = trial.kinds.iter().find(|k| k.0 == 0).map(|k| k.1);
    let mut changes: Vec<Change> = usual.map(Change::UsualJoin).into_iter().collect();
    for (at, piece) in cut.pieces().iter().enumerate() {
        let tried = trial.kinds.iter().find(|k| k.0 == at + 1).map(|k| k.1);
        let kept: Option<JoinKind> = match usual {
            Some(_) => piece.join.or(Some(cut.usual_join())),
            None => piece.join,
        };
        let join = tried.or(kept);
        if join != piece.join {
            let piece = Piece {
                join,
                ..piece.clone()
            };
            changes.push(replace(at, piece));
        }
    }
    one_change(changes)
}
