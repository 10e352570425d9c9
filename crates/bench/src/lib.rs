#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod count;
mod error;
mod habits;
mod landmark;
mod plan;
mod pull;
mod recut;
mod search;
mod steps;
mod wanted;
mod work_order;

pub use count::{Extent, WorkCount};
pub use error::NoWorkOrder;
pub use habits::{BenchHabits, BenchTimes, Winding};
pub use landmark::{Landmark, LandmarkKind};
pub use pull::{Pull, PullList};
pub use recut::{Price, Recut, RecutAct};
pub use steps::{BenchAct, Step, Towards};
pub use work_order::{BenchPlan, Corner, FewestPins, LowerBound, WorkOrder};
