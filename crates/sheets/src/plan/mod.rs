//! The paper of the plan: what is taken to the place, and what comes back from it.

mod floor;
mod folder;
mod in_camera;
mod lined_script;
mod reports;
mod shooting_script;
mod shot_list;
mod stock_sheet;
mod visits;

pub use floor::{FloorCamera, FloorLine, FloorMark, FloorPlan, SunAt};
pub use folder::{LocationFolder, PlanPaper, PlanSheet};
pub use in_camera::{InCameraSheet, InCameraStep};
pub use lined_script::{LineShown, LinedAction, LinedScene, LinedScript, ScriptLine};
pub use reports::{
    CameraReportSheet, CameraReportTake, PlannedSound, SoundReportSheet, WildSoundLine,
    WildSoundList,
};
pub(crate) use shooting_script::times;
pub use shooting_script::{ScriptedScene, ScriptedSetup, ShootingScript};
pub use shot_list::{ShotGroup, ShotList, ShotToTake};
pub use stock_sheet::{PackedOn, RollPacked, StockHeld, StockSheet};
pub use visits::{Visit, VisitsSheet};

use onestrand_film::{Fps, Gauge};

use crate::head::Paper;

/// What every sheet of the plan has in common.
#[derive(Clone, Debug)]
pub struct PlanHead {
    /// The title of the film, in the maker's words.
    pub title: String,
    /// The place, or whatever else tells one folder from another; may be empty.
    pub place: String,
    /// The day, in the maker's words; empty leaves a line to write it on.
    pub day: String,
    /// The gauge.
    pub gauge: Gauge,
    /// The speed of the camera.
    pub speed: Fps,
    /// The paper.
    pub paper: Paper,
}
