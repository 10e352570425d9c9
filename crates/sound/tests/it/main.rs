//! What holds of sound.

mod ebu;
mod files;
mod mixes;
mod ready;
mod stripes;
