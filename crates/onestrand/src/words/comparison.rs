//! The change list between two versions in words.

use onestrand_production::documents::{ChangeLineDocument, ComparedDocument, PieceForm};

use super::counted;

pub(crate) fn compared(found: &ComparedDocument) -> String {
    let count = |frames: u32| counted(u64::from(frames));
    let mut lines = vec![format!(
        "from {} ({} frames) to {} ({} frames): {} stay in order, {} move, {} go out, {} come in",
        found.from,
        count(found.from_frames),
        found.to,
        count(found.to_frames),
        count(found.held),
        count(found.moved),
        count(found.out),
        count(found.new_frames),
    )];
    if found.changes.is_empty() {
        lines.push("no frame of film is changed".to_owned());
    }
    lines.extend(found.changes.iter().map(line));
    lines.join("\n")
}

pub(super) fn line(change: &ChangeLineDocument) -> String {
    let to = change
        .to
        .map(|to| format!(" to {}", counted(u64::from(to))))
        .unwrap_or_default();
    format!(
        "  at {:>6}  {:<7} {:>5} frames  {}{to}; what follows lies {:+}",
        counted(u64::from(change.at)),
        change.word,
        counted(u64::from(change.frames)),
        film(&change.film),
        change.offset_after,
    )
}

/// `R2·547 to 606 (3B-T2)`; of leader and cards what they are.
fn film(piece: &PieceForm) -> String {
    let slate = piece
        .slate
        .as_ref()
        .map(|slate| format!(" ({slate})"))
        .unwrap_or_default();
    match (&piece.roll, piece.first, piece.thrown) {
        (Some(roll), Some(first), Some(thrown)) => {
            format!("{roll}\u{b7}{first} to {}{slate}", thrown.saturating_sub(1))
        }
        _ => match &piece.title {
            Some(title) => format!("card “{title}”"),
            None => "leader".to_owned(),
        },
    }
}
