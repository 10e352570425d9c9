//! What a change of a cut is called in the journal, so that whoever takes it
//! back knows what goes.

use onestrand_cut::{Change, Piece, PieceKind, TrialCut};
use onestrand_film::Span;

/// More changes than this at once are only counted.
const NAMED: usize = 3;

/// A change in words: `start 8 at R1·2939 in v1`.
pub(crate) fn cut_change_words(name: &str, before: &TrialCut, change: &Change) -> String {
    let mut cut = before.clone();
    let mut steps = Vec::new();
    gather(&mut cut, change, &mut steps);
    match steps.len() {
        0 => format!("change {name}"),
        n if n > NAMED => format!("make {n} changes in {name}"),
        _ => format!("{} in {name}", steps.join("; ")),
    }
}

/// Each step on the cut as it stands by then; one that is refused ends it.
fn gather(cut: &mut TrialCut, change: &Change, steps: &mut Vec<String>) {
    if let Change::All(changes) = change {
        for each in changes {
            gather(cut, each, steps);
        }
        return;
    }
    // What cannot be done has no words; its positions may be any numbers.
    if let Ok((next, _)) = cut.apply(change) {
        steps.push(step(cut, change));
        *cut = next;
    }
}

fn step(cut: &TrialCut, change: &Change) -> String {
    match change {
        Change::Insert { at, piece } => format!("lay {} in as {}", called(piece), at + 1),
        Change::Remove { at } => match cut.pieces().get(*at) {
            Some(piece) => format!("lift {} ({})", at + 1, called(piece)),
            None => format!("lift {}", at + 1),
        },
        Change::Replace { at, piece } => match cut.pieces().get(*at) {
            Some(was) => replaced(*at, was, piece, cut.pieces().len()),
            None => format!("change {}", at + 1),
        },
        Change::Move { from, to } => format!("move {} to {}", from + 1, to + 1),
        Change::UsualJoin(kind) => format!("join with {kind}"),
        Change::All(_) => String::new(),
    }
}

/// A piece as one speaks of it: its slate, else its frames.
fn called(piece: &Piece) -> String {
    match (&piece.kind, &piece.slate) {
        (PieceKind::Shot(_), Some(slate)) => slate.to_string(),
        (PieceKind::Shot(span), None) => frames_of(span),
        (PieceKind::Leader(frames), _) => format!("{} frames of leader", frames.count()),
        (PieceKind::Card { title, .. }, _) => format!("the card “{title}”"),
    }
}

fn frames_of(span: &Span) -> String {
    let range = span.range;
    format!("{}·{} to {}", span.roll, range.begin(), range.last())
}

fn replaced(at: usize, was: &Piece, now: &Piece, pieces: usize) -> String {
    let position = at + 1;
    if let (Some(old), Some(new)) = (was.span(), now.span()) {
        if let Some(words) = trimmed(position, old, new) {
            return words;
        }
    } else if was.frames() != now.frames() {
        return format!("give {position} {} frames", now.frames().count());
    }
    if was.join != now.join {
        let next = if position == pieces {
            "tail leader".to_owned()
        } else {
            (position + 1).to_string()
        };
        return match now.join {
            Some(kind) => format!("join {position} | {next} with {kind}"),
            None => format!("join {position} | {next} as usual"),
        };
    }
    if was.note == now.note {
        format!("change {position}")
    } else {
        format!("write on {position}")
    }
}

/// Which end of a piece is moved; nothing when neither is.
fn trimmed(position: usize, old: &Span, new: &Span) -> Option<String> {
    let (was, now) = (old.range, new.range);
    let same_roll = old.roll == new.roll;
    match (was.begin() == now.begin(), was.end() == now.end()) {
        (true, true) if same_roll => None,
        (false, true) if same_roll => {
            Some(format!("start {position} at {}·{}", new.roll, now.begin()))
        }
        (true, false) if same_roll => {
            Some(format!("end {position} at {}·{}", new.roll, now.last()))
        }
        _ => Some(format!("take {} for {position}", frames_of(new))),
    }
}

#[cfg(test)]
mod tests {
    use onestrand_cut::JoinKind;
    use onestrand_film::{FramePos, FrameRange, Frames};

    use super::*;

    fn shot(slate: &str, first: u32, thrown: u32) -> Piece {
        let at = |frame| FramePos::new(frame).unwrap();
        let range = FrameRange::new(at(first), at(thrown)).unwrap();
        let mut piece = Piece::shot(Span {
            roll: "R1".parse().unwrap(),
            range,
        });
        piece.slate = slate.parse().ok();
        piece
    }

    fn cut() -> TrialCut {
        let pieces = vec![shot("3-T2", 2813, 2939), shot("", 2996, 3122)];
        TrialCut::new(pieces, JoinKind::Tape)
    }

    fn said(change: &Change) -> String {
        cut_change_words("v1", &cut(), change)
    }

    fn instead(piece: Piece) -> Change {
        Change::Replace { at: 1, piece }
    }

    #[test]
    fn an_end_that_is_moved_is_named_with_its_frame() {
        assert_eq!(
            said(&instead(shot("", 2939, 3122))),
            "start 2 at R1·2939 in v1"
        );
        assert_eq!(
            said(&instead(shot("", 2996, 3100))),
            "end 2 at R1·3099 in v1"
        );
        assert_eq!(
            said(&instead(shot("", 10, 20))),
            "take R1·10 to 19 for 2 in v1"
        );
    }

    #[test]
    fn what_is_lifted_or_laid_in_is_called_by_its_slate() {
        assert_eq!(said(&Change::Remove { at: 0 }), "lift 1 (3-T2) in v1");
        assert_eq!(
            said(&Change::Remove { at: 1 }),
            "lift 2 (R1·2996 to 3121) in v1"
        );
        let leader = Piece::leader(Frames::new(36).unwrap());
        let laid = Change::Insert {
            at: 2,
            piece: leader,
        };
        assert_eq!(said(&laid), "lay 36 frames of leader in as 3 in v1");
    }

    #[test]
    fn joins_notes_and_places() {
        let mut welded = shot("", 2996, 3122);
        welded.join = Some(JoinKind::Weld);
        assert_eq!(
            said(&instead(welded)),
            "join 2 | tail leader with weld in v1"
        );
        let mut noted = shot("", 2996, 3122);
        noted.note = "the ferry leaves".to_owned();
        assert_eq!(said(&instead(noted)), "write on 2 in v1");
        assert_eq!(said(&Change::Move { from: 1, to: 0 }), "move 2 to 1 in v1");
        assert_eq!(
            said(&Change::UsualJoin(JoinKind::Cement)),
            "join with cement in v1"
        );
    }

    #[test]
    fn several_are_named_in_order_and_many_are_counted() {
        let lift = Change::Remove { at: 0 };
        let both = Change::All(vec![instead(shot("", 2939, 3122)), lift.clone()]);
        assert_eq!(said(&both), "start 2 at R1·2939; lift 1 (3-T2) in v1");
        let moves = vec![Change::Move { from: 1, to: 0 }; 4];
        assert_eq!(said(&Change::All(moves)), "make 4 changes in v1");
        // What the sheet has no place for is refused later, by the store.
        assert_eq!(said(&Change::Remove { at: 9 }), "change v1");
    }
}
