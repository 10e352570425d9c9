//! The count of the work, and the lists replayed on simulated rolls.

mod bench_anew;
mod bench_drawn;
mod bench_state;
#[path = "../../../cut/tests/it/boat.rs"]
mod boat;
mod by_hand;
mod cards;
mod cells;
mod drawn_bench;
mod every_plan;
mod exhaustive;
mod near;
mod recut;
mod recut_by_hand;
mod recut_order;
mod replay;
mod seen_on_reel;
mod simulated;
mod story_nine;
mod story_seven;
mod strip;
mod turned_back;
mod work_order;
