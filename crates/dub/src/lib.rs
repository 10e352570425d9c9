#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod anchor;
mod dub_error;
mod echo;
mod hands;
mod machines;
mod music;
mod orphan;
mod placed;
mod sync;

pub use anchor::{Anchor, CueState, Laid, state};
pub use dub_error::DubError;
pub use echo::{Echo, NEAR, echo_near, heard_at};
pub use hands::{HandMove, HandScore, TooMany, hand_score};
pub use machines::{
    CounterRow, Predicted, ProjectorFit, Spacing, Tap, TapeFit, TapeMachine, Timing, counter_table,
    fit_projector, fit_tape, frames_off, spacing_leader, tape_play,
};
pub use music::{
    BarsLifted, BeatMap, BeatPlan, LengthAsked, MovedJoin, MusicFit, SequencePiece, bars_to_lift,
    frames_per_beat, joins_on_beats, music_fit,
};
pub use orphan::{Mark, Proposal, Why, proposals};
pub use placed::{Placed, PlacedPiece, Shows};
pub use sync::SyncLimit;
