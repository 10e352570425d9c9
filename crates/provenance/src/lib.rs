#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod cameras;
mod chance;
mod copies;
mod error;
mod gate;
mod grouping;
mod laid;
mod median;
mod order;
mod scan_picture;
mod shot;
mod standing;
mod stock;

pub use cameras::{CameraSeen, CamerasFound, SURE, ShotPlace, find_cameras};
pub use copies::{CopiesFound, CopyEvidence, EvidenceKind, Kinship, SameFrames, compare_copies};
pub use error::ProvenanceError;
pub use gate::{GateOutline, PLACES, Side};
pub use order::{GateThing, Neighbours, OrderFound, Strip, TOLD, find_order};
pub use scan_picture::ScanPicture;
pub use shot::{GateUnseen, ShotSeen};
pub use standing::StandingThing;
pub use stock::{FogSeen, StockSeen};
