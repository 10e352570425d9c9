//! Versions out and in.

mod film;
mod other_programs;
mod reference_package;
mod round_trip;
