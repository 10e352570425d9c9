//! The location folder: every sheet of the plan in one.

use super::{
    CameraReportSheet, FloorPlan, InCameraSheet, LinedScript, PlanHead, ShootingScript, ShotList,
    SoundReportSheet, StockSheet, VisitsSheet, WildSoundList,
};

/// All sheets that are taken to a place, with a cover before them.
#[derive(Clone, Debug)]
pub struct LocationFolder {
    /// What every sheet has in common; the cover says it large.
    pub head: PlanHead,
    /// What the sun does there on the day, in words; empty where it is not known.
    pub sun: String,
    /// What was seen when the place was visited, in the maker's words, a note each.
    pub recce: Vec<String>,
    /// The sheets in the order in which they lie.
    pub sheets: Vec<PlanSheet>,
}

/// A sheet of the plan.
#[derive(Clone, Debug)]
pub enum PlanSheet {
    /// The shooting script.
    ShootingScript(ShootingScript),
    /// The lined script.
    LinedScript(LinedScript),
    /// The shot list of a day.
    ShotList(ShotList),
    /// A camera report to fill in.
    CameraReport(CameraReportSheet),
    /// A sound report to fill in.
    SoundReport(SoundReportSheet),
    /// The wild sounds to be got.
    WildSounds(WildSoundList),
    /// The stock, and what goes on which roll.
    Stock(StockSheet),
    /// A floor plan.
    FloorPlan(FloorPlan),
    /// The visits to the places.
    Visits(VisitsSheet),
    /// The film cut in the camera.
    InCamera(InCameraSheet),
}

/// Paper of the plan: what is printed into one file.
#[derive(Clone, Debug)]
pub enum PlanPaper {
    /// Sheets one after another.
    Sheets(Vec<PlanSheet>),
    /// Sheets behind a cover.
    Folder(LocationFolder),
}
