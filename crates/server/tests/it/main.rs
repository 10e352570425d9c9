//! The server, asked over real connections.

mod at_the_tablet;
mod camera;
mod copies;
mod description;
mod folders;
mod hostile;
mod interleaved;
mod limits;
mod listener;
mod logs;
mod pictures;
mod reading;
mod refusals;
mod rosters;
mod runs;
mod sample;
mod scans_in_one_go;
mod script_sheets;
mod scripts;
mod served;
mod sheets_of_cut;
mod tablets;
mod tablets_door;
mod tablets_table;
mod titles;
mod windows;
