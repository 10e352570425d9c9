//! The count of the work, and the lists replayed on simulated rolls.

#[path = "../../../cut/tests/it/boat.rs"]
mod boat;
mod cards;
mod every_plan;
mod exhaustive;
mod recut;
mod replay;
mod simulated;
mod story_nine;
mod story_seven;
mod work_order;
