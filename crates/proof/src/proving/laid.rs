//! Each frame of a reel with its place in the plan, and what is wrong by that.

use std::collections::HashMap;

use super::Wanted;
use super::course::At;
use super::judged::{FaultKind, ReelFault};
use super::planned::Planned;

/// Each frame of the reel with its place in the plan.
pub(super) struct Laid {
    /// Place in the plan of each frame of the scan.
    places: Vec<Option<usize>>,
    /// Frames that are there a second time.
    again: Vec<bool>,
    /// Frame of the scan at which each place of the plan is, in order or not.
    at: Vec<Option<usize>>,
    /// Which piece each place of the plan is of, counted from 0.
    pieces: Vec<usize>,
}

impl Laid {
    pub(super) fn of(course: &[At], plan: &[Wanted]) -> Self {
        let mut free: HashMap<(usize, usize), Vec<usize>> = HashMap::new();
        for (place, wanted) in plan.iter().enumerate().rev() {
            if let Wanted::Frame(roll, frame) = *wanted {
                free.entry((roll, frame)).or_default().push(place);
            }
        }
        let mut laid = Self {
            places: vec![None; course.len()],
            again: vec![false; course.len()],
            at: vec![None; plan.len()],
            pieces: Planned::of(plan).piece_of,
        };
        for (t, at) in course.iter().enumerate() {
            let At::Frame(roll, frame, _) = *at else {
                continue;
            };
            let Some(places) = free.get_mut(&(roll, frame)) else {
                continue;
            };
            match places.pop() {
                Some(place) => {
                    laid.places[t] = Some(place);
                    laid.at[place] = Some(t);
                }
                None => laid.again[t] = true,
            }
        }
        laid
    }

    /// A run of the reel parted where one planned piece ends and another begins.
    fn by_piece(&self, (first, end): (usize, usize)) -> Vec<(usize, usize)> {
        let mut parts = Vec::new();
        let (mut from, mut last) = (first, None);
        for t in first..end {
            let piece = self.places[t].and_then(|place| self.pieces.get(place).copied());
            if let (Some(before), Some(piece)) = (last, piece)
                && before != piece
            {
                parts.push((from, t));
                from = t;
            }
            last = piece.or(last);
        }
        parts.push((from, end));
        parts
    }

    /// Pieces mirrored or turned.
    pub(super) fn turned(&self, course: &[At]) -> Vec<ReelFault> {
        let mut faults = Vec::new();
        let way = |t: usize| match course[t] {
            At::Frame(_, _, way) => Some(way),
            _ => None,
        };
        type Is = fn(crate::Way) -> bool;
        let kinds: [(FaultKind, Is); 2] = [
            (FaultKind::Mirrored, |w| w.mirrored),
            (FaultKind::UpsideDown, |w| w.upside_down),
        ];
        for (kind, is) in kinds {
            let turned = runs(course.len(), |t| way(t).is_some_and(is));
            for (first, end) in turned.into_iter().flat_map(|run| self.by_piece(run)) {
                faults.push(ReelFault {
                    expected: frames_of(&course[first..end]),
                    ..ReelFault::new(first, kind, end - first)
                });
            }
        }
        faults
    }

    /// Pieces that stand elsewhere in the plan: those outside the longest rising run.
    pub(super) fn out_of_order(&self) -> Vec<ReelFault> {
        // Stretches of the reel that rise (or, upside down, fall) by one.
        let mut stretches: Vec<(usize, usize, usize, usize)> = Vec::new();
        for (t, place) in self.places.iter().enumerate() {
            let Some(place) = *place else { continue };
            match stretches.last_mut() {
                Some((_, end, low, high))
                    if *end == t && (place == *high + 1 || place + 1 == *low) =>
                {
                    (*end, *low, *high) = (t + 1, place.min(*low), place.max(*high));
                }
                _ => stretches.push((t, t + 1, place, place)),
            }
        }
        let kept = heaviest_rising(&stretches);
        let off = stretches.iter().zip(kept).filter(|(_, kept)| !kept);
        let moved = off.map(|(&(first, end, ..), _)| (first, end));
        let mut together: Vec<(usize, usize)> = Vec::new();
        for (first, end) in moved {
            match together.last_mut().filter(|l| l.1 == first) {
                Some(last) => last.1 = end,
                None => together.push((first, end)),
            }
        }
        let fault =
            |(first, end): (usize, usize)| ReelFault::new(first, FaultKind::Order, end - first);
        together.into_iter().map(fault).collect()
    }

    /// The last frame of the scan of a piece that runs from its tail, else the same.
    fn end_of_piece(&self, mut t: usize) -> usize {
        while let (Some(place), Some(&Some(next))) = (self.places[t], self.places.get(t + 1)) {
            if next + 1 != place {
                break;
            }
            t += 1;
        }
        t
    }

