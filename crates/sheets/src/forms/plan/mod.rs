//! The sheets of the plan as forms, each by itself or all in one folder.

mod blank_forms;
mod floor;
mod folder;
mod furniture;
mod lined_script;
mod scripts;
mod stock;

use onestrand_typeset::Printed;
use serde::Serialize;

use super::Press;
use crate::SheetError;
use crate::plan::{
    CameraReportSheet, FloorPlan, LinedScript, LocationFolder, PlanSheet, ShootingScript, ShotList,
    SoundReportSheet, StockSheet, WildSoundList,
};

/// The templates of the sheets, beside the one that lays them out one after another.
const TEMPLATES: [(&str, &str); 6] = [
    ("scripts.typ", include_str!("scripts.typ")),
    ("lined_script.typ", include_str!("lined_script.typ")),
    ("blank_forms.typ", include_str!("blank_forms.typ")),
    ("stock.typ", include_str!("stock.typ")),
    ("floor.typ", include_str!("floor.typ")),
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
}

/// What the template finds.
#[derive(Serialize)]
struct PagesRecord {
    cover: Option<folder::CoverRecord>,
    parts: Vec<PartRecord>,
}

/// Sets sheets one after another.
fn set(form: &'static str, pages: &PagesRecord) -> Result<Printed, SheetError> {
    let mut press = Press::new(form, "pages.typ", include_str!("pages.typ"));
    for (name, template) in TEMPLATES {
        press.job = press.job.template(name, template);
    }
    press.ready(pages)?.print()
}

fn one(form: &'static str, part: PartRecord) -> Result<Printed, SheetError> {
    let parts = vec![part];
    set(form, &PagesRecord { cover: None, parts })
}

/// Prints a shooting script, with its pages to look at.
///
/// # Errors
/// [`SheetError::Form`] when the form cannot be set; so with every sheet of the plan.
pub fn print_shooting_script(script: &ShootingScript) -> Result<Printed, SheetError> {
    let part = PartRecord::ShootingScript(scripts::shooting_script(script));
    one(scripts::SHOOTING_SCRIPT, part)
}

/// Prints the shot list of a day, with its pages to look at.
///
/// # Errors
/// As [`print_shooting_script`].
pub fn print_shot_list(list: &ShotList) -> Result<Printed, SheetError> {
    one(
        scripts::SHOT_LIST,
        PartRecord::ShotList(scripts::shot_list(list)),
    )
}

/// Prints a lined script, with its pages to look at.
///
/// # Errors
/// As [`print_shooting_script`].
pub fn print_lined_script(script: &LinedScript) -> Result<Printed, SheetError> {
    let part = PartRecord::LinedScript(lined_script::record(script));
    one(lined_script::FORM, part)
}

/// Prints a camera report to fill in, with its pages to look at.
///
/// # Errors
/// As [`print_shooting_script`].
pub fn print_camera_report(report: &CameraReportSheet) -> Result<Printed, SheetError> {
    let part = PartRecord::CameraReport(blank_forms::camera_report(report));
    one(blank_forms::CAMERA_REPORT, part)
}

/// Prints a sound report to fill in, with its pages to look at.
///
/// # Errors
/// As [`print_shooting_script`].
pub fn print_sound_report(report: &SoundReportSheet) -> Result<Printed, SheetError> {
    let part = PartRecord::SoundReport(blank_forms::sound_report(report));
    one(blank_forms::SOUND_REPORT, part)
}

/// Prints the list of wild sounds, with its pages to look at.
///
/// # Errors
/// As [`print_shooting_script`].
pub fn print_wild_sounds(list: &WildSoundList) -> Result<Printed, SheetError> {
    let part = PartRecord::WildSounds(blank_forms::wild_sounds(list));
    one(blank_forms::WILD_SOUNDS, part)
}

/// Prints the stock sheet, with its pages to look at.
///
/// # Errors
/// As [`print_shooting_script`].
pub fn print_stock_sheet(sheet: &StockSheet) -> Result<Printed, SheetError> {
    one(stock::FORM, PartRecord::Stock(stock::record(sheet)))
}

/// Prints floor plans to scale, one after another, with their pages to look at.
///
/// # Errors
/// As [`print_shooting_script`].
pub fn print_floor_plans(plans: &[FloorPlan]) -> Result<Printed, SheetError> {
    let parts = plans.iter().map(floor::record);
    let parts = parts.map(PartRecord::FloorPlan).collect();
    set(floor::FORM, &PagesRecord { cover: None, parts })
}

/// Prints a location folder: a cover and every sheet after it, numbered through.
///
/// # Errors
/// As [`print_shooting_script`].
pub fn print_location_folder(folder: &LocationFolder) -> Result<Printed, SheetError> {
    set(folder::FORM, &folder::pages(folder))
}

fn part(sheet: &PlanSheet) -> PartRecord {
    match sheet {
        PlanSheet::ShootingScript(one) => PartRecord::ShootingScript(scripts::shooting_script(one)),
        PlanSheet::LinedScript(one) => PartRecord::LinedScript(lined_script::record(one)),
        PlanSheet::ShotList(one) => PartRecord::ShotList(scripts::shot_list(one)),
        PlanSheet::CameraReport(one) => PartRecord::CameraReport(blank_forms::camera_report(one)),
        PlanSheet::SoundReport(one) => PartRecord::SoundReport(blank_forms::sound_report(one)),
        PlanSheet::WildSounds(one) => PartRecord::WildSounds(blank_forms::wild_sounds(one)),
        PlanSheet::Stock(one) => PartRecord::Stock(stock::record(one)),
        PlanSheet::FloorPlan(one) => PartRecord::FloorPlan(floor::record(one)),
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
        }
    }
}
