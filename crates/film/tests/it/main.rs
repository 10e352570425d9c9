//! The measure against tables of handbooks and standards.

mod negative;
mod round_trips;
mod tables;
