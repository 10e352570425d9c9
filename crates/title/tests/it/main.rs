//! Titles from outside: rows of the check values, the story of the card over artwork,
//! and sheets played back.

mod card_over_artwork;
mod holds;
mod light_of_lamps;
mod played_back;
mod stand_rows;
