//! Reading real files made by FFmpeg itself, good and hostile.
#![allow(clippy::unwrap_used)]

mod fetching;
mod media;
mod reading;
