//! The work order of a version.

use std::collections::BTreeMap;

use onestrand_bench::{Corner, LowerBound, Step};
use serde::Serialize;
use utoipa::ToSchema;

/// The answer of `bench`.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct BenchDocument {
    /// The cut.
    pub cut: String,
    /// The usual join.
    pub join: String,
    /// Pins of the trim bin, as they were said.
    pub pins: u32,
    /// The way of winding asked for: `one_pass`, `tails` or `to_and_fro`.
    pub winding: String,
    /// Whether an order is known that does with these pins.
    pub feasible: bool,
    /// Whether it is proved that no order of this way is better: fewest roll
    /// changes, then fewest frames wound, then fewest pins.
    pub best: bool,
    /// Whether the scan of each roll is proved complete.
    pub proved: BTreeMap<String, bool>,
    /// Strips after merging.
    pub pieces: usize,
    /// Cuts with the blade.
    pub cuts: usize,
    /// Joins, with head and tail leader.
    pub joins: usize,
    /// Stretches left over.
    pub leftovers: usize,
    /// Frames wound; like all that follows none where there is no order.
    pub wound_frames: Option<u64>,
    /// Pins wanted at the worst moment.
    pub pins_peak: Option<u32>,
    /// Mountings after the first.
    pub roll_changes: Option<usize>,
    /// Rolls in the order of their first mounting.
    pub roll_order: Vec<String>,
    /// Rolls worked from their tails.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub tails: Vec<String>,
    /// Estimated time. Unit: minutes.
    pub minutes: Option<f64>,
    /// Other orders worth knowing, of all three ways, fewest changes first.
    pub alternatives: Vec<AlternativeDocument>,
    /// What no order of this way can go below.
    pub lower_bound: LowerBoundDocument,
    /// Without an order: for each way of winding the pins with which one is known.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub fewest: BTreeMap<String, u32>,
    /// The same ways: with fewer pins than this there is none. Where it is less
    /// than `fewest`, that number is not proved.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub fewest_at_least: BTreeMap<String, u32>,
    /// The acts in order.
    pub steps: Vec<StepDocument>,
    /// What was taken for granted.
    pub assumptions: Vec<String>,
}

/// Another order, better in one figure.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct AlternativeDocument {
    /// Pins wanted at the worst moment.
    pub pins_peak: u32,
    /// Mountings after the first.
    pub roll_changes: usize,
    /// Frames wound.
    pub wound_frames: u64,
    /// Rolls worked from their tails.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub tails: Vec<String>,
    /// Whether rolls are wound to and fro; said only where they are.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub to_and_fro: bool,
}

impl AlternativeDocument {
    pub(crate) fn of(corner: &Corner) -> Self {
        Self {
            pins_peak: corner.pins_peak,
            roll_changes: corner.roll_changes,
            wound_frames: corner.wound_frames,
            tails: corner.tails.iter().map(ToString::to_string).collect(),
            to_and_fro: corner.to_and_fro,
        }
    }
}

/// What no order can go below. Each figure stands alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
pub struct LowerBoundDocument {
    /// Roll changes, with the pins there are.
    pub roll_changes: usize,
    /// Frames wound.
    pub wound_frames: u64,
    /// Pins, whatever the roll changes.
    pub pins_peak: u32,
}

impl LowerBoundDocument {
    pub(crate) const fn of(bound: LowerBound) -> Self {
        Self {
            roll_changes: bound.roll_changes,
            wound_frames: bound.wound_frames,
            pins_peak: bound.pins_peak,
        }
    }
}

/// One act at the bench.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct StepDocument {
    /// `mount`, `wind`, `cut`, `hang`, `take_up`, `join` or `unmount`.
    pub act: String,
    /// The roll; none for leader and cards.
    pub roll: Option<String>,
    /// The frame the act is about: wound to, or cut before.
    pub frame: Option<u32>,
    /// The pin, when one is used, from 1.
    pub pin: Option<u32>,
    /// The position in the cut, from 1; none at the tail leader.
    pub position: Option<usize>,
    /// `head` or `tail`: towards which end it is wound.
    pub direction: Option<String>,
}

impl StepDocument {
    pub(crate) fn of(step: &Step) -> Self {
        Self {
            act: step.act.code().to_owned(),
            roll: step.roll.as_ref().map(ToString::to_string),
            frame: step.frame.map(|at| at.index()),
            pin: step.pin,
            position: step.position,
            direction: step.direction.map(|way| way.code().to_owned()),
        }
    }
}
