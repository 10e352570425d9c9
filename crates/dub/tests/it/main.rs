//! What holds of cues, hands, machines and music.

mod brute;
mod cues;
mod echoes;
mod hands;
mod machines;
mod music;
mod sync;
mod the_boat;
