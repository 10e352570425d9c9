#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod clock;
mod error;
mod footage;
mod frames;
mod gauge;
mod gauge_table;
mod length;
mod name;
mod quantity;
mod reel;
mod sound;
mod speed;

pub use clock::RunningTime;
pub use error::UnitError;
pub use footage::{FeetFrames, parse_position};
pub use frames::{FrameDelta, FramePos, Frames};
pub use gauge::{Aperture, Gauge, GaugeSpec, HolePlace, StripGeometry};
pub use length::{Length, Shrinkage};
pub use name::{FrameName, FrameRange, RollId, Span};
pub use quantity::Quantity;
pub use reel::{Winding, capacity, diameter, frames_wound, thickness_from_capacity, turns};
pub use sound::{
    SampleCount, SampleRate, SoundLead, SoundTrack, Sureness, sample_from_frame_floor,
};
pub use speed::Fps;
