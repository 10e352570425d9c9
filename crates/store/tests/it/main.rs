//! The production file from outside.

mod journal;
mod owner;
mod workprints;
