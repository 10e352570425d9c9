//! The production file from outside.

mod forms;
mod journal;
mod kept;
mod notes;
mod owner;
mod peek;
mod pins;
mod script;
mod titles;
mod workprint_pictures;
mod workprints;
