#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

pub mod camera;

mod block;
mod camera_report;
mod coverage;
mod floor_plan;
mod found;
mod in_camera;
mod packing;
mod roster;
mod script;
mod script_order;
mod seconds;
mod stock_cost;

pub use block::{Block, StockRules};
pub use camera_report::{CameraReport, ReportedTake, read_camera_report};
pub use coverage::{
    ActionCover, Coverage, CoveredBy, RetakeOn, RollLeft, coverage, planned_coverage, retake,
};
pub use floor_plan::{field_angle, over_the_line};
pub use found::{Found, PlanError};
pub use in_camera::{CameraLimits, CameraStep, InCamera, ScreenShot, in_camera};
pub use packing::{PackedBlock, PackedRoll, Packing, pack};
pub use roster::{
    ReadRoster, Roster, RosterBounds, RosterNeed, RosterPlan, RosterProof, RosterStep, RosterTeam,
    RosterThing, TeamBound, TeamEnd, ThingBound, ThingUsed, Turn, WaitingStep, plan_roster,
    read_roster, read_sessions, read_things,
};
pub use script::{
    Action, FountainScript, Pasted, ReadSheet, Scene, Script, Setup, Shown, WildSound,
    action_letter, is_title, read_fountain, read_pasted, read_script_sheet, read_wild_sounds,
};
pub use script_order::in_script_order;
pub use seconds::{Seconds, SecondsError};
pub use stock_cost::{
    OneMoreTake, OverWound, RollPrice, ShootingRatio, StockCost, one_more_take, over_one_wind,
    stock_cost,
};
