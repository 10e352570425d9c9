//! Tests of onestrand-signs as its users see it.

mod boat;
mod clean_rolls;
#[allow(dead_code, reason = "the example program draws more than the tests do")]
mod drawn;
mod example_film;
mod following_strength;
mod holding_true;
mod kept_record;
mod planted_light;
mod reading;
#[allow(
    dead_code,
    reason = "the example program prints more than the tests ask"
)]
mod trials;
