//! The shortest safe way to count to a frame, from one landmark to the next.

use std::cmp::Reverse;

use onestrand_film::{FramePos, Frames};

use crate::LandmarkKind;
use crate::steps::Towards;

/// One count: a landmark is 0, and the hand counts on from it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Count {
    /// What is counted from.
    pub from: LandmarkKind,
    /// Its frame, which is 0.
    pub at: FramePos,
    /// So many frames.
    pub frames: Frames,
    /// Towards which end of the roll.
    pub towards: Towards,
}

impl Count {
    /// From one place to another.
    pub(crate) fn between(from: LandmarkKind, at: FramePos, to: FramePos) -> Self {
        let frames = Frames::new(at.index().abs_diff(to.index())).unwrap_or(Frames::MAX);
        let towards = match to < at {
            true => Towards::Head,
            false => Towards::Tail,
        };
        Self {
            from,
            at,
            frames,
            towards,
        }
    }

    /// The frame at which it ends; a cut goes on the line before it.
    #[must_use]
    pub fn ends_at(&self) -> FramePos {
        let at = match self.towards {
            Towards::Tail => self.at.index() + self.frames.count(),
            Towards::Head => self.at.index().saturating_sub(self.frames.count()),
        };
        FramePos::new(at).unwrap_or(self.at)
    }
}

/// Counts one after the other: each ends where the next begins again at 0, and
/// none is longer than the limit asked for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LandmarkChain {
    /// The counts in order; the last one ends at the cut.
    pub counts: Vec<Count>,
}

impl LandmarkChain {
    /// All frames counted.
    #[must_use]
    pub fn frames(&self) -> Frames {
        Frames::total(self.counts.iter().map(|c| c.frames))
    }

    /// Paper slips that the hand must lay in itself on the way.
    #[must_use]
    pub fn paper_slips(&self) -> usize {
        let own = |c: &&Count| c.from == LandmarkKind::PaperSlip;
        self.counts.iter().filter(own).count()
    }

    /// Frames counted since the last thing that shows whether the count is
    /// right: a landmark, not a slip of one's own.
    #[must_use]
    pub fn unchecked(&self) -> Frames {
        let from = self
            .counts
            .iter()
            .rposition(|c| c.from != LandmarkKind::PaperSlip);
        let since = &self.counts[from.unwrap_or(0)..];
        Frames::total(since.iter().map(|c| c.frames))
    }
}

/// A landmark on the stretch that hangs together.
pub(crate) type Seen = (FramePos, LandmarkKind);

/// The shortest safe chain to a place: fewest paper slips of one's own, then fewest
/// counts, then fewest frames. It leads down the film, from the head's side, as
/// one is used to; back from a landmark behind only where that takes fewer slips
/// or counts.
///
/// `seen` is what lies on the film that hangs together, in order; a chain begins
/// at what is sure. `limit` of 0 is taken as 1.
pub(crate) fn safe_chain(seen: &[Seen], to: FramePos, limit: u32) -> Option<LandmarkChain> {
    let limit = limit.max(1);
    let before: Vec<&Seen> = seen.iter().filter(|(at, _)| *at <= to).collect();
    let behind: Vec<&Seen> = seen.iter().rev().filter(|(at, _)| *at >= to).collect();
    let sides = [before, behind];
    let chains = sides.iter().filter_map(|side| one_side(side, to, limit));
    chains.min_by_key(price)
}

fn price(chain: &LandmarkChain) -> (usize, usize) {
    (chain.paper_slips(), chain.counts.len())
}

/// The best chain over landmarks that lie in the order in which the hand comes by
/// them. Only the nearest sure one can begin it: from there the way of any other
/// is at least as short.
fn one_side(side: &[&Seen], to: FramePos, limit: u32) -> Option<LandmarkChain> {
    let begin = side.iter().rposition(|(_, kind)| kind.is_sure())?;
    let way = &side[begin..];
    let place = |i: usize| way.get(i).map_or(to, |(at, _)| *at);
    // The best way from the beginning to each place: slips and counts, and the
    // place before it; of two alike the later, so that the last count is short.
    let mut best: Vec<(usize, usize, Reverse<usize>)> = vec![(0, 0, Reverse(0))];
    for i in 1..=way.len() {
        let from = |j: usize| {
            let counts = counts_for(place(j), place(i), limit);
            let (slips, before, _) = best[j];
            (slips + counts - 1, before + counts, Reverse(j))
        };
        best.push((0..i).map(from).min()?);
    }
    let mut stops = vec![way.len()];
    while let Some(last) = stops.last().copied().filter(|last| *last > 0) {
        stops.push(best[last].2.0);
    }
    stops.reverse();
    let mut counts = Vec::new();
    for pair in stops.windows(2) {
        let from = way[pair[0]].1.clone();
        divided(from, place(pair[0]), place(pair[1]), limit, &mut counts);
    }
    Some(LandmarkChain { counts })
}

fn counts_for(from: FramePos, to: FramePos, limit: u32) -> usize {
    from.index().abs_diff(to.index()).div_ceil(limit).max(1) as usize
}

/// A count, divided by paper slips of one's own where it is longer than the limit.
fn divided(from: LandmarkKind, at: FramePos, to: FramePos, limit: u32, into: &mut Vec<Count>) {
    let (mut from, mut at) = (from, at);
    for _ in 1..counts_for(at, to, limit) {
        let next = match to < at {
            true => at.index() - limit,
            false => at.index() + limit,
        };
        let Ok(next) = FramePos::new(next) else { break };
        into.push(Count::between(from, at, next));
        (from, at) = (LandmarkKind::PaperSlip, next);
    }
    into.push(Count::between(from, at, to));
}

/// The landmark nearest to a place, sure or not, in one count.
pub(crate) fn nearest(seen: &[Seen], to: FramePos) -> Option<Count> {
    let distance = |at: FramePos| at.index().abs_diff(to.index());
    let near = seen.iter().min_by_key(|(at, kind)| {
        let behind = *at > to;
        (distance(*at), behind, !kind.is_sure())
    })?;
    Some(Count::between(near.1.clone(), near.0, to))
}
