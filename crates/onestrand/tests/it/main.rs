//! The program from outside, as its user meets it.

mod at_the_bench;
mod bad_input;
mod camera;
mod dub;
mod example_film;
mod exchange;
mod in_the_hand;
mod killed;
mod matching;
mod media;
mod page_killed;
mod plan;
mod program;
mod read_again;
mod reckoned;
mod recut;
mod reel_labels;
mod reel_plan;
mod roll_edge;
mod rosters;
mod sheets_and_cuts;
mod shelf_killed;
mod tablet;
mod title_card;
mod titles;
mod work_order;
