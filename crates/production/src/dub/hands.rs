//! Whose fader moves when.

use std::collections::BTreeMap;

use onestrand_dub::{HandMove, hand_score};

use crate::documents::{
    ColumnDocument, CueDocument, CueStateWord, HandMoveDocument, HandScoreDocument,
    HandsFullDocument,
};

/// The hand score of the cues that have a place.
pub(crate) fn hands(
    columns: &[ColumnDocument],
    cues: &[CueDocument],
    hands: u32,
) -> HandScoreDocument {
    let mut moves: Vec<HandMoveDocument> = cues
        .iter()
        .filter(|cue| cue.state != CueStateWord::Orphan)
        .flat_map(|cue| moves_of(cue, columns))
        .collect();
    moves.sort_by_key(|m| (m.from, m.to, m.column, m.cue));
    let place = |column: i64| columns.iter().position(|known| known.id == column);
    let fader = faders(columns);
    // Columns go in as their places, so that of equals the leftmost are laid together.
    let by_place: Vec<HandMove> = moves
        .iter()
        .filter_map(|m| {
            Some(HandMove {
                column: i64::try_from(place(m.column)?).ok()?,
                fader: *fader.get(&m.column)?,
                from: m.from,
                to: m.to,
            })
        })
        .collect();
    let score = hand_score(&by_place, hands as usize);
    let number = |place: &i64| usize::try_from(*place).ok().map(|at| columns[at].id);
    let numbers = |places: &[i64]| places.iter().filter_map(number).collect();
    let counted = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
    HandScoreDocument {
        most: counted(score.most),
        most_at: score.most_at,
        hands,
        too_many: score
            .too_many
            .iter()
            .map(|full| HandsFullDocument {
                from: full.from,
                to: full.to,
                moves: counted(full.moves),
                columns: numbers(&full.columns),
            })
            .collect(),
        lay_together: numbers(&score.lay_together),
        most_then: counted(score.most_then),
        moves,
    }
}

/// The fader of each column: its own, or the one of the first column on its tape.
fn faders(columns: &[ColumnDocument]) -> BTreeMap<i64, i64> {
    let mut tapes: BTreeMap<String, i64> = BTreeMap::new();
    let one = |known: &ColumnDocument| {
        let tape = known.column.tape.trim().to_lowercase();
        let fader = match tape.as_str() {
            "" => known.id,
            _ => *tapes.entry(tape).or_insert(known.id),
        };
        (known.id, fader)
    };
    columns.iter().map(one).collect()
}

/// The moves of a cue: its fades, and where its level line goes up or down.
fn moves_of(cue: &CueDocument, columns: &[ColumnDocument]) -> Vec<HandMoveDocument> {
    let words = &cue.cue;
    let column = columns.iter().find(|known| known.id == words.column);
    let name = match (words.name.trim(), column) {
        ("", Some(column)) => column.column.name.clone(),
        (name, _) => name.to_owned(),
    };
    let end = cue.at + i64::from(cue.frames);
    let moved = |from: i64, to: i64, way: &str| HandMoveDocument {
        column: words.column,
        cue: cue.id,
        from,
        to,
        what: format!("{name} {way}"),
    };
    let mut moves = Vec::new();
    if words.fade_in.frames > 0 {
        let to = cue.at + i64::from(words.fade_in.frames.min(cue.frames));
        moves.push(moved(cue.at, to, "up"));
    }
    for two in words.line.windows(2) {
        let (from, to) = (two[0], two[1]);
        if from.level != to.level && from.at < cue.frames {
            let way = if from.level < to.level { "up" } else { "down" };
            let place = |at: u32| cue.at + i64::from(at.min(cue.frames));
            moves.push(moved(place(from.at), place(to.at), way));
        }
    }
    if words.fade_out.frames > 0 {
        let long = i64::from(words.fade_out.frames.min(cue.frames));
        moves.push(moved(end - long, end, "down"));
    }
    moves
}
