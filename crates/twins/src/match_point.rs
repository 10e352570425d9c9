//! Where to cut from one take to another on the action.

use num_rational::Ratio;
use onestrand_film::{FramePos, FrameRange};

use crate::movement::TakeMovement;
use crate::time_map::{Moment, TimeMap, nearest};

/// What is asked of match points.
#[derive(Debug, Clone, PartialEq)]
pub struct MatchWish {
    /// Where the first frame thrown away of the take that is left may lie.
    pub leave_within: FrameRange,
    /// Where the first frame kept of the take that is entered may lie.
    pub enter_within: FrameRange,
    /// How many frames of the action may be repeated, each tried: none, two and
    /// three by habit, since two or three often look smoothest.
    pub overlaps: Vec<u32>,
    /// How many points are wanted.
    pub points: usize,
    /// The least distance from one to the next. Unit: frames.
    pub apart: u32,
    /// A moment that may be farther off than this is not offered. Unit: frames.
    pub uncertain_at_most: f64,
}

impl MatchWish {
    /// Three points with no, two and three frames of overlap, half a second
    /// apart at 18 frames a second, known to a frame and a half: within two frames
    /// in nine cases of ten.
    #[must_use]
    pub fn new(leave_within: FrameRange, enter_within: FrameRange) -> Self {
        Self {
            leave_within,
            enter_within,
            overlaps: vec![0, 2, 3],
            points: 3,
            apart: 9,
            uncertain_at_most: 1.5,
        }
    }
}

/// One way to enter the other take at a match point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Entry {
    /// The overlap that was wished for. Unit: frames.
    pub overlap: u32,
    /// The first frame kept.
    pub enter: FramePos,
    /// By how many frames the action is repeated on the whole; below 0 as many
    /// are left out. Unit: frames of the take that is entered.
    pub repeats: Ratio<i64>,
}

impl Entry {
    /// How much later than wished for the frame is; below 0 it is early. Unit:
    /// frames of the take that is entered.
    #[must_use]
    pub fn phase(&self) -> Ratio<i64> {
        Ratio::from_integer(i64::from(self.overlap)) - self.repeats
    }
}

/// A place to cut on the action.
#[derive(Debug, Clone, PartialEq)]
pub struct MatchPoint {
    /// The first frame thrown away of the take that is left.
    pub leave: FramePos,
    /// The same moment in the take that is entered.
    pub due: Moment,
    /// What moves there, in both takes. Range: 0 to 1.
    pub moves: f32,
    /// The ways to enter that are allowed, by overlap.
    pub entries: Vec<Entry>,
}

/// A phase error of a whole frame weighs as much as half of all movement: it is
/// seen, but a cut that nothing hides is seen sooner.
const PHASE: f32 = 0.5;
/// So does an uncertainty of two frames.
const UNCERTAIN: f32 = 0.25;

/// Where one may cut from the take of `map` to the other, the best first.
///
/// A cut in the middle of a movement hides itself, so the points are ranked by
/// what moves in both takes at the cut, less for phase error and uncertainty.
/// `moving` holds both takes, that which is left first; without them phase error
/// alone ranks. `allowed` is asked about each cut (first frame thrown away,
/// first frame kept): the strand check of the caller. Use [`TimeMap::reversed`]
/// for the way back.
pub fn match_points(
    map: &TimeMap,
    moving: Option<(&TakeMovement, &TakeMovement)>,
    wish: &MatchWish,
    mut allowed: impl FnMut(FramePos, FramePos) -> bool,
) -> Vec<MatchPoint> {
    let frames = wish.leave_within.begin().index()..wish.leave_within.end().index();
    let mut ranked: Vec<(f32, MatchPoint)> = frames
        .filter_map(|leave| FramePos::new(leave).ok())
        .filter_map(|leave| point_at(map, moving, wish, leave))
        .collect();
    // Of equals the earlier.
    ranked.sort_by(|(a, _), (b, _)| b.total_cmp(a));
    let mut points: Vec<MatchPoint> = Vec::new();
    for (_, mut point) in ranked {
        if points.len() == wish.points {
            break;
        }
        let distance = |other: &MatchPoint| other.leave.index().abs_diff(point.leave.index());
        if points.iter().any(|other| distance(other) < wish.apart) {
            continue;
        }
        // The strand is asked only about what would be offered.
        point
            .entries
            .retain(|entry| allowed(point.leave, entry.enter));
        if !point.entries.is_empty() {
            points.push(point);
        }
    }
    points
}

/// The point at one frame with its rank, the strand not yet asked.
fn point_at(
    map: &TimeMap,
    moving: Option<(&TakeMovement, &TakeMovement)>,
    wish: &MatchWish,
    leave: FramePos,
) -> Option<(f32, MatchPoint)> {
    let due = map.there(leave)?;
    if due.uncertain > wish.uncertain_at_most {
        return None;
    }
    let entry = |&overlap: &u32| {
        let enter = nearest(due.frame - Ratio::from_integer(i64::from(overlap)))?;
        let repeats = due.frame - Ratio::from_integer(i64::from(enter.index()));
        wish.enter_within.contains(enter).then_some(Entry {
            overlap,
            enter,
            repeats,
        })
    };
    let entries: Vec<Entry> = wish.overlaps.iter().filter_map(entry).collect();
    let phase = entries
        .iter()
        .map(|e| decimal(e.phase()).abs())
        .reduce(f32::min)?;
    let moves = moving.map_or(0.0, |(left, entered)| {
        let there = due.nearest().map_or(0.0, |at| entered.moves_at(at));
        (left.moves_at(leave) * there).sqrt()
    });
    let rank = moves - PHASE * phase - UNCERTAIN * due.uncertain as f32;
    let point = MatchPoint {
        leave,
        due,
        moves,
        entries,
    };
    Some((rank, point))
}

fn decimal(of: Ratio<i64>) -> f32 {
    *of.numer() as f32 / *of.denom() as f32
}
