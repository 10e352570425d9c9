//! Tests of the strand check from outside.

mod boat;
mod frame_by_frame;
mod rules;
mod story_six;
