//! Two versions of a cut: what stays, and the list of changes between them.

mod apply;
mod held;
mod lines;
mod matched;
mod rows;
mod side;

use onestrand_film::{FrameDelta, Frames};

use crate::{Effect, JoinKind, Piece, PieceKind, Slate, TrialCut};
use matched::Run;
use side::{Side, Sides};

pub use apply::NotThisVersion;
pub use rows::{Beside, RowState};

/// What is done at a place of the old version.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Act {
    /// A whole piece goes out.
    Lift,
    /// Part of a piece goes out, and the rest of it stays in the film.
    Trim,
    /// Frames that were not in the film come in as a piece of their own.
    Insert,
    /// Frames that were not in the film come in at a piece that was.
    Extend,
    /// Frames go to another place.
    Move,
}

impl Act {
    /// The word in commands and files; there a longer piece is an insertion.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Lift => "lift",
            Self::Trim => "trim",
            Self::Insert | Self::Extend => "insert",
            Self::Move => "move",
        }
    }

    /// The word on the change list.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Lift => "lift",
            Self::Trim => "trim",
            Self::Insert => "lay in",
            Self::Extend => "extend",
            Self::Move => "move",
        }
    }

    const fn comes_in(self) -> bool {
        matches!(self, Self::Insert | Self::Extend)
    }
}

/// One line of the change list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ChangeLine {
    /// Where, in running frames of the old version. Frames that come in do so
    /// before this frame, behind what stays there.
    pub at: Frames,
    /// What is done.
    pub act: Act,
    /// With how many frames.
    pub frames: Frames,
    /// Which film: the first piece of it, when several move as one.
    pub film: PieceKind,
    /// What the slate says.
    pub slate: Option<Slate>,
    /// The running frame of the new version at which frames that come in, or are
    /// moved, begin.
    pub to: Option<Frames>,
    /// By how much what follows in the old version then lies elsewhere.
    pub offset_after: FrameDelta,
}

/// Frames that stay as they are, one after the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stay {
    /// Where they begin in the old version.
    pub old: Frames,
    /// Where they begin in the new version.
    pub new: Frames,
    /// How many.
    pub frames: Frames,
}

impl Stay {
    /// New place less old place.
    #[must_use]
    pub fn offset(&self) -> FrameDelta {
        delta(i64::from(self.new.count()) - i64::from(self.old.count()))
    }
}

/// What the paper says of a piece beside its frames.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Paper {
    slate: Option<Slate>,
    join: Option<JoinKind>,
    effect: Option<Effect>,
    note: String,
}

impl Paper {
    fn of(piece: &Piece) -> Self {
        Self {
            slate: piece.slate.clone(),
            join: piece.join,
            effect: piece.effect,
            note: piece.note.clone(),
        }
    }
}

/// How the frames of the new version are divided into pieces. What the paper
/// says is carried over from an old piece (counted from 0), or written anew.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Row {
    Like(usize, Frames),
    Written(Paper, Frames),
    /// A piece without frames: there is no film of it to divide.
    Bare(Piece),
}

/// The difference between two versions.
///
/// Frames are known by their names, so it is exact: as many frames as possible
/// keep their order (a longest increasing subsequence), the others of both are
/// moved, what only the old version has goes out, what only the new one has
/// comes in. Where a version shows a frame twice, the first goes with the first.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Comparison {
    changes: Vec<ChangeLine>,
    stays: Vec<Stay>,
    rows: Vec<Row>,
    beside: Vec<Beside>,
    usual_join: JoinKind,
    old_frames: Frames,
}

impl Comparison {
    /// The change list in the order of the old version.
    #[must_use]
    pub fn changes(&self) -> &[ChangeLine] {
        &self.changes
    }

    /// What stays, in the order of both versions.
    #[must_use]
    pub fn stays(&self) -> &[Stay] {
        &self.stays
    }

    /// The two versions beside each other, row by row.
    #[must_use]
    pub fn beside(&self) -> &[Beside] {
        &self.beside
    }

    /// Frames that stay and keep their order.
    #[must_use]
    pub fn held(&self) -> Frames {
        Frames::total(self.stays.iter().map(|s| s.frames))
    }

    /// Frames that both versions have in another order.
    #[must_use]
    pub fn moved(&self) -> Frames {
        self.total(|act| act == Act::Move)
    }

    /// Frames that only the old version has.
    #[must_use]
    pub fn out(&self) -> Frames {
        self.total(|act| matches!(act, Act::Lift | Act::Trim))
    }

    /// Frames that only the new version has.
    #[must_use]
    pub fn new_frames(&self) -> Frames {
        self.total(Act::comes_in)
    }

    fn total(&self, of: impl Fn(Act) -> bool) -> Frames {
        let lines = self.changes.iter().filter(|c| of(c.act));
        Frames::total(lines.map(|c| c.frames))
    }
}

/// Compares two versions.
///
/// Time: O(n log n) in the pieces of both, unless many want the same frames.
#[must_use]
pub fn compare(old: &TrialCut, new: &TrialCut) -> Comparison {
    let runs = matched::matched(old, new);
    let keeps = held::held(&runs);
    let sides = Sides {
        old: Side::of(old),
        new: Side::of(new),
    };
    let stays: Vec<Run> = chosen(&runs, &keeps, true);
    let moves: Vec<Run> = chosen(&runs, &keeps, false);
    let beside = rows::beside(&sides, &stays, &moves);
    Comparison {
        changes: lines::changes(&sides, &stays, &moves),
        rows: row_papers(&sides, &stays, &moves),
        beside,
        stays: stays
            .iter()
            .map(|run| Stay {
                old: frames(run.old),
                new: frames(run.new),
                frames: frames(run.frames),
            })
            .collect(),
        usual_join: new.usual_join(),
        old_frames: old.frames(),
    }
}

fn chosen(runs: &[Run], keeps: &[bool], kept: bool) -> Vec<Run> {
    let which = runs.iter().zip(keeps).filter(|r| *r.1 == kept);
    let mut out: Vec<Run> = Vec::new();
    for (run, _) in which {
        match out.last_mut() {
            // Runs with nothing between them in either version are one.
            Some(last)
                if last.old + last.frames == run.old && last.new + last.frames == run.new =>
            {
                last.frames += run.frames;
            }
            _ => out.push(*run),
        }
    }
    out
}

/// For each new piece what its paper says: as an old piece it shares frames
/// with, when that says the same.
fn row_papers(sides: &Sides<'_>, stays: &[Run], moves: &[Run]) -> Vec<Row> {
    let mut likes: Vec<Option<usize>> = vec![None; sides.new.pieces.len()];
    for run in stays.iter().chain(moves) {
        for (piece, at, _) in sides.new.parts(run.new, run.new + run.frames) {
            let old = sides.old.piece_at(run.old + (at - run.new));
            if Paper::of(&sides.old.pieces[old]) == Paper::of(&sides.new.pieces[piece]) {
                likes[piece].get_or_insert(old);
            }
        }
    }
    let row = |(piece, like): (&Piece, Option<usize>)| match like {
        _ if piece.frames() == Frames::ZERO => Row::Bare(piece.clone()),
        Some(old) => Row::Like(old, piece.frames()),
        None => Row::Written(Paper::of(piece), piece.frames()),
    };
    sides.new.pieces.iter().zip(likes).map(row).collect()
}

fn frames(count: u32) -> Frames {
    Frames::new(count).unwrap_or(Frames::MAX)
}

fn delta(by: i64) -> FrameDelta {
    i32::try_from(by)
        .ok()
        .and_then(|by| FrameDelta::new(by).ok())
        .unwrap_or_default()
}
