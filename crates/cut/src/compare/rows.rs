//! Two versions beside each other, row by row.

use std::collections::BTreeMap;

use super::Paper;
use super::matched::Run;
use super::side::Sides;

/// How a row of one version stands to the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum RowState {
    /// The same frames at their place in the order.
    Same,
    /// The same piece with other ends, or divided, or joined to its neighbour.
    Trimmed,
    /// In both versions, at another place of the order.
    Moved,
    /// Only in the old version.
    OnlyOld,
    /// Only in the new version.
    OnlyNew,
}

impl RowState {
    /// The word in commands and files.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Same => "same",
            Self::Trimmed => "trimmed",
            Self::Moved => "moved",
            Self::OnlyOld => "only_old",
            Self::OnlyNew => "only_new",
        }
    }
}

/// One row of two versions beside each other. Positions are counted from 1.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Beside {
    /// Position in the old version; a blank where that has nothing here.
    pub old: Option<usize>,
    /// Position in the new version; a blank where that has nothing here.
    pub new: Option<usize>,
    /// How they stand to each other.
    pub state: RowState,
    /// Where one side is blank: the position in that version at which the piece,
    /// or most of it, stands instead.
    pub elsewhere: Option<usize>,
    /// Whether join, note, slate or effect differ between the two.
    pub paper_differs: bool,
}

/// Frames that an old and a new piece share: those that stay, those moved.
type Shared = BTreeMap<(usize, usize), (u32, u32)>;

pub(super) fn beside(sides: &Sides<'_>, stays: &[Run], moves: &[Run]) -> Vec<Beside> {
    let mut shared = Shared::new();
    share(sides, stays, &mut |pair, count| {
        shared.entry(pair).or_default().0 += count;
    });
    share(sides, moves, &mut |pair, count| {
        shared.entry(pair).or_default().1 += count;
    });
    let (olds, news) = (sides.old.pieces.len(), sides.new.pieces.len());
    let pairs = pairs(&shared, olds, news);
    let most = most_of_new(&shared, news);
    let mut rows = Vec::with_capacity(olds.max(news));
    let mut old = 0;
    for (new, pair) in pairs.iter().enumerate() {
        if let Some(with) = *pair {
            rows.extend((old..with).map(|o| lone_old(o, &shared)));
            rows.push(paired(sides, with, new));
            old = with + 1;
        } else {
            rows.push(lone_new(new, most[new]));
        }
    }
    rows.extend((old..olds).map(|o| lone_old(o, &shared)));
    rows
}

/// Calls `put` for each pair of pieces that a run lies in, with its frames.
fn share(sides: &Sides<'_>, runs: &[Run], put: &mut dyn FnMut((usize, usize), u32)) {
    for run in runs {
        for (new, at, count) in sides.new.parts(run.new, run.new + run.frames) {
            let from = run.old + (at - run.new);
            for (old, _, count) in sides.old.parts(from, from + count) {
                put((old, new), count);
            }
        }
    }
}

/// For each new piece the old one it stands beside: the one it shares the most
/// frames with that stay, each old one once. What stays keeps its order, so the
/// pairs do.
fn pairs(shared: &Shared, olds: usize, news: usize) -> Vec<Option<usize>> {
    let mut best: Vec<Option<(u32, usize)>> = vec![None; news];
    for ((old, new), (stay, _)) in shared {
        if *stay > 0 && best[*new].is_none_or(|b| b.0 < *stay) {
            best[*new] = Some((*stay, *old));
        }
    }
    let mut by_old: Vec<Option<(u32, usize)>> = vec![None; olds];
    for (new, found) in best.iter().enumerate() {
        if let Some((stay, old)) = found
            && by_old[*old].is_none_or(|b| b.0 < *stay)
        {
            by_old[*old] = Some((*stay, new));
        }
    }
    let mut out = vec![None; news];
    for (old, found) in by_old.iter().enumerate() {
        if let Some((_, new)) = found {
            out[*new] = Some(old);
        }
    }
    out
}

fn paired(sides: &Sides<'_>, old: usize, new: usize) -> Beside {
    let (was, is) = (&sides.old.pieces[old], &sides.new.pieces[new]);
    Beside {
        old: Some(old + 1),
        new: Some(new + 1),
        state: if was.kind == is.kind {
            RowState::Same
        } else {
            RowState::Trimmed
        },
        elsewhere: None,
        paper_differs: Paper::of(was) != Paper::of(is),
    }
}

fn lone_old(old: usize, shared: &Shared) -> Beside {
    let with = shared.range((old, 0)..(old + 1, 0));
    let most = with.max_by_key(|(_, count)| count.0 + count.1);
    Beside {
        old: Some(old + 1),
        new: None,
        state: state(most.map(|m| *m.1), RowState::OnlyOld),
        elsewhere: most.map(|m| m.0.1 + 1),
        paper_differs: false,
    }
}

/// For each new piece the old one it shares the most frames with, and how many.
fn most_of_new(shared: &Shared, news: usize) -> Vec<Option<(usize, (u32, u32))>> {
    let mut out: Vec<Option<(usize, (u32, u32))>> = vec![None; news];
    for ((old, new), count) in shared {
        let frames = |c: (u32, u32)| c.0 + c.1;
        if out[*new].is_none_or(|most| frames(most.1) < frames(*count)) {
            out[*new] = Some((*old, *count));
        }
    }
    out
}

fn lone_new(new: usize, most: Option<(usize, (u32, u32))>) -> Beside {
    Beside {
        old: None,
        new: Some(new + 1),
        state: state(most.map(|m| m.1), RowState::OnlyNew),
        elsewhere: most.map(|m| m.0 + 1),
        paper_differs: false,
    }
}

fn state(most: Option<(u32, u32)>, lone: RowState) -> RowState {
    match most {
        None => lone,
        Some((0, _)) => RowState::Moved,
        Some(_) => RowState::Trimmed,
    }
}
