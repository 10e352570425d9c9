//! Inner joins of a sequence laid on beats.

use super::BeatMap;

/// A join this near to a beat is on it. Unit: frames. Half a frame is what whole frames
/// can do; a move that would gain less than a tenth of a frame is not proposed.
const ON_BEAT: f64 = 0.55;

/// No join moves further. Unit: beats.
const REACH: f64 = 1.5;

/// A piece of a sequence, and how far it may be changed. Unit of all: frames.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SequencePiece {
    /// How long it is.
    pub frames: i64,
    /// No change makes it shorter than this.
    pub shortest: i64,
    /// How many frames lie unused before its first.
    pub before: i64,
    /// How many lie unused behind its last.
    pub behind: i64,
}

/// A join of a sequence on its beat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MovedJoin {
    /// Where it is, counted from the head of the sequence. Unit: frames.
    pub at: i64,
    /// Where that is in the music. Unit: beats.
    pub beats: f64,
    /// By how much it moves; negative is earlier. Unit: frames.
    pub by: i64,
    /// Whether it then lies on a beat.
    pub on_beat: bool,
}

/// All joins of a sequence.
#[derive(Debug, Clone, PartialEq)]
pub struct BeatPlan {
    /// The inner joins, in order.
    pub joins: Vec<MovedJoin>,
    /// All moves together. Unit: frames.
    pub moved: i64,
    /// Joins that find no beat inside the handles.
    pub off_beat: usize,
}

/// Ways a join may go: by how much, and whether it is then on a beat.
fn ways(
    map: &BeatMap,
    at: i64,
    (before, behind): (&SequencePiece, &SequencePiece),
) -> Vec<(i64, bool)> {
    let mut ways = vec![(0, map.off_beat(at).abs() <= ON_BEAT)];
    let middle = map.beats_at(at as f64);
    let reach = (REACH * map.frames_a_beat()).ceil() as i64;
    let first = (middle - REACH).floor() as i64;
    let last = (middle + REACH).ceil() as i64;
    for beat in first..=last {
        let by = map.place(beat).round() as i64 - at;
        if by != 0 && by.abs() <= reach && -behind.before <= by && by <= before.behind {
            ways.push((by, true));
        }
    }
    ways
}

/// Puts the inner joins of a sequence on beats: as many as the handles allow, and then with
/// the fewest frames moved. What a join moves, it moves on both of its sides, so that an
/// action that runs over it still does. The two ends stay. Exact: by dynamic programming over
/// joins and beats.
#[must_use]
pub fn joins_on_beats(pieces: &[SequencePiece], map: &BeatMap) -> BeatPlan {
    let mut at = 0;
    let inner = pieces.iter().map(|piece| {
        at += piece.frames;
        at
    });
    let places: Vec<i64> = inner.take(pieces.len().saturating_sub(1)).collect();
    // For each way of the join before: off beat so far, frames moved, ways chosen.
    let mut so_far = vec![(0_i64, (0_usize, 0_i64), Vec::<usize>::new())];
    let mut all_ways = Vec::with_capacity(places.len());
    for (nth, place) in places.iter().enumerate() {
        let ways = ways(map, *place, (&pieces[nth], &pieces[nth + 1]));
        let mut next = Vec::with_capacity(ways.len());
        for (which, (by, on)) in ways.iter().enumerate() {
            let from = so_far
                .iter()
                .filter(|(before, ..)| fits(&pieces[nth], by - before));
            let best = from.min_by_key(|(_, cost, _)| *cost);
            if let Some((_, (off, moved), chosen)) = best {
                let mut chosen = chosen.clone();
                chosen.push(which);
                let cost = (off + usize::from(!on), moved + by.abs());
                next.push((*by, cost, chosen));
            }
        }
        all_ways.push(ways);
        so_far = next;
    }
    let end = pieces.last();
    let last = so_far
        .into_iter()
        .filter(|(by, ..)| end.is_none_or(|piece| fits(piece, -by)))
        .min_by_key(|(_, cost, _)| *cost);
    // To leave all joins where they are is always a way.
    let (cost, chosen) = last.map_or(((0, 0), Vec::new()), |(_, cost, chosen)| (cost, chosen));
    let joins = places.iter().zip(&all_ways).zip(&chosen);
    let joins = joins.map(|((at, ways), which)| MovedJoin {
        at: *at,
        beats: map.beats_at(*at as f64),
        by: ways[*which].0,
        on_beat: ways[*which].1,
    });
    BeatPlan {
        joins: joins.collect(),
        moved: cost.1,
        off_beat: cost.0,
    }
}

/// Whether a piece may change its length by so much.
fn fits(piece: &SequencePiece, by: i64) -> bool {
    by >= 0 || piece.frames + by >= piece.shortest.max(1)
}
