//! The price of another version, told from the bench.

use serde::Serialize;
use utoipa::ToSchema;

/// What it costs to make another version of the film on the reel, as it really lies
/// there.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct RemadeDocument {
    /// The version that the film was made as.
    pub from: String,
    /// Joins that are opened, those of the leaders counted.
    pub opened: usize,
    /// Joins that are made, those of the leaders counted.
    pub made: usize,
    /// Joins that stay, those of the leaders counted.
    pub kept: usize,
    /// Cuts with the blade.
    pub cuts: usize,
    /// Frames lost that the new version wants.
    pub lost: usize,
    /// Frames of film that goes out spoiled by opening.
    pub lost_outs: usize,
    /// Frames wanted that cannot be had any more: eaten or torn before, or in snippets
    /// too short to be joined.
    pub missing: usize,
    /// The length it will have, in frames.
    pub frames: u64,
    /// Pins wanted at the worst moment.
    pub pins: u32,
    /// Rolls put on, the made film counted, after the first.
    pub roll_changes: usize,
    /// Frames wound.
    pub wound_frames: u64,
}
