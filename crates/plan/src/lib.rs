#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod block;
mod found;
mod packing;
mod script_order;
mod seconds;
mod stock_cost;

pub use block::{Block, StockRules};
pub use found::{Found, PlanError};
pub use packing::{PackedBlock, PackedRoll, Packing, pack};
pub use script_order::in_script_order;
pub use seconds::{Seconds, SecondsError};
pub use stock_cost::{
    OneMoreTake, OverWound, RollPrice, ShootingRatio, StockCost, one_more_take, over_one_wind,
    stock_cost,
};