    /// Places of the plan that are nowhere on the reel.
    pub(super) fn missing(&self, plan: &[Wanted]) -> Vec<ReelFault> {
        let is_missing =
            |place: usize| self.at[place].is_none() && matches!(plan[place], Wanted::Frame(..));
        let mut faults = Vec::new();
        for (first, end) in runs(plan.len(), is_missing) {
            let before = self.at[..first].iter().rev().flatten().next();
            let at = before.map_or(0, |&t| self.end_of_piece(t) + 1);
            // A run over a join is one fault for each strip it is of.
            let mut from = first;
            for place in first..end {
                let next = match (plan[place], plan.get(place + 1)) {
                    (Wanted::Frame(r, f), Some(&Wanted::Frame(nr, nf))) => {
                        place + 1 < end && nr == r && nf == f + 1
                    }
                    _ => false,
                };
                if !next {
                    faults.push(ReelFault {
                        expected: wanted(&plan[from..=place]),
                        ..ReelFault::new(at, FaultKind::Missing, place + 1 - from)
                    });
                    from = place + 1;
                }
            }
        }
        faults
    }

    /// Frames that are there twice, and pictures that the plan does not have.
    pub(super) fn not_planned(&self, course: &[At], plan: &[Wanted]) -> Vec<ReelFault> {
        let mut faults = Vec::new();
        for (first, end) in runs(course.len(), |t| self.again[t]) {
            faults.push(ReelFault::new(first, FaultKind::Doubled, end - first));
        }
        let is_foreign = |t: usize| match course[t] {
            At::Foreign(_) => true,
            At::Frame(..) => self.places[t].is_none() && !self.again[t],
            At::Nothing => false,
        };
        // Leader and cards may show anything.
        let is_free = |first: usize| {
            let before = self.places[..first].iter().rev().flatten().next();
            // So may what stands before the first piece and after the last.
            if before.is_none() || self.places[first..].iter().all(Option::is_none) {
                return true;
            }
            plan.get(before.map_or(0, |p| p + 1)) == Some(&Wanted::Anything)
        };
        let past = past(course, &self.places);
        let strange = runs(course.len(), |t| is_foreign(t) && !past[t]);
        let run_on = runs(course.len(), |t| is_foreign(t) && past[t]);
        for (first, end) in strange.into_iter().chain(run_on) {
            if is_free(first) && matches!(course[first], At::Foreign(_)) {
                continue;
            }
            faults.push(ReelFault::new(first, FaultKind::Foreign, end - first));
        }
        faults
    }
}

/// Frames that run on along their roll past the end of a planned piece.
fn past(course: &[At], places: &[Option<usize>]) -> Vec<bool> {
    let mut past = vec![false; course.len()];
    for t in 1..course.len() {
        let follows = match (course[t - 1], course[t]) {
            (At::Frame(roll, frame, way), At::Frame(r, f, w)) => {
                let forward = if way.upside_down {
                    f + 1 == frame
                } else {
                    frame + 1 == f
                };
                (roll, way) == (r, w) && forward
            }
            _ => false,
        };
        past[t] = follows && places[t].is_none() && (past[t - 1] || places[t - 1].is_some());
    }
    past
}

/// Stretches in the order of the plan that keep the most frames.
fn heaviest_rising(stretches: &[(usize, usize, usize, usize)]) -> Vec<bool> {
    let mut best: Vec<(usize, Option<usize>)> = Vec::new();
    for (index, &(first, end, low, _)) in stretches.iter().enumerate() {
        let before = (0..index)
            .filter(|&other| stretches[other].3 < low)
            .max_by_key(|&other| best[other].0);
        let weight = before.map_or(0, |other| best[other].0) + end - first;
        best.push((weight, before));
    }
    let mut kept = vec![false; stretches.len()];
    let mut at = (0..stretches.len()).max_by_key(|&index| best[index].0);
    while let Some(index) = at {
        kept[index] = true;
        at = best[index].1;
    }
    kept
}

fn runs(count: usize, is: impl Fn(usize) -> bool) -> Vec<(usize, usize)> {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for at in (0..count).filter(|&at| is(at)) {
        match runs.last_mut().filter(|run| run.1 == at) {
            Some(run) => run.1 = at + 1,
            None => runs.push((at, at + 1)),
        }
    }
    runs
}

fn wanted(plan: &[Wanted]) -> Option<(usize, usize, usize)> {
    match (plan.first(), plan.last()) {
        (Some(&Wanted::Frame(roll, first)), Some(&Wanted::Frame(_, last))) => {
            Some((roll, first, last + 1))
        }
        _ => None,
    }
}

fn frames_of(course: &[At]) -> Option<(usize, usize, usize)> {
    let frame = |at: &At| match *at {
        At::Frame(roll, frame, _) => Some((roll, frame)),
        _ => None,
    };
    let first = course.iter().find_map(frame)?;
    let same: Vec<usize> = course
        .iter()
        .filter_map(frame)
        .filter(|at| at.0 == first.0)
        .map(|at| at.1)
        .collect();
    Some((first.0, *same.iter().min()?, same.iter().max()? + 1))
}
