//! Where each strip may begin and end, and how its joins may be.

use onestrand_cut::{JoinKind, Piece, Strand, TrialCut};

use super::film::Cutting;
use crate::recut::joints::Joints;

/// From the first to the last place allowed.
pub(super) type Window = (i64, i64);

/// How a join may be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct MayBe {
    pub(super) kept: bool,
    pub(super) made: bool,
    /// No join: the strips grow together over the film between them.
    pub(super) grown: bool,
}

/// What is allowed.
#[derive(Debug, Clone)]
pub(super) struct Windows {
    pub(super) begins: Vec<Window>,
    pub(super) ends: Vec<Window>,
    /// One more than strips.
    pub(super) joints: Vec<MayBe>,
    /// No strip becomes shorter. Unit: frames.
    pub(super) floors: Vec<i64>,
    /// How far a boundary may be shifted at all: strips are short when both shifts
    /// bring them to the floor.
    pub(super) tolerance: i64,
}

impl Windows {
    pub(super) fn new(
        new: &TrialCut,
        news: &Joints,
        strand: &Strand,
        cutting: &Cutting<'_>,
        tolerance: i64,
    ) -> Self {
        let shortest = JoinKind::ALL.map(|kind| cutting.table.row(kind).shortest);
        let shortest = i64::from(shortest.into_iter().max().unwrap_or(0));
        let (mut begins, mut ends, mut floors) = (Vec::new(), Vec::new(), Vec::new());
        for strip in &news.strips {
            let (begin, end) = (i64::from(strip.begin), i64::from(strip.end));
            floors.push(shortest.min(end - begin));
            let Some(film) = strip.roll() else {
                begins.push((begin, begin));
                ends.push((end, end));
                continue;
            };
            let first = &new.pieces()[strip.positions.0 - 1];
            let last = &new.pieces()[strip.positions.1 - 1];
            // Of one piece both ends may move past where the other was: only how short it
            // may be holds them apart.
            let alone = strip.positions.0 == strip.positions.1;
            let inner = if alone {
                i64::MAX
            } else {
                ends_of(first).1 - 1
            };
            let take = take_of(first, strand);
            begins.push((
                (begin - tolerance).max(take.map_or(0, |t| t.0)),
                (begin + tolerance).min(inner),
            ));
            let inner = if alone { 0 } else { ends_of(last).0 + 1 };
            let take = take_of(last, strand);
            ends.push((
                (end - tolerance).max(inner),
                (end + tolerance).min(take.map_or(cutting.length(film), |t| t.1)),
            ));
        }
        let grown = |joint: usize| {
            let before = joint.checked_sub(1).and_then(|i| news.strips.get(i));
            let Some((before, behind)) = before.zip(news.strips.get(joint)) else {
                return false;
            };
            let gap = i64::from(behind.begin) - i64::from(before.end);
            before.roll().is_some()
                && before.film == behind.film
                && (1..=2 * tolerance).contains(&gap)
        };
        let may_be = |joint| MayBe {
            kept: true,
            made: true,
            grown: grown(joint),
        };
        Self {
            begins,
            ends,
            joints: (0..=news.strips.len()).map(may_be).collect(),
            floors,
            tolerance,
        }
    }

    /// Places at which a strip may begin that can matter: where the old version has
    /// nothing in reach, only the one nearest to what is wanted.
    pub(super) fn begins_of(&self, strip: usize, cutting: &Cutting<'_>) -> Vec<i64> {
        let wanted = &cutting.news.strips[strip];
        self.worth_trying(self.begins[strip], wanted.begin.into(), strip, cutting)
    }

    /// The same for its end.
    pub(super) fn ends_of(&self, strip: usize, cutting: &Cutting<'_>) -> Vec<i64> {
        let wanted = &cutting.news.strips[strip];
        self.worth_trying(self.ends[strip], wanted.end.into(), strip, cutting)
    }

    fn worth_trying(
        &self,
        (low, high): Window,
        wanted: i64,
        strip: usize,
        cutting: &Cutting<'_>,
    ) -> Vec<i64> {
        if low > high {
            return Vec::new();
        }
        let laid = &cutting.news.strips[strip];
        let length = i64::from(laid.end) - i64::from(laid.begin);
        let short = length < self.floors[strip] + 2 * self.tolerance + 2 * cutting.reach;
        let nearest = wanted.clamp(low, high);
        let worth =
            |place: &i64| short || *place == nearest || cutting.is_touched(laid.film, *place);
        (low..=high).filter(worth).collect()
    }
}

fn ends_of(piece: &Piece) -> (i64, i64) {
    piece.span().map_or((0, 0), |span| {
        let (begin, end) = (span.range.begin().index(), span.range.end().index());
        (begin.into(), end.into())
    })
}

/// The take that holds a piece.
fn take_of(piece: &Piece, strand: &Strand) -> Option<(i64, i64)> {
    let span = piece.span()?;
    let take = strand.take_holding(&span.roll, span.range)?;
    let range = take.span.range;
    Some((range.begin().index().into(), range.end().index().into()))
}
