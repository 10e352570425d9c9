#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod error;
mod event;
mod follower;
mod listen;
mod live;
mod machine;
mod normal;
mod pace;
mod readings;

pub use error::FollowError;
pub use event::{Event, Seen};
pub use follower::Follower;
pub use listen::{Listener, Source};
pub use live::{Comes, Live, Lost};
pub use machine::Habits;
pub use pace::{Pace, Rate};
