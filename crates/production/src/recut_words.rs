//! A change of a re-cut in a film maker's words.

use onestrand_bench::{Price, RecutAct};
use onestrand_cut::{Piece, PieceKind, TrialCut};

/// What one change does: `lift 9 (3-T2)`. Positions that come in are those of the
/// new version.
pub(crate) fn change_words(price: &Price, old: &TrialCut, new: &TrialCut) -> String {
    let (was, is) = (&price.old_positions, &price.new_positions);
    match price.act {
        RecutAct::Lift => format!("lift {}", named(was, old)),
        RecutAct::Insert => format!("lay in {}", named(is, new)),
        RecutAct::Exchange => {
            format!("lift {}, lay in {}", named(was, old), named(is, new))
        }
        RecutAct::Trim => trimmed(was, is, (old, new)),
        RecutAct::Move => format!("move {}", named(was, old)),
    }
}

/// Positions with what stands there: `9 (3-T2) and 10 (leader)`.
pub(crate) fn named(positions: &[usize], cut: &TrialCut) -> String {
    let one = |position: &usize| {
        let piece = cut.pieces().get(position.wrapping_sub(1));
        match piece.and_then(what) {
            Some(what) => format!("{position} ({what})"),
            None => position.to_string(),
        }
    };
    let all: Vec<String> = positions.iter().map(one).collect();
    listed(&all)
}

fn what(piece: &Piece) -> Option<String> {
    match &piece.kind {
        PieceKind::Shot(_) => piece.slate.as_ref().map(ToString::to_string),
        PieceKind::Leader(_) => Some("leader".to_owned()),
        PieceKind::Card { title, .. } => Some(format!("card \u{201c}{title}\u{201d}")),
    }
}

/// One piece with other ends, or several of which some have.
fn trimmed(was: &[usize], is: &[usize], (old, new): (&TrialCut, &TrialCut)) -> String {
    if let ([was_at], [is_at]) = (was, is)
        && let (Some(before), Some(after)) = (span(old, *was_at), span(new, *is_at))
        && before.0 == after.0
    {
        let mut ends: Vec<String> = Vec::new();
        ends.extend(shifted("begins", before.1, after.1));
        ends.extend(shifted("ends", before.2, after.2));
        if !ends.is_empty() {
            return format!("{} {}", named(was, old), ends.join(" and "));
        }
    }
    match (was.is_empty(), is.is_empty()) {
        (false, _) => format!("trim {}", named(was, old)),
        (true, _) => format!("trim {}", named(is, new)),
    }
}

fn span(cut: &TrialCut, position: usize) -> Option<(&str, u32, u32)> {
    let span = cut.pieces().get(position.wrapping_sub(1))?.span()?;
    let range = span.range;
    Some((
        span.roll.as_str(),
        range.begin().index(),
        range.end().index(),
    ))
}

/// `ends 45 frames earlier`.
fn shifted(verb: &str, before: u32, after: u32) -> Option<String> {
    let by = before.abs_diff(after);
    let frames = match by {
        0 => return None,
        1 => "1 frame".to_owned(),
        n => format!("{n} frames"),
    };
    let way = if after > before { "later" } else { "earlier" };
    Some(format!("{verb} {frames} {way}"))
}

fn listed(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        [before @ .., last] => format!("{} and {last}", before.join(", ")),
    }
}
