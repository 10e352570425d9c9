#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod decibel;
mod keep;
mod kept_mono;
mod kept_outline;
mod limiter;
mod loudness;
mod mix;
mod peaks;
mod reader;
mod ready;
mod sound_error;
mod stripe;
mod wave_out;

pub use decibel::{SILENT_DB, amplitude, decibels};
pub use keep::{KeepSound, KeptFacts};
pub use kept_mono::{KeptMono, kept_mono};
pub use kept_outline::kept_outline;
pub use loudness::{Loudness, LoudnessMeter};
pub use mix::{
    Compressor, Ducked, Equaliser, Fade, FadeShape, LevelPoint, Meter, Mix, MixColumn, MixCue,
    MixRun, Round, START_MARK_DB, WARM_UP,
};
pub use peaks::{BUCKET, Peaks};
pub use reader::{MemorySound, PlainSound, SoundReader};
pub use ready::{Ready, make_ready};
pub use sound_error::SoundError;
pub use stripe::{
    BANDS, Band, Carrier, MixPiece, Stripe, StripeMachine, band_of, gap_loss_db, spacing_loss_db,
    splice_dropout_s, wavelength_um,
};
pub use wave_out::{Bext, WaveOut, dithered};

/// Samples a second, inside and out.
pub const RATE: u32 = 48_000;
