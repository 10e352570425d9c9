//! The sheets of the plan as forms, each by itself or all in one folder.

mod blank_forms;
mod floor;
mod folder;
mod furniture;
mod in_camera;
mod lined_script;
mod scripts;
mod stock;
mod visits;

use onestrand_typeset::{Printed, Typeset};
use serde::Serialize;

use super::{Press, Ready};
use crate::SheetError;
use crate::plan::{
    CameraReportSheet, FloorPlan, LinedScript, LocationFolder, PlanPaper, PlanSheet,
    ShootingScript, ShotList, SoundReportSheet, StockSheet, WildSoundList,
};

/// The templates of the sheets, beside the one that lays them out one after another.
const TEMPLATES: [(&str, &str); 8] = [
    ("scripts.typ", include_str!("scripts.typ")),
    ("lined_script.typ", include_str!("lined_script.typ")),
    ("blank_forms.typ", include_str!("blank_forms.typ")),
    ("stock.typ", include_str!("stock.typ")),
    ("floor.typ", include_str!("floor.typ")),
    ("visits.typ", include_str!("visits.typ")),
    ("in_camera.typ", include_str!("in_camera.typ")),
    ("cover.typ", include_str!("cover.typ")),
];

/// A sheet ready for its template.
#[derive(Serialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
enum PartRecord {
    ShootingScript(scripts::ScriptRecord),
    ShotList(scripts::ShotListRecord),
    LinedScript(lined_script::LinedRecord),
    CameraReport(blank_forms::CameraRecord),
    SoundReport(blank_forms::SoundRecord),
    WildSounds(blank_forms::WildRecord),
    Stock(stock::StockRecord),
    FloorPlan(floor::FloorRecord),
    Visits(visits::VisitsRecord),
    InCamera(in_camera::InCameraRecord),
}

/// What the template finds.
#[derive(Serialize)]
struct PagesRecord {
    cover: Option<folder::CoverRecord>,
    parts: Vec<PartRecord>,
}

/// A press with all templates of the plan.
fn press(form: &'static str) -> Press {
    let mut press = Press::new(form, "pages.typ", include_str!("pages.typ"));
    for (name, template) in TEMPLATES {
        press.job = press.job.template(name, template);
    }
    press
}

fn ready(paper: &PlanPaper) -> Result<Ready, SheetError> {
    let (form, sheets) = match paper {
        PlanPaper::Sheets(sheets) => (sheets.first().map_or("Plan", name), sheets),
        PlanPaper::Folder(folder) => (folder::FORM, &folder.sheets),
    };
    let mut press = press(form);
    let parts = sheets.iter().map(|sheet| part(sheet, &mut press)).collect();
    let pages = match paper {
        PlanPaper::Sheets(_) => PagesRecord { cover: None, parts },
        PlanPaper::Folder(folder) => folder::pages(folder, parts),
    };
    press.ready(&pages)
}

/// Sets paper of the plan without drawing its pages for a screen: of 5,000 scenes they are
/// 90 MB. It takes about as long, since nearly all time and memory go into the layout.
///
/// # Errors
/// [`SheetError::Form`] when the form cannot be set.
pub fn set_plan(paper: &PlanPaper) -> Result<Typeset, SheetError> {
    ready(paper)?.typeset()
}

/// Sets paper of the plan, with its pages to look at.
///
/// # Errors
/// As [`set_plan`].
pub fn print_plan(paper: &PlanPaper) -> Result<Printed, SheetError> {
    ready(paper)?.print()
}

fn one(sheet: PlanSheet) -> Result<Printed, SheetError> {
    print_plan(&PlanPaper::Sheets(vec![sheet]))
}

/// Prints a shooting script, with its pages to look at.
///
/// # Errors
/// [`SheetError::Form`] when the form cannot be set; so with every sheet of the plan.
pub fn print_shooting_script(script: &ShootingScript) -> Result<Printed, SheetError> {
    one(PlanSheet::ShootingScript(script.clone()))
}

/// Prints the shot list of a day, with its pages to look at.
///
/// # Errors
/// As [`print_shooting_script`].
pub fn print_shot_list(list: &ShotList) -> Result<Printed, SheetError> {
    one(PlanSheet::ShotList(list.clone()))
}

/// Prints a lined script, with its pages to look at.
///
/// # Errors
/// As [`print_shooting_script`].
pub fn print_lined_script(script: &LinedScript) -> Result<Printed, SheetError> {
    one(PlanSheet::LinedScript(script.clone()))
}

