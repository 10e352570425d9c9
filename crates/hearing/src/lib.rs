#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod attack;
mod claps;
mod delay;
mod error;
mod events;
mod heard;
mod middle;
mod onsets;
mod rises;
mod spectra;
mod strokes;
mod tone;

pub use claps::{Clap, claps};
pub use delay::{Delay, delay};
pub use error::HearingError;
pub use events::{EventsLaid, lay_events};
pub use heard::Heard;
pub use onsets::{Onset, onsets};
pub use strokes::{StrokeFit, Strokes, fit_strokes};
pub use tone::{Hum, Mains, Tone, hum, tone};
