//! Between which frames the ends of pieces may still lie.

use super::layout::{Layout, Spot, Trial};

/// One end of a piece: its first frame, or the first one thrown away.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) struct End {
    pub(super) piece: usize,
    pub(super) tail: bool,
}

impl End {
    pub(super) const fn head(piece: usize) -> Self {
        Self { piece, tail: false }
    }

    pub(super) const fn tail(piece: usize) -> Self {
        Self { piece, tail: true }
    }

    /// The other end of the same piece.
    const fn partner(self) -> Self {
        Self {
            piece: self.piece,
            tail: !self.tail,
        }
    }

    /// The gap of the cut it lies at.
    pub(super) const fn gap(self) -> usize {
        if self.tail {
            self.piece + 1
        } else {
            self.piece
        }
    }

    pub(super) fn of(self, spot: Spot) -> i64 {
        if self.tail { spot.end } else { spot.begin }
    }
}

/// What a shift costs: places of the cut where an end moves, then frames by
/// which ends move, all told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct ShiftCost {
    pub(super) joins: usize,
    pub(super) frames: u64,
}

/// A box of shifts: for each end a lowest and a highest frame, and gaps at which
/// the two ends are to continue each other. An end that is not named may lie
/// anywhere on its roll.
#[derive(Debug, Clone, Default, PartialEq, Eq, Hash)]
pub(super) struct Bounds {
    ends: Vec<(End, i64, i64)>,
    links: Vec<usize>,
}

impl Bounds {
    /// Where an end may lie, both included.
    fn between(&self, end: End, layout: &Layout) -> (i64, i64) {
        match self.ends.binary_search_by_key(&end, |e| e.0) {
            Ok(at) => (self.ends[at].1, self.ends[at].2),
            Err(_) => {
                let spot = layout.spots[end.piece];
                let frames = spot.roll.map_or(spot.end, |r| layout.rolls[r].frames);
                let last = frames.max(spot.end);
                if end.tail { (1, last) } else { (0, last - 1) }
            }
        }
    }

    fn set(&mut self, end: End, between: (i64, i64)) {
        match self.ends.binary_search_by_key(&end, |e| e.0) {
            Ok(at) => self.ends[at] = (end, between.0, between.1),
            Err(at) => self.ends.insert(at, (end, between.0, between.1)),
        }
    }

    /// The same with an end kept between two frames; nothing when no shift is
    /// left. A piece keeps at least a frame, and linked ends move together.
    pub(super) fn kept(&self, end: End, low: i64, high: i64, layout: &Layout) -> Option<Self> {
        layout.spots[end.piece].roll?;
        let mut next = self.clone();
        let mut open = vec![(end, low, high)];
        while let Some((end, low, high)) = open.pop() {
            let was = next.between(end, layout);
            let now = (was.0.max(low), was.1.min(high));
            if now.0 > now.1 {
                return None;
            }
            if now == was {
                continue;
            }
            next.set(end, now);
            if end.tail {
                open.push((end.partner(), i64::MIN, now.1 - 1));
            } else {
                open.push((end.partner(), now.0 + 1, i64::MAX));
            }
            if next.links.binary_search(&end.gap()).is_ok() {
                open.push((across(end), now.0, now.1));
            }
        }
        Some(next)
    }

    pub(super) fn at_least(&self, end: End, low: i64, layout: &Layout) -> Option<Self> {
        self.kept(end, low, i64::MAX, layout)
    }

    pub(super) fn at_most(&self, end: End, high: i64, layout: &Layout) -> Option<Self> {
        self.kept(end, i64::MIN, high, layout)
    }

    /// The same with the pieces on both sides of a gap continuing each other.
    pub(super) fn linked(&self, gap: usize, layout: &Layout) -> Option<Self> {
        if gap == 0 || gap >= layout.spots.len() {
            return None;
        }
        let (before, after) = (layout.spots[gap - 1], layout.spots[gap]);
        let at = self.links.binary_search(&gap).err()?;
        before.roll?;
        if before.roll != after.roll || before.effect || after.effect {
            return None;
        }
        let mut next = self.clone();
        next.links.insert(at, gap);
        let (tail, head) = (End::tail(gap - 1), End::head(gap));
        let (low, high) = self.between(tail, layout);
        let next = next.kept(head, low, high, layout)?;
        let (low, high) = next.between(head, layout);
        next.kept(tail, low, high, layout)
    }

    /// Where an end lies when every end moves as little as it may.
    fn least(&self, end: End, layout: &Layout) -> i64 {
        let linked = self.links.binary_search(&end.gap()).is_ok();
        let led_by = if linked && !end.tail {
            across(end)
        } else {
            end
        };
        let (low, high) = self.between(led_by, layout);
        led_by.of(layout.spots[led_by.piece]).clamp(low, high)
    }

    /// The shift of this box that moves the least, and what it costs: no shift
    /// of the box costs less.
    pub(super) fn least_shift(&self, layout: &Layout) -> (Trial, ShiftCost) {
        let mut pieces: Vec<usize> = self.ends.iter().map(|e| e.0.piece).collect();
        pieces.extend(self.links.iter().flat_map(|gap| [gap - 1, *gap]));
        pieces.sort_unstable();
        pieces.dedup();
        let mut trial = Trial::default();
        let (mut gaps, mut frames) = (Vec::new(), 0);
        for piece in pieces {
            let was = layout.spots[piece];
            let mut now = was;
            now.begin = self.least(End::head(piece), layout);
            now.end = self.least(End::tail(piece), layout);
            for end in [End::head(piece), End::tail(piece)] {
                let by = end.of(now).abs_diff(end.of(was));
                if by > 0 {
                    gaps.push(end.gap());
                    frames += by;
                }
            }
            if now != was {
                trial.spots.push((piece, now));
            }
        }
        gaps.dedup();
        let joins = gaps.len();
        (trial, ShiftCost { joins, frames })
    }
}

/// The end on the other side of the same gap.
const fn across(end: End) -> End {
    if end.tail {
        End::head(end.piece + 1)
    } else {
        End::tail(end.piece - 1)
    }
}
