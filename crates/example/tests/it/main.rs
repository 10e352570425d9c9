//! Tests of the example film as other crates see it.

mod pictures;
mod planted;
mod sounds_made;
mod story;
