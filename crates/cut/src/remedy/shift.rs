//! The cheapest shift: over all ends of all pieces, touching the fewest joins,
//! then the fewest frames.
//!
//! Best first over boxes of shifts. The cheapest shift of a box is looked at;
//! if it leaves a trouble, the box is divided into boxes that together hold
//! every shift without that trouble. No box costs less than the one it came
//! from, so the first shift without trouble is the cheapest there is.

use std::cmp::Reverse;
use std::collections::{BinaryHeap, HashSet};

use super::bounds::{Bounds, End, ShiftCost};
use super::faults::Faults;
use super::layout::{Claim, Layout, Part, Seen, Trial};
use super::trouble::Trouble;

/// What a shift has to reach.
pub(super) struct Goal<'a> {
    pub(super) layout: &'a Layout,
    /// What may be wrong afterwards.
    pub(super) let_pass: &'a Faults,
    /// The pieces to look at even where nothing moves.
    pub(super) watch: &'a [usize],
    /// Shifts that touch more joins, or move more frames, are not looked for.
    pub(super) at_most: ShiftCost,
    /// After so many boxes the search gives up, and offers nothing.
    pub(super) boxes: usize,
}

/// No bound to what a shift may cost.
pub(super) const ANY_COST: ShiftCost = ShiftCost {
    joins: usize::MAX,
    frames: u64::MAX,
};

/// How many boxes the cheapest shift of all may take to find: on an evening's
/// film it takes some ten, and some hundred where pieces are entangled.
pub(super) const BOXES: usize = 2000;

/// The same for each further proposal.
const FURTHER_BOXES: usize = 80;

/// The cheapest shift within a box that reaches the goal.
pub(super) fn cheapest(goal: &Goal<'_>, from: Bounds) -> Option<(Trial, ShiftCost)> {
    let layout = goal.layout;
    let mut heap = BinaryHeap::new();
    let mut known: HashSet<Bounds> = HashSet::new();
    let mut waiting: Vec<(Bounds, Trial)> = Vec::new();
    let mut put = |bounds: Bounds, waiting: &mut Vec<(Bounds, Trial)>, heap: &mut BinaryHeap<_>| {
        if known.insert(bounds.clone()) {
            let (trial, cost) = bounds.least_shift(layout);
            if cost.joins > goal.at_most.joins || cost.frames > goal.at_most.frames {
                return;
            }
            heap.push(Reverse((cost, waiting.len())));
            waiting.push((bounds, trial));
        }
    };
    put(from, &mut waiting, &mut heap);
    for _ in 0..goal.boxes {
        let Reverse((cost, at)) = heap.pop()?;
        // Each box is looked at once.
        let (bounds, trial) = std::mem::take(&mut waiting[at]);
        let seen = Seen {
            layout,
            trial: &trial,
        };
        match seen.first_trouble(goal.let_pass, goal.watch) {
            None => return Some((trial, cost)),
            Some(trouble) => {
                for part in divided(&bounds, &seen, trouble) {
                    put(part, &mut waiting, &mut heap);
                }
            }
        }
    }
    None
}

/// Boxes that together hold every shift of a box without this trouble, and not
/// the shift it was found in.
fn divided(bounds: &Bounds, seen: &Seen<'_>, trouble: Trouble) -> Vec<Bounds> {
    let layout = seen.layout;
    match trouble {
        Trouble::Empty { piece } => {
            let begin = seen.spot(piece).begin;
            let parts = [
                bounds.at_most(End::head(piece), begin - 1, layout),
                bounds.at_least(End::tail(piece), begin + 1, layout),
            ];
            parts.into_iter().flatten().collect()
        }
        Trouble::Wanted { run, by } => {
            // The middle frame: each half is gone at once.
            let frame = run.0 + (run.1 - run.0 - 1) / 2;
            let parts = by.iter().map(|claim| given_up(bounds, seen, claim, frame));
            parts.flatten().collect()
        }
        Trouble::Outside { run, by } => {
            let frame = if run.0 < 0 { run.1 - 1 } else { run.0 };
            given_up(bounds, seen, &by, frame)
        }
        Trouble::Joint { gap } => bounds.linked(gap, layout).into_iter().collect(),
        Trouble::Piece => Vec::new(),
        Trouble::Short { first, last } => longer(bounds, seen, first, last),
        Trouble::OutsideTake { piece } => {
            let Some(roll) = layout.spots[piece].roll else {
                return Vec::new();
            };
            let inside = |take: &(i64, i64)| {
                bounds.at_least(End::head(piece), take.0, layout)?.at_most(
                    End::tail(piece),
                    take.1,
                    layout,
                )
            };
            layout.rolls[roll].takes.iter().filter_map(inside).collect()
        }
    }
}

