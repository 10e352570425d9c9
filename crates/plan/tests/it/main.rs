//! The plan from outside: the example film's figures, and searches against every way
//! there is.

mod boat;
mod camera_rows;
mod camera_truths;
mod camera_wedge;
mod every_way;
mod reading_scripts;
mod replayed_camera;
mod rosters;
mod stock_figures;
mod story_coverage;
