#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod attack;
mod beats;
mod claps;
mod delay;
mod error;
mod events;
mod heard;
mod middle;
mod onsets;
mod rises;
mod seam;
mod spectra;
mod strokes;
mod tempo;
mod tone;

pub use beats::{Beats, beats, loop_beats};
pub use claps::{Clap, claps};
pub use delay::{Delay, delay};
pub use error::HearingError;
pub use events::{EventsLaid, lay_events};
pub use heard::Heard;
pub use onsets::{Onset, onsets};
pub use seam::{LoopWish, Seam, best_seam};
pub use strokes::{StrokeFit, Strokes, fit_strokes};
pub use tone::{Hum, Mains, Tone, hum, tone};
