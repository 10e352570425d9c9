//! The lines of the change list.

use onestrand_film::{FrameDelta, Frames};

use super::matched::Run;
use super::side::{Side, Sides};
use super::{Act, ChangeLine, delta, frames};

/// Stretches of a version, up to `end`, that no run covers; runs in order.
pub(super) fn gaps(runs: impl Iterator<Item = (u32, u32)>, end: u32) -> Vec<(u32, u32)> {
    let mut out = Vec::new();
    let mut at = 0;
    for (begin, count) in runs.chain([(end, 0)]) {
        if at < begin {
            out.push((at, begin));
        }
        at = at.max(begin + count);
    }
    out
}

pub(super) fn changes(sides: &Sides<'_>, stays: &[Run], moves: &[Run]) -> Vec<ChangeLine> {
    let mut lines = going_out(sides, stays, moves);
    lines.extend(coming_in(sides, stays, moves));
    // Where several fall on one frame: first what goes, then what comes, that
    // in the order of the new version.
    lines.sort_by_key(|l| (l.at, l.act.comes_in(), l.to));
    let mut landings: Vec<(u32, u32, i64)> = moves
        .iter()
        .map(|run| (anchor(stays, run.new), run.new, i64::from(run.frames)))
        .collect();
    landings.sort_unstable();
    let mut landed = landings.into_iter().peekable();
    let mut offset = 0;
    for line in &mut lines {
        // What was moved and comes in before this line has come in by then.
        let at = line.at.count();
        let comes = line.to.filter(|_| line.act.comes_in()).map(Frames::count);
        let before = |l: &(u32, u32, i64)| l.0 < at || l.0 == at && comes.is_some_and(|c| l.1 < c);
        while let Some((_, _, by)) = landed.next_if(before) {
            offset += by;
        }
        let by = i64::from(line.frames.count());
        offset += if line.act.comes_in() { by } else { -by };
        line.offset_after = delta(offset);
    }
    lines
}

/// The running frame of the old version behind the last that stays before a
/// running frame of the new one.
fn anchor(stays: &[Run], new: u32) -> u32 {
    let behind = stays.partition_point(|run| run.new < new);
    behind
        .checked_sub(1)
        .map_or(0, |at| stays[at].old + stays[at].frames)
}

fn going_out(sides: &Sides<'_>, stays: &[Run], moves: &[Run]) -> Vec<ChangeLine> {
    let old = &sides.old;
    let mut both: Vec<(u32, u32)> = stays
        .iter()
        .chain(moves)
        .map(|r| (r.old, r.frames))
        .collect();
    both.sort_unstable();
    let mut lines = Vec::new();
    for (from, to) in gaps(both.iter().copied(), *old.starts.last().unwrap_or(&0)) {
        for (piece, at, count) in old.parts(from, to) {
            let whole = count == old.pieces[piece].frames().count();
            let act = if whole || !touched(old, piece, &both) {
                Act::Lift
            } else {
                Act::Trim
            };
            lines.push(line(old, act, (piece, at, count), at, None));
        }
    }
    for run in moves {
        let piece = old.piece_at(run.old);
        let count = run.frames.min(old.starts[piece + 1] - run.old);
        let mut moved = line(
            old,
            Act::Move,
            (piece, run.old, count),
            run.old,
            Some(run.new),
        );
        moved.frames = frames(run.frames);
        lines.push(moved);
    }
    lines
}

fn coming_in(sides: &Sides<'_>, stays: &[Run], moves: &[Run]) -> Vec<ChangeLine> {
    let new = &sides.new;
    let mut both: Vec<(u32, u32)> = stays
        .iter()
        .chain(moves)
        .map(|r| (r.new, r.frames))
        .collect();
    both.sort_unstable();
    let mut lines = Vec::new();
    for (from, to) in gaps(both.iter().copied(), *new.starts.last().unwrap_or(&0)) {
        for (piece, at, count) in new.parts(from, to) {
            let act = if touched(new, piece, &both) {
                Act::Extend
            } else {
                Act::Insert
            };
            lines.push(line(
                new,
                act,
                (piece, at, count),
                anchor(stays, at),
                Some(at),
            ));
        }
    }
    lines
}

/// Whether some frames of a piece stand in both versions; `both` in order.
fn touched(side: &Side<'_>, piece: usize, both: &[(u32, u32)]) -> bool {
    let (begin, end) = (side.starts[piece], side.starts[piece + 1]);
    let behind = both.partition_point(|run| run.0 < end);
    behind
        .checked_sub(1)
        .is_some_and(|at| both[at].0 + both[at].1 > begin)
}

fn line(
    side: &Side<'_>,
    act: Act,
    (piece, from, count): (usize, u32, u32),
    at: u32,
    to: Option<u32>,
) -> ChangeLine {
    ChangeLine {
        at: frames(at),
        act,
        frames: frames(count),
        film: side.film(piece, from, count),
        slate: side.pieces[piece].slate.clone(),
        to: to.map(frames),
        offset_after: FrameDelta::default(),
    }
}
