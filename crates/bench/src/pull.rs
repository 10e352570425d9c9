//! The pull list in cut order.

use std::collections::BTreeMap;

use onestrand_cut::{JoinTable, Strand, TrialCut};
use onestrand_film::{FramePos, RollId};

use crate::{Extent, Landmark, WorkCount};

/// One line: one strip taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pull {
    /// What is taken.
    pub extent: Extent,
    /// Whether the roll must be changed first.
    pub mount: bool,
    /// From where the roll stands to the first frame taken. Unit: frames,
    /// positive towards the tail.
    pub wind: i64,
    /// What to count from.
    pub landmark: Landmark,
    /// From the landmark to the first frame kept. Unit: frames.
    pub count_to_first: u32,
    /// From the landmark to the last frame kept. Unit: frames.
    pub count_to_last: u32,
}

/// All lines, with their sums.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PullList {
    /// The count of the work.
    pub work: WorkCount,
    /// One line a strip, in cut order.
    pub pulls: Vec<Pull>,
    /// Mountings after the first.
    pub roll_changes: usize,
    /// Frames wound in all, to the extents and over them.
    pub wound: u64,
}

impl PullList {
    /// The pull list of a cut: every roll heads out at frame 0 at first, and
    /// left where its last piece was taken.
    #[must_use]
    pub fn in_cut_order(cut: &TrialCut, strand: &Strand, table: &JoinTable) -> Self {
        let work = WorkCount::of(cut, strand, table);
        let mut bench = Rewinds::default();
        let pulls: Vec<Pull> = work
            .extents
            .iter()
            .map(|extent| bench.pull(extent, strand))
            .collect();
        Self {
            work,
            pulls,
            roll_changes: bench.mountings.saturating_sub(1),
            wound: bench.wound,
        }
    }
}

/// Where every roll stands while the list is made.
#[derive(Debug, Default)]
struct Rewinds {
    mounted: Option<RollId>,
    mountings: usize,
    wound: u64,
    standing: BTreeMap<RollId, FramePos>,
    ends_taken: BTreeMap<RollId, Vec<FramePos>>,
}

impl Rewinds {
    fn pull(&mut self, extent: &Extent, strand: &Strand) -> Pull {
        let roll = &extent.roll;
        let mount = self.mounted.as_ref() != Some(roll);
        if mount {
            self.mounted = Some(roll.clone());
            self.mountings += 1;
        }
        let stands = self.standing.get(roll).copied().unwrap_or_default();
        let wind = i64::from(extent.taken.begin().since(stands).frames());
        self.wound += wind.unsigned_abs() + u64::from(extent.taken.len().count());
        self.standing.insert(roll.clone(), extent.taken.end());

        let ends = self.ends_taken.entry(roll.clone()).or_default();
        let landmark = Landmark::before(strand, roll, extent.shown.begin(), ends);
        ends.push(extent.taken.end());
        let counted = |to: FramePos| to.since(landmark.at.frame).frames().unsigned_abs();
        Pull {
            mount,
            wind,
            count_to_first: counted(extent.shown.begin()),
            count_to_last: counted(extent.shown.last()),
            landmark,
            extent: extent.clone(),
        }
    }
}
