//! Reading real files made by FFmpeg itself, good and hostile.
#![allow(clippy::unwrap_used)]

mod awkward;
mod fetching;
mod hostile;
mod media;
mod programs;
mod reading;
mod runs;
