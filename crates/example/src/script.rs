//! The shooting script of the example film.

/// The screenplay, as Fountain text: seven scenes, fifteen actions.
pub const SCREENPLAY: &str = include_str!("script/screenplay.fountain");

/// The setups that show its actions, as a table: seventeen, and two titles.
pub const SETUPS: &str = include_str!("script/setups.csv");

/// Sounds that are to be got without the camera, as a table.
pub const WILD_SOUNDS: &str = include_str!("script/wild_sounds.csv");
