//! Ways out of a conflict, each tried before it is offered.

use onestrand_film::{FrameDelta, FrameRange};

use crate::{
    Certificate, Change, CheckRules, Conflict, ConflictKind, JoinKind, Piece, PieceKind, Strand,
    TrialCut, check,
};

/// The kinds of way out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum RemedyKind {
    /// Begin or end a piece some frames elsewhere.
    Shift,
    /// Make one join in another way.
    OtherJoin,
}

impl RemedyKind {
    /// The word in commands and files.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Shift => "shift",
            Self::OtherJoin => "other_join",
        }
    }
}

/// One way out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Remedy {
    /// Its kind.
    pub kind: RemedyKind,
    /// In the user's words.
    pub text: String,
    /// Frames of picture given up.
    pub frames: u32,
    /// The change that does it.
    pub change: Change,
}

/// The simple ways out of one conflict, cheapest first.
///
/// Each has been tried: after it the conflict is gone, and nothing is refused
/// that was not refused before.
#[must_use]
pub fn remedies(
    conflict: &Conflict,
    cut: &TrialCut,
    strand: &Strand,
    rules: &CheckRules,
) -> Vec<Remedy> {
    let before = check(cut, strand, rules);
    let mut ways = other_joins(conflict, cut);
    ways.extend(shifts(conflict, cut));
    let mut good: Vec<Remedy> = ways
        .into_iter()
        .filter(|way| mends(way, conflict, cut, strand, rules, &before))
        .collect();
    good.sort_by_key(|way| (way.frames, way.kind));
    least_of_each_end(good, cut)
}

fn mends(
    way: &Remedy,
    conflict: &Conflict,
    cut: &TrialCut,
    strand: &Strand,
    rules: &CheckRules,
    before: &Certificate,
) -> bool {
    let Ok((next, _)) = cut.apply(&way.change) else {
        return false;
    };
    let after = check(&next, strand, rules);
    let known = |c: &Conflict| {
        before
            .refused()
            .any(|b| b.kind == c.kind && b.positions == c.positions)
    };
    let still = |c: &&Conflict| c.kind == conflict.kind && c.positions == conflict.positions;
    after.conflicts.iter().find(still).is_none()
        && after.refused().all(known)
        && after.refused().count() < before.refused().count().max(1)
}

/// The join after each position named, made in each other way.
fn other_joins(conflict: &Conflict, cut: &TrialCut) -> Vec<Remedy> {
    if !matches!(
        conflict.kind,
        ConflictKind::Bite | ConflictKind::Base | ConflictKind::OutsideRoll
    ) {
        return Vec::new();
    }
    let mut ways = Vec::new();
    for &position in &conflict.positions {
        let candidates = [position.checked_sub(1), Some(position)];
        for after in candidates.into_iter().flatten().filter(|p| *p > 0) {
            let Some(piece) = cut.pieces().get(after - 1) else {
                continue;
            };
            let now = piece.join.unwrap_or(cut.usual_join());
            // Neighbouring positions share the join between them.
            for kind in other_kinds(now) {
                let way = other_join(after, piece, kind, cut);
                if !ways.contains(&way) {
                    ways.push(way);
                }
            }
        }
    }
    ways
}

fn other_kinds(now: JoinKind) -> impl Iterator<Item = JoinKind> {
    JoinKind::ALL.into_iter().filter(move |k| *k != now)
}

fn other_join(after: usize, piece: &Piece, kind: JoinKind, cut: &TrialCut) -> Remedy {
    let place = if after == cut.pieces().len() {
        format!("{after} | tail leader")
    } else {
        format!("{after} | {}", after + 1)
    };
    Remedy {
        kind: RemedyKind::OtherJoin,
        text: format!("make join {place} with {kind}"),
        frames: 0,
        change: Change::Replace {
            at: after - 1,
            piece: Piece {
                join: Some(kind),
                ..piece.clone()
            },
        },
    }
}

/// Each named piece begun later or ended earlier by as many frames as it takes.
fn shifts(conflict: &Conflict, cut: &TrialCut) -> Vec<Remedy> {
    let Some((begin, end)) = conflict.span else {
        return Vec::new();
    };
    let mut ways = Vec::new();
    for &position in &conflict.positions {
        let Some(piece) = cut.pieces().get(position - 1) else {
            continue;
        };
        let Some(span) = piece.span() else { continue };
        if conflict.roll.as_ref() != Some(&span.roll) {
            continue;
        }
        let first = i64::from(span.range.begin().index());
        let thrown = i64::from(span.range.end().index());
        // A join's own bite moves along with the cut, so the frames named may
        // have to be cleared by up to one bite more on either side.
        for slack in 0..=2 {
            ways.extend(later(position, piece, end + slack - first));
            ways.extend(earlier(position, piece, thrown - (begin - slack)));
        }
    }
    ways
}

/// Of several shifts of one end of a piece only the least is offered; `ways`
/// come in rising order of frames.
fn least_of_each_end(ways: Vec<Remedy>, cut: &TrialCut) -> Vec<Remedy> {
    let mut ends: Vec<(usize, bool)> = Vec::new();
    ways.into_iter()
        .filter(|way| match shifted_end(way, cut) {
            Some(end) if ends.contains(&end) => false,
            Some(end) => {
                ends.push(end);
                true
            }
            None => true,
        })
        .collect()
}

/// Which piece a shift is of, and whether its first frame is the one moved.
fn shifted_end(way: &Remedy, cut: &TrialCut) -> Option<(usize, bool)> {
    let Change::Replace { at, piece } = &way.change else {
        return None;
    };
    let before = cut.pieces().get(*at)?.span()?;
    let after = piece.span()?;
    (way.kind == RemedyKind::Shift).then_some((*at, before.range.begin() != after.range.begin()))
}

fn later(position: usize, piece: &Piece, frames: i64) -> Option<Remedy> {
    let span = piece.span()?;
    let by = FrameDelta::new(i32::try_from(frames).ok().filter(|f| *f > 0)?).ok()?;
    let begin = span.range.begin().moved(by).ok()?;
    let range = FrameRange::new(begin, span.range.end()).ok()?;
    let text = format!(
        "start {position} at {}·{begin}, {} later",
        span.roll,
        frames_in_words(by)
    );
    Some(shift(position, piece, range, text, by))
}

fn earlier(position: usize, piece: &Piece, frames: i64) -> Option<Remedy> {
    let span = piece.span()?;
    let by = FrameDelta::new(i32::try_from(frames).ok().filter(|f| *f > 0)?).ok()?;
    let back = FrameDelta::new(-by.frames()).ok()?;
    let end = span.range.end().moved(back).ok()?;
    let range = FrameRange::new(span.range.begin(), end).ok()?;
    let text = format!(
        "end {position} at {}·{}, {} earlier",
        span.roll,
        range.last(),
        frames_in_words(by)
    );
    Some(shift(position, piece, range, text, by))
}

fn frames_in_words(by: FrameDelta) -> String {
    match by.frames() {
        1 => "1 frame".to_owned(),
        n => format!("{n} frames"),
    }
}

fn shift(
    position: usize,
    piece: &Piece,
    range: FrameRange,
    text: String,
    by: FrameDelta,
) -> Remedy {
    let mut next = piece.clone();
    if let PieceKind::Shot(span) = &mut next.kind {
        span.range = range;
    }
    Remedy {
        kind: RemedyKind::Shift,
        text,
        frames: by.frames().unsigned_abs(),
        change: Change::Replace {
            at: position - 1,
            piece: next,
        },
    }
}
