//! The count of the work, and the pull list replayed on simulated rolls.

#[path = "../../../cut/tests/it/boat.rs"]
mod boat;
mod replay;
mod story_seven;
