//! Reading real files made by FFmpeg itself, good and hostile.
#![allow(clippy::unwrap_used)]

mod media;
mod reading;