/// Prints a camera report to fill in, with its pages to look at.
///
/// # Errors
/// As [`print_shooting_script`].
pub fn print_camera_report(report: &CameraReportSheet) -> Result<Printed, SheetError> {
    one(PlanSheet::CameraReport(report.clone()))
}

/// Prints a sound report to fill in, with its pages to look at.
///
/// # Errors
/// As [`print_shooting_script`].
pub fn print_sound_report(report: &SoundReportSheet) -> Result<Printed, SheetError> {
    one(PlanSheet::SoundReport(report.clone()))
}

/// Prints the list of wild sounds, with its pages to look at.
///
/// # Errors
/// As [`print_shooting_script`].
pub fn print_wild_sounds(list: &WildSoundList) -> Result<Printed, SheetError> {
    one(PlanSheet::WildSounds(list.clone()))
}

/// Prints the stock sheet, with its pages to look at.
///
/// # Errors
/// As [`print_shooting_script`].
pub fn print_stock_sheet(sheet: &StockSheet) -> Result<Printed, SheetError> {
    one(PlanSheet::Stock(sheet.clone()))
}

/// Prints floor plans to scale, one after another, with their pages to look at.
///
/// # Errors
/// As [`print_shooting_script`].
pub fn print_floor_plans(plans: &[FloorPlan]) -> Result<Printed, SheetError> {
    let plans = plans.iter().cloned().map(PlanSheet::FloorPlan);
    print_plan(&PlanPaper::Sheets(plans.collect()))
}

/// Prints a location folder: a cover and every sheet after it, numbered through.
///
/// # Errors
/// As [`print_shooting_script`].
pub fn print_location_folder(folder: &LocationFolder) -> Result<Printed, SheetError> {
    print_plan(&PlanPaper::Folder(folder.clone()))
}

/// What a sheet calls itself.
fn name(sheet: &PlanSheet) -> &'static str {
    match sheet {
        PlanSheet::ShootingScript(_) => scripts::SHOOTING_SCRIPT,
        PlanSheet::LinedScript(_) => lined_script::FORM,
        PlanSheet::ShotList(_) => scripts::SHOT_LIST,
        PlanSheet::CameraReport(_) => blank_forms::CAMERA_REPORT,
        PlanSheet::SoundReport(_) => blank_forms::SOUND_REPORT,
        PlanSheet::WildSounds(_) => blank_forms::WILD_SOUNDS,
        PlanSheet::Stock(_) => stock::FORM,
        PlanSheet::FloorPlan(_) => floor::FORM,
        PlanSheet::Visits(_) => visits::FORM,
        PlanSheet::InCamera(_) => in_camera::FORM,
    }
}

fn part(sheet: &PlanSheet, press: &mut Press) -> PartRecord {
    match sheet {
        PlanSheet::ShootingScript(one) => PartRecord::ShootingScript(scripts::shooting_script(one)),
        PlanSheet::LinedScript(one) => PartRecord::LinedScript(lined_script::record(one)),
        PlanSheet::ShotList(one) => PartRecord::ShotList(scripts::shot_list(one)),
        PlanSheet::CameraReport(one) => PartRecord::CameraReport(blank_forms::camera_report(one)),
        PlanSheet::SoundReport(one) => PartRecord::SoundReport(blank_forms::sound_report(one)),
        PlanSheet::WildSounds(one) => PartRecord::WildSounds(blank_forms::wild_sounds(one)),
        PlanSheet::Stock(one) => PartRecord::Stock(stock::record(one)),
        PlanSheet::FloorPlan(one) => PartRecord::FloorPlan(floor::record(one)),
        PlanSheet::Visits(one) => PartRecord::Visits(visits::record(one, press)),
        PlanSheet::InCamera(one) => PartRecord::InCamera(in_camera::record(one)),
    }
}

impl PartRecord {
    /// The furniture of the sheet.
    fn form(&mut self) -> &mut super::record::FormRecord {
        match self {
            Self::ShootingScript(one) => &mut one.form,
            Self::ShotList(one) => &mut one.form,
            Self::LinedScript(one) => &mut one.form,
            Self::CameraReport(one) => &mut one.form,
            Self::SoundReport(one) => &mut one.form,
            Self::WildSounds(one) => &mut one.form,
            Self::Stock(one) => &mut one.form,
            Self::FloorPlan(one) => &mut one.form,
            Self::Visits(one) => &mut one.form,
            Self::InCamera(one) => &mut one.form,
        }
    }
}
