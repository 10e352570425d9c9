//! The printed sheets, read back as text.

mod bench;
mod boat;
mod cutting;
mod looked_at;
mod paper;
mod pull;
mod rolls;
mod said;
mod screening;
