//! Joins as printed sheets name them: those of a version, and those found in a roll.

use onestrand_cut::{JoinKind, JoinTable, TrialCut};
use onestrand_film::{FramePos, Frames};
use onestrand_sheets::{self as forms, After, FoundJoin, JoinBite};
use onestrand_store::RollRecord;

use crate::ProductionError;

/// What follows a row: nothing to join where the next one runs on.
pub(crate) fn after(cut: &TrialCut, index: usize) -> After {
    let pieces = cut.pieces();
    let runs_on = match (
        pieces[index].span(),
        pieces.get(index + 1).and_then(|p| p.span()),
    ) {
        (Some(a), Some(b)) => a.roll == b.roll && a.range.end() == b.range.begin(),
        _ => false,
    };
    if runs_on {
        return After::RunsOn;
    }
    After::Join(join_word(pieces[index].join.unwrap_or(cut.usual_join())))
}

pub(crate) const fn join_word(kind: JoinKind) -> forms::JoinKind {
    match kind {
        JoinKind::Tape => forms::JoinKind::Tape,
        JoinKind::Cement => forms::JoinKind::Cement,
        JoinKind::Weld => forms::JoinKind::Weld,
    }
}

/// The kinds of join in the cut, the usual one first, with what each eats.
pub(crate) fn joins(cut: &TrialCut, table: &JoinTable) -> Result<Vec<JoinBite>, ProductionError> {
    let mut kinds = vec![cut.usual_join()];
    for join in cut.pieces().iter().filter_map(|p| p.join) {
        if !kinds.contains(&join) {
            kinds.push(join);
        }
    }
    let one = |kind: JoinKind| {
        let bite = table.row(kind).bite;
        Ok(JoinBite {
            kind: join_word(kind),
            out_tail: Frames::new(u32::from(bite.out_tail))?,
            in_head: Frames::new(u32::from(bite.in_head))?,
        })
    };
    kinds.into_iter().map(one).collect()
}

/// The joins that were found in a roll when it was inspected.
pub(crate) fn found_joins(roll: &RollRecord) -> Result<Vec<FoundJoin>, ProductionError> {
    let joins = roll.inspection.joins.iter();
    let one = |join: &onestrand_store::RollJoinRecord| {
        Ok(FoundJoin {
            frame: FramePos::new(join.frame)?,
            kind: join.kind.replace('-', " "),
            note: join.note.clone(),
        })
    };
    joins.map(one).collect()
}
