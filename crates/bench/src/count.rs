//! How much work a cut is.

use std::collections::{BTreeMap, BTreeSet};

use onestrand_cut::{JoinTable, Strand, Strips, TrialCut};
use onestrand_film::{FramePos, FrameRange, RollId};

/// What one strip takes from its roll: its picture, and what its joins eat.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Extent {
    /// Index among the strips of the cut.
    pub strip: usize,
    /// First and last position, counted from 1 as on the sheet.
    pub positions: (usize, usize),
    /// The roll.
    pub roll: RollId,
    /// The frames shown.
    pub shown: FrameRange,
    /// The frames taken: shown and eaten.
    pub taken: FrameRange,
}

/// The count of the work. Frames outside their roll are not counted on: a cut
/// that the strand check refuses gets no pull list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WorkCount {
    /// Strips, leader and cards included.
    pub pieces: usize,
    /// Joins, head and tail leader included.
    pub joins: usize,
    /// Places where a blade goes through a roll.
    pub cuts: usize,
    /// Stretches of the rolls used that stay behind.
    pub leftovers: usize,
    /// What is taken from the rolls, in cut order.
    pub extents: Vec<Extent>,
}

impl WorkCount {
    /// Counts the work of a cut.
    #[must_use]
    pub fn of(cut: &TrialCut, strand: &Strand, table: &JoinTable) -> Self {
        let strips = Strips::of(cut, table);
        let extents = extents(&strips, strand);
        let mut by_roll: BTreeMap<&RollId, Vec<FrameRange>> = BTreeMap::new();
        for extent in &extents {
            by_roll.entry(&extent.roll).or_default().push(extent.taken);
        }
        let (mut cuts, mut leftovers) = (0, 0);
        for (roll, taken) in by_roll {
            let frames = strand.roll(roll).map_or(0, |r| r.frames.count());
            cuts += blade_places(&taken, frames);
            leftovers += gaps(taken, frames);
        }
        Self {
            pieces: strips.strips.len(),
            joins: strips.joints.len(),
            cuts,
            leftovers,
            extents,
        }
    }

    /// The rolls wanted, in the order of their names.
    #[must_use]
    pub fn rolls(&self) -> Vec<RollId> {
        let rolls: BTreeSet<&RollId> = self.extents.iter().map(|e| &e.roll).collect();
        rolls.into_iter().cloned().collect()
    }
}

fn extents(strips: &Strips, strand: &Strand) -> Vec<Extent> {
    let one = |(index, strip): (usize, &onestrand_cut::Strip)| {
        let span = strip.span.as_ref()?;
        let frames = i64::from(strand.roll(&span.roll)?.frames.count());
        let (begin, end) = strips.extent(index)?;
        let place = |at: i64| FramePos::new(u32::try_from(at.clamp(0, frames)).ok()?).ok();
        Some(Extent {
            strip: index,
            positions: (strip.positions.0 + 1, strip.positions.1 + 1),
            roll: span.roll.clone(),
            shown: span.range,
            taken: FrameRange::new(place(begin)?, place(end)?).ok()?,
        })
    };
    strips.strips.iter().enumerate().filter_map(one).collect()
}

/// Distinct extent ends strictly inside the roll.
fn blade_places(taken: &[FrameRange], frames: u32) -> usize {
    let ends = taken
        .iter()
        .flat_map(|r| [r.begin().index(), r.end().index()]);
    let inside: BTreeSet<u32> = ends.filter(|at| *at > 0 && *at < frames).collect();
    inside.len()
}

/// Stretches of at least one frame outside all extents.
fn gaps(mut taken: Vec<FrameRange>, frames: u32) -> usize {
    taken.sort_unstable();
    let mut at = 0;
    let mut found = 0;
    for range in taken {
        if range.begin().index() > at {
            found += 1;
        }
        at = at.max(range.end().index());
    }
    found + usize::from(at < frames)
}
