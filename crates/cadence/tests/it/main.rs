//! Tests of onestrand-cadence as its users see it.

mod clean_repeats;
mod coded;
mod score;
