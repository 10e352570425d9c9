//! Strips named and reels proved, on planted photographs and rolls.

// The wide runs tell what they found.
#![expect(clippy::print_stderr)]

mod chance;
mod film;
mod naming;
mod photograph;
mod proving;
mod strip;
mod tally;
