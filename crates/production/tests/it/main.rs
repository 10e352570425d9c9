//! The acts from outside, where no program is needed to reach them.

mod answered_questions;
mod changes_in_a_transfer;
mod cutting_sheets_in;
mod decisions_stay;
mod exchange;
mod flash_moved;
mod foreign_logs;
mod in_the_hand;
mod matched_takes;
mod numbered;
mod one_roll;
mod paper_roll;
mod put_together;
mod read_by_an_older;
mod reels_and_halves;
mod roll_sheets;
mod runs_of_rolls;
mod sheets;
mod shelf_stopped;
mod sign_limits;
mod small_pictures;
mod steps_of_light;
mod true_frames;
mod unslit_scan;
mod versions;
mod ways_later;
