//! The production file from outside.

mod dub;
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
