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
mod reel_make_up;
mod reel_table;
mod sound;
mod speed;
mod throw;

pub use clock::RunningTime;
pub use error::UnitError;
pub use footage::{FeetFrames, parse_position};
pub use frames::{FrameDelta, FramePos, Frames};
pub use gauge::{Aperture, Gauge, GaugeSpec, HolePlace, StripGeometry};
pub use length::{Length, Shrinkage};
pub use name::{FrameName, FrameRange, RollId, Span};
pub use quantity::Quantity;
pub use reel::{Winding, capacity, diameter, frames_wound, thickness_from_capacity, turns};
pub use reel_make_up::{Filled, MOST_SINGLE, ReelsAtHand, ToWind};
pub use reel_table::{POLYESTER_MM, ReelRoom, ReelSpec, TRIACETATE_MM, standard_reels};
pub use sound::{
    SampleCount, SampleRate, SoundLead, SoundTrack, Sureness, sample_from_frame_floor,
};
pub use speed::Fps;
pub use throw::{HallLength, LETTER_ARC_MINUTES, Throw, letter_height};
