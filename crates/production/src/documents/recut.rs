//! What a new version of a film already cut costs.

use std::collections::BTreeMap;

use onestrand_film::Span;
use serde::Serialize;
use utoipa::ToSchema;

use super::{ChangeLineDocument, RecutWorkDocument, RemadeDocument, StayDocument};

/// The answer of `recut`.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct RecutDocument {
    /// The version that the film is cut to.
    pub from: String,
    /// The version it is to become.
    pub to: String,
    /// The usual join of the old version, as it was reckoned.
    pub from_join: String,
    /// The usual join of the new version.
    pub join: String,
    /// The same told from the bench, where the film on the reel was made as the old
    /// version; none otherwise.
    pub from_the_bench: Option<RemadeDocument>,
    /// Joins that only the old version has, leaders left out.
    pub opened: usize,
    /// Joins that only the new version has, leaders left out.
    pub made: usize,
    /// Joins of both.
    pub kept: usize,
    /// Joins with head or tail leader opened.
    pub leader_opened: usize,
    /// Joins with head or tail leader made.
    pub leader_made: usize,
    /// Places inside a strip of the new version where film was cut before and is
    /// joined back.
    pub put_back: usize,
    /// Frames lost that the new version wants.
    pub lost: usize,
    /// Frames lost from what is lifted.
    pub lost_outs: usize,
    /// Which frames are lost that the new version wants.
    pub lost_film: Vec<LostDocument>,
    /// Which frames are lost from what is lifted.
    pub lost_outs_film: Vec<LostDocument>,
    /// Length of the new version as it is written.
    pub planned_frames: u32,
    /// Length it will have.
    pub real_frames: u32,
    /// Frames that both have in the same order.
    pub held: u32,
    /// Frames that both have, in another order.
    pub moved: u32,
    /// Frames that only the old version has.
    pub out: u32,
    /// Frames that only the new version has.
    pub new_frames: u32,
    /// The change list, in the order of the old version.
    pub changes: Vec<ChangeLineDocument>,
    /// What stays, stretch by stretch.
    pub stays: Vec<StayDocument>,
    /// What each change costs by itself, in the order of the old version.
    pub prices: Vec<PriceDocument>,
    /// Cheaper versions near the new one, where they were asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub near: Option<NearDocument>,
    /// The version as which the cheapest of them was kept.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub kept_as: Option<String>,
    /// The work order, where pins were said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub work: Option<RecutWorkDocument>,
    /// Whether the scan of each roll of either version is proved complete.
    pub proved: BTreeMap<String, bool>,
    /// What was taken for granted.
    pub assumptions: Vec<String>,
}

/// One change by itself: what it would cost if it were the only one.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct PriceDocument {
    /// The change in words.
    pub change: String,
    /// `lift`, `insert`, `exchange`, `trim` or `move`.
    pub act: String,
    /// Positions of the old version that go out, move or change their length.
    pub from_positions: Vec<usize>,
    /// Positions of the new version that come in, move or change their length.
    pub to_positions: Vec<usize>,
    /// Joins opened, leaders left out.
    pub opened: usize,
    /// Joins made, leaders left out.
    pub made: usize,
    /// Joins with head or tail leader opened.
    pub leader_opened: usize,
    /// Joins with head or tail leader made.
    pub leader_made: usize,
    /// Places where film is joined back.
    pub put_back: usize,
    /// Frames lost that the new version wants.
    pub lost: usize,
    /// Frames lost from what is lifted.
    pub lost_outs: usize,
    /// Which frames are lost that the new version wants.
    pub lost_film: Vec<LostDocument>,
}

/// Cheaper versions near the new one.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct NearDocument {
    /// Each piece may begin and end so many frames earlier or later.
    pub tolerance: u32,
    /// Whether it is proved that none within the tolerance is better: fewest joins
    /// opened and made (leaders and those put back counted), then fewest frames lost,
    /// then the smallest shift.
    pub best: bool,
    /// Each cheaper than the one before it and allowed more; the last is the best.
    pub found: Vec<NearVersionDocument>,
}

/// A version near the new one that costs less.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct NearVersionDocument {
    /// So many frames are enough for it.
    pub tolerance: u32,
    /// Frames by which ends are shifted, all together.
    pub shifted: u64,
    /// What lies elsewhere than in the new version.
    pub shifts: Vec<ShiftDocument>,
    /// Joins opened, leaders left out.
    pub opened: usize,
    /// Joins made, leaders left out.
    pub made: usize,
    /// Joins kept.
    pub kept: usize,
    /// Joins with head or tail leader opened.
    pub leader_opened: usize,
    /// Joins with head or tail leader made.
    pub leader_made: usize,
    /// Places where film is joined back.
    pub put_back: usize,
    /// Frames lost that it wants.
    pub lost: usize,
    /// Frames lost from what is lifted.
    pub lost_outs: usize,
    /// Its length as it is written.
    pub planned_frames: u32,
    /// The length it will have.
    pub real_frames: u32,
    /// Its cutting sheet.
    pub csv: String,
}

/// One end of a piece that lies elsewhere.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct ShiftDocument {
    /// The position in the new version, from 1.
    pub position: usize,
    /// `in` where it begins elsewhere, `out` where it ends elsewhere.
    pub end: String,
    /// By how many frames; later is more.
    pub frames: i64,
    /// The same in words.
    pub words: String,
}

/// Frames that are lost.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct LostDocument {
    /// The roll.
    pub roll: String,
    /// The first.
    #[serde(rename = "in")]
    pub first: u32,
    /// The first that is not lost.
    #[serde(rename = "out")]
    pub thrown: u32,
}

impl From<&Span> for LostDocument {
    fn from(span: &Span) -> Self {
        Self {
            roll: span.roll.to_string(),
            first: span.range.begin().index(),
            thrown: span.range.end().index(),
        }
    }
}
