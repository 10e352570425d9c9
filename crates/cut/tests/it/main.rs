//! Tests of the strand check from outside.

mod assembling;
mod boat;
mod continuity;
mod frame_by_frame;
mod rules;
mod small_strands;
mod story_six;
mod versions;
mod ways_out;
