//! Tests of onestrand-inspect as its users see it.

mod drawn;
mod example_rolls;
mod fades_and_dissolves;
mod finding_breaks;
mod joins_and_leader;
mod measuring_plane;
mod reading;
mod roll_ends;
mod strong_changes;
mod telling_flashes;
