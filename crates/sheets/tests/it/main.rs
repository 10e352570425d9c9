//! The printed sheets, read back as text.

mod bench;
mod boat;
mod boat_dub;
mod boat_plan;
mod camera_page;
mod cutting;
mod dub;
mod looked_at;
mod paper;
mod plan;
mod plan_lined;
mod pull;
mod rolls;
mod rosters;
mod said;
mod screening;
mod titles_listed;
mod titles_true_size;
