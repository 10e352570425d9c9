//! A follower against projectors that are worked out.
#![expect(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "tests stop where something is not as it must be, and print their figures"
)]

mod by_ear;
mod by_taps;
mod drawn;
mod playback;
mod refusals;
mod the_boat;
