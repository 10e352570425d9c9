#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod cannot_tell;
mod course;
mod error;
mod framing;
mod lattice;
mod laying;
mod likeness;
mod match_point;
mod movement;
mod pair;
mod picture;
mod scene;
mod search;
mod stir;
mod time_map;
mod tracks;
mod twin_take;

pub use cannot_tell::CannotTell;
pub use course::FoundMap;
pub use error::TwinsError;
pub use laying::lay_beside;
pub use match_point::{Entry, MatchPoint, MatchWish, match_points};
pub use movement::{MovementReader, TakeMovement};
pub use picture::GreyPicture;
pub use time_map::{Moment, SameMoment, TimeMap};
pub use twin_take::{TwinTake, twins_of};
