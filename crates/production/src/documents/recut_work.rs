//! The work order of a re-cut.

use std::collections::BTreeMap;

use onestrand_bench::{RecutCorner, RecutSource, RecutStep};
use serde::Serialize;
use utoipa::ToSchema;

use super::LowerBoundDocument;

/// What the made reel is called among the rolls.
const REEL: &str = "reel";

/// The work order of a re-cut: the made reel is run, new pieces come off their rolls.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct RecutWorkDocument {
    /// Whether an order is known that does with these pins.
    pub feasible: bool,
    /// Whether it is proved that no order of this way is better: fewest changes of
    /// what lies on the rewinds, then fewest frames wound, then fewest pins.
    pub best: bool,
    /// Pins of the trim bin, as they were said.
    pub pins: u32,
    /// The way of winding asked for: `one_pass`, `tails` or `to_and_fro`.
    pub winding: String,
    /// Lengths of film the new version is joined of; whole where nothing changes.
    pub lengths: usize,
    /// Joins that are opened.
    pub opened: usize,
    /// Joins that are not in the new version and may stay, since both sides go out.
    pub left_joined: usize,
    /// Cuts with the blade.
    pub cuts: usize,
    /// Joins that are made, with the leaders and those inside pieces.
    pub joins: usize,
    /// Frames wound, of the reel and of rolls; like all that follows none where there
    /// is no order.
    pub wound_frames: Option<u64>,
    /// Pins wanted at the worst moment.
    pub pins_peak: Option<u32>,
    /// Mountings after the first.
    pub roll_changes: Option<usize>,
    /// `reel` and rolls in the order of their first mounting.
    pub roll_order: Vec<String>,
    /// What is worked from its tail.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub tails: Vec<String>,
    /// Estimated time. Unit: minutes.
    pub minutes: Option<f64>,
    /// Other orders worth knowing, of all three ways, fewest changes first.
    pub alternatives: Vec<RecutCornerDocument>,
    /// What no order of this way can go below.
    pub lower_bound: LowerBoundDocument,
    /// Without an order: for each way of winding the pins with which one is known.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub fewest: BTreeMap<String, u32>,
    /// The same ways: with fewer pins than this there is none.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub fewest_at_least: BTreeMap<String, u32>,
    /// The acts in order.
    pub steps: Vec<RecutStepDocument>,
}

/// Another order, better in one figure.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct RecutCornerDocument {
    /// Pins wanted at the worst moment.
    pub pins_peak: u32,
    /// Mountings after the first.
    pub roll_changes: usize,
    /// Frames wound.
    pub wound_frames: u64,
    /// What is worked from its tail.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub tails: Vec<String>,
    /// Whether anything is wound to and fro; said only where it is.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub to_and_fro: bool,
}

impl RecutCornerDocument {
    pub(crate) fn of(corner: &RecutCorner) -> Self {
        Self {
            pins_peak: corner.pins_peak,
            roll_changes: corner.roll_changes,
            wound_frames: corner.wound_frames,
            tails: corner.tails.iter().map(mounted_as).collect(),
            to_and_fro: corner.to_and_fro,
        }
    }
}

/// One act of a re-cut.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct RecutStepDocument {
    /// `mount`, `wind`, `open`, `cut`, `hang`, `take_up`, `join` or `unmount`.
    pub act: String,
    /// Whether it is done with the made reel.
    pub reel: bool,
    /// The roll; none for the made reel, leader and cards. At a place of the reel the
    /// roll that the frame there is of.
    pub roll: Option<String>,
    /// The frame the act is about: wound to, or cut or opened before.
    pub frame: Option<u32>,
    /// The same place in running frames of the old version, on the made reel.
    pub at: Option<u32>,
    /// A join that is opened: the position of the old version before it; none at the
    /// head leader.
    pub opens_after: Option<usize>,
    /// The position of the old version behind it; none at the tail leader.
    pub opens_before: Option<usize>,
    /// The pin, when one is used, from 1.
    pub pin: Option<u32>,
    /// The first position of the new version on the length, from 1; none at the tail
    /// leader.
    pub position: Option<usize>,
    /// The last one.
    pub to_position: Option<usize>,
    /// Whether a join is inside a piece: film is joined back there.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub put_back: bool,
    /// `head` or `tail`: towards which end it is wound.
    pub direction: Option<String>,
}

impl RecutStepDocument {
    pub(crate) fn of(step: &RecutStep) -> Self {
        let reel = step.source == Some(RecutSource::Reel);
        let roll = match &step.source {
            Some(RecutSource::Roll(roll)) => Some(roll),
            _ => step.frame.as_ref().map(|frame| &frame.roll),
        };
        let of_roll = step.place.filter(|_| !reel);
        Self {
            act: step.deed.code().to_owned(),
            reel,
            roll: roll.map(ToString::to_string),
            frame: step.frame.as_ref().map(|f| f.frame.index()).or(of_roll),
            at: step.place.filter(|_| reel),
            opens_after: step.opens_after,
            opens_before: step.opens_before,
            pin: step.pin,
            position: step.positions.map(|p| p.0),
            to_position: step.positions.map(|p| p.1),
            put_back: step.put_back,
            direction: step.direction.map(|way| way.code().to_owned()),
        }
    }
}

/// `reel` or the name of a roll.
pub(crate) fn mounted_as(source: &RecutSource) -> String {
    match source {
        RecutSource::Reel => REEL.to_owned(),
        RecutSource::Roll(roll) => roll.to_string(),
    }
}