/// Boxes in which a piece or its join does not want a frame.
fn given_up(bounds: &Bounds, seen: &Seen<'_>, claim: &Claim, frame: i64) -> Vec<Bounds> {
    let layout = seen.layout;
    let piece = claim.piece;
    let bite = |gap: usize| layout.table.row(seen.kind(gap)).bite;
    let parts = match claim.part {
        Part::Shown => [
            bounds.at_most(End::tail(piece), frame, layout),
            bounds.at_least(End::head(piece), frame + 1, layout),
            None,
        ],
        Part::Tail => {
            let taken = i64::from(bite(piece + 1).out_tail);
            [
                bounds.at_most(End::tail(piece), frame - taken, layout),
                bounds.at_least(End::tail(piece), frame + 1, layout),
                bounds.linked(piece + 1, layout),
            ]
        }
        Part::Head => {
            let taken = i64::from(bite(piece).in_head);
            [
                bounds.at_least(End::head(piece), frame + 1 + taken, layout),
                bounds.at_most(End::head(piece), frame, layout),
                bounds.linked(piece, layout),
            ]
        }
    };
    parts.into_iter().flatten().collect()
}

/// Boxes in which a strip is longer, or made of other pieces.
fn longer(bounds: &Bounds, seen: &Seen<'_>, first: usize, last: usize) -> Vec<Bounds> {
    let layout = seen.layout;
    let mut parts = vec![
        bounds.at_most(End::head(first), seen.spot(first).begin - 1, layout),
        bounds.at_least(End::tail(last), seen.spot(last).end + 1, layout),
        bounds.linked(first, layout),
        bounds.linked(last + 1, layout),
    ];
    for gap in first + 1..=last {
        for end in [End::tail(gap - 1), End::head(gap)] {
            let at = end.of(seen.spot(end.piece));
            parts.push(bounds.at_most(end, at - 1, layout));
            parts.push(bounds.at_least(end, at + 1, layout));
        }
    }
    parts.into_iter().flatten().collect()
}

/// Shifts of one conflict: the cheapest of all; where that brings a new
/// warning, the cheapest that brings none; then, for each end of the pieces that
/// quarrel, the cheapest that moves it, as long as it is not much dearer.
pub(super) fn shifts(
    layout: &Layout,
    (strict, loose): (&Faults, &Faults),
    quarrel: &[usize],
) -> Vec<(Trial, ShiftCost)> {
    let goal = |let_pass, at_most, boxes| Goal {
        layout,
        let_pass,
        watch: quarrel,
        at_most,
        boxes,
    };
    let Some(first) = cheapest(&goal(loose, ANY_COST, BOXES), Bounds::default()) else {
        return Vec::new();
    };
    let mut found = vec![first];
    let seen = Seen {
        layout,
        trial: &found[0].0,
    };
    if seen.first_trouble(strict, quarrel).is_some() {
        let whole = goal(strict, not_much_dearer(found[0].1), BOXES);
        found.extend(cheapest(&whole, Bounds::default()));
    }
    let further = goal(
        strict,
        not_much_dearer(found[found.len() - 1].1),
        FURTHER_BOXES,
    );
    let all = Bounds::default();
    for end in quarrel.iter().flat_map(|p| [End::head(*p), End::tail(*p)]) {
        let at = end.of(layout.spots[end.piece]);
        let moved = [
            all.at_least(end, at + 1, layout),
            all.at_most(end, at - 1, layout),
        ];
        for part in moved.into_iter().flatten() {
            if let Some(one) = cheapest(&further, part)
                && found.iter().all(|f| f.0.spots != one.0.spots)
                && needs(layout, strict, quarrel, &one.0, end)
            {
                found.push(one);
            }
        }
    }
    found.sort_by_key(|f| f.1);
    found
}

/// What a further proposal may cost beside the cheapest: one place more, and
/// four times the frames or a second and a half of film.
const fn not_much_dearer(cost: ShiftCost) -> ShiftCost {
    let more = if cost.frames > 9 { 3 * cost.frames } else { 27 };
    ShiftCost {
        joins: cost.joins + 1,
        frames: cost.frames + more,
    }
}

/// Whether a shift would fail if this one end stayed where it was.
fn needs(layout: &Layout, strict: &Faults, quarrel: &[usize], trial: &Trial, end: End) -> bool {
    let mut without = trial.clone();
    for (piece, spot) in &mut without.spots {
        if *piece == end.piece {
            let was = layout.spots[*piece];
            if end.tail {
                spot.end = was.end;
            } else {
                spot.begin = was.begin;
            }
        }
    }
    let seen = Seen {
        layout,
        trial: &without,
    };
    seen.first_trouble(strict, quarrel).is_some()
}
