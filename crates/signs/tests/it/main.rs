//! Tests of onestrand-signs as its users see it.

mod drawn;
mod following_strength;
mod reading;
mod trials;
