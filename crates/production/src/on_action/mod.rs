//! Match on action: two takes laid beside each other, where to cut between them, and
//! which takes show the same.

mod ask;
mod found;
mod known;
mod look_for;
mod moments;
mod movement;
mod on_sheet;
mod takes;

pub use ask::{MatchPlan, MatchRequest, match_takes};
pub use look_for::{TwinSearch, twins_document};
pub use moments::{MarkMoments, MarkedFrames, UnmarkMoments};
pub use movement::{MatchMemory, PictureSource};
pub use on_sheet::{OnSheet, SheetCut};
pub use takes::TakePlace;

pub(crate) use known::KnownTwins;
pub(crate) use moments::{SETTING as MOMENTS, marked_frames};
