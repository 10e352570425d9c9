//! Strips named and reels proved, on planted photographs and rolls.

mod chance;
mod film;
mod naming;
mod photograph;
mod proving;
