//! Family reels with planted truth: drawn cameras, rolls, copies.

mod cameras;
mod chance;
mod copies;
mod family;
mod gate;
mod order;
mod prints;
mod scene;
mod tally;
