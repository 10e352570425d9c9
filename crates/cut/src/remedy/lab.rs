//! A note that a laboratory is to print something.

use super::words::replace;
use super::{Remedy, RemedyKind};
use crate::{Conflict, ConflictKind, Piece, TrialCut};

/// The note, where a print would settle it: film wanted twice, film that must
/// not be cut or is of another gauge, and effects.
pub(super) fn noted(cut: &TrialCut, conflict: &Conflict, nothing_mends: bool) -> Option<Remedy> {
    let wanted = match conflict.kind {
        ConflictKind::Doubled
        | ConflictKind::Effect
        | ConflictKind::Protected
        | ConflictKind::Gauge => true,
        ConflictKind::Bite => nothing_mends,
        _ => false,
    };
    if !wanted {
        return None;
    }
    // Of two pieces that want the same film the shorter is the cheaper print.
    let at = conflict
        .positions
        .iter()
        .map(|p| p - 1)
        .filter(|at| {
            let span = cut.pieces()[*at].span();
            span.is_some_and(|s| conflict.roll.as_ref().is_none_or(|r| *r == s.roll))
        })
        .min_by_key(|at| cut.pieces()[*at].frames())?;
    let piece = &cut.pieces()[at];
    let words = note(piece)?;
    if piece.note.contains(&words) {
        return None;
    }
    let mut now = piece.clone();
    if !now.note.is_empty() {
        now.note.push_str("; ");
    }
    now.note.push_str(&words);
    Some(Remedy {
        kind: RemedyKind::Lab,
        text: format!(
            "note on {}: {words}; refused until the print has come",
            at + 1
        ),
        joins: 0,
        frames: 0,
        mends: false,
        warns: false,
        change: replace(at, now),
    })
}

/// What the laboratory is to make: `laboratory print of R1·2900 to 2929`.
fn note(piece: &Piece) -> Option<String> {
    let span = piece.span()?;
    let range = span.range;
    let what = match piece.effect {
        Some(effect) => format!("laboratory print with {}", effect.word()),
        None => "laboratory print".to_owned(),
    };
    Some(format!(
        "{what} of {}·{} to {}",
        span.roll,
        range.begin(),
        range.last()
    ))
}
