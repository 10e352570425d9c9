//! Tests of onestrand-inspect as its users see it.

mod drawn;
mod example_rolls;
mod finding_breaks;
mod measuring_plane;
mod reading;
mod roll_ends;
mod telling_flashes;
