//! What is still to be done, from the bench as it is.

use onestrand_cut::{JoinKind, JoinTable, Strips};
use onestrand_film::{FrameName, FramePos, FrameRange, Gauge, RollId};

use super::coming::Outlook;
use super::writer::Writer;
use super::{BenchState, CannotBe, Deed, Film, Laid};
use crate::BenchTimes;
use crate::habits::ActCount;

/// One strip in the order in which they are taken from their rolls.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Taking {
    /// The strip of the version, counted from 0.
    pub strip: usize,
    /// Whether its tail comes first.
    pub backward: bool,
}

/// One deed still to be done.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WorkStep {
    /// The deed.
    pub deed: Deed,
    /// The strip of the version it is about, counted from 0.
    pub strip: Option<usize>,
    /// The film it is about, as it will be seen.
    pub film: Option<Film>,
    /// The pin that the film comes off.
    pub from_pin: Option<u32>,
    /// Frames wound to get there, with a sign: towards the tail is positive.
    pub wind: i64,
    /// Of a join that is made or opened, and of a cut in film turned back: the last frame
    /// before it, if it is of a roll.
    pub outgoing: Option<FrameName>,
    /// How that film lies; right where none is.
    pub outgoing_laid: Laid,
    /// And the first frame behind it, if it is of a roll.
    pub incoming: Option<FrameName>,
    /// Of a join that is opened: its kind.
    pub opens: Option<JoinKind>,
    /// Frames that it spoils.
    pub spoils: Vec<(RollId, FrameRange)>,
}

/// All that is left.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct WorkLeft {
    /// In order.
    pub steps: Vec<WorkStep>,
    /// Pins wanted at the worst moment from now on, those taken now counted.
    pub pins_peak: u32,
    /// Frames still to be wound.
    pub wound: u64,
}

impl WorkLeft {
    /// How long it will take, a join taken to be opened as fast as a cut is made. Unit:
    /// minutes.
    #[must_use]
    pub fn minutes(&self, times: &BenchTimes, gauge: Gauge) -> f64 {
        let count = |code: &str| self.steps.iter().filter(|s| s.deed.code() == code).count();
        let acts = ActCount {
            cuts: count("cut") + count("open") + count("unjoin"),
            joins: count("join"),
            mountings: count("mount") + count("mount_made"),
            wound: self.wound,
        };
        times.minutes(&acts, gauge)
    }

    /// What is left of a version, its strips taken in this order. `through` names
    /// rolls that are wound to their tail before their first cut. What is on the
    /// reel stays as it is there: see [`WorkLeft::mending`].
    ///
    /// # Errors
    /// [`CannotBe`] when the order does not fit the bench.
    pub fn of(
        state: &BenchState,
        strips: &Strips,
        order: &[Taking],
        through: &[RollId],
        table: &JoinTable,
    ) -> Result<Self, CannotBe> {
        let outlook = Outlook::of(state, strips, table);
        let mut writer = Writer::new(state, table, outlook, order, through);
        writer.all(order)?;
        Ok(writer.left)
    }

    /// The same from a bench whose made film is first turned back, to make another
    /// version of it: `others` as in [`Deed::TurnBack`].
    ///
    /// # Errors
    /// [`CannotBe`] when the order does not fit the bench, or nothing is made yet.
    pub fn turned_back(
        state: &BenchState,
        others: &[(usize, usize)],
        strips: &Strips,
        order: &[Taking],
        table: &JoinTable,
    ) -> Result<Self, CannotBe> {
        let mut turner = Writer::new(state, table, Outlook::default(), order, &[]);
        let others = others.to_vec();
        turner.does(Deed::TurnBack { others }, None)?;
        let outlook = Outlook::of(&turner.state, strips, table);
        let mut writer = Writer::new(&turner.state, table, outlook, order, &[]);
        writer.left.steps = turner.left.steps;
        writer.all(order)?;
        Ok(writer.left)
    }
}

/// What is asked of the place where the blade goes, or where film is wound to.
pub(super) fn pos(at: u32) -> FramePos {
    FramePos::new(at).unwrap_or(FramePos::MAX)
}
