//! The printed sheets, read back as text.

mod boat;
mod cutting;
mod paper;
mod pull;
mod said;
