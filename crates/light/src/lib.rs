#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod cdl;
mod error;
mod flicker;
mod grey_picture;
mod light_tables;
mod patch;
mod points;
mod refine;
mod robust;
mod scene;
mod shift;
mod smooth_path;
mod steady;
mod transfer;
mod translate;

pub use cdl::{Correction, read_corrections, write_corrections};
pub use error::LightError;
pub use flicker::{FlickerFrame, FlickerWatch, flicker_of};
pub use grey_picture::GreyPicture;
pub use light_tables::{Blown, LightTables};
pub use patch::{PatchLight, PatchPlace, measure_patch};
pub use points::{LOG_EXPOSURE_PER_POINT, MOST_POINTS, Points, points_for};
pub use scene::{FittedReading, HeldAt, Reading, SolvedScene, SolvedShot, Standing, solve_scene};
pub use shift::{Shift, ShiftFinder};
pub use steady::{MOST_SHIFT, STEADY_BELOW, Steadied, steady};
pub use transfer::Transfer;
pub use translate::translate;
