#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod copies;
mod desk;
mod door;
mod drawn_titles;
mod events;
mod following;
mod hosts;
mod house;
mod jobs;
mod listening;
mod page;
mod places;
mod playing;
mod printing;
mod problem;
mod reading;
mod routes;
mod serving;
mod shelf;
mod steady;
mod tablets;
mod turns;
mod twins;

pub use serving::{Limits, ServeError, Server, Settings, TabletInvitation, api_description};
