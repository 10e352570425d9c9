//! The paper of the plan: what the sheets of the script need, gathered from the film so
//! that they can be set without it.

mod blank;
mod floor;
mod in_camera;
mod lined;
mod places;
mod scripts;
mod stock;
mod sun_of_day;
mod visits;

use std::path::{Path, PathBuf};

use onestrand_film::{Fps, Gauge};
use onestrand_sheets as forms;
use onestrand_sheets::{LocationFolder, Paper, PlanHead, PlanPaper, PlanSheet};
use onestrand_store::Production;
use serde::Serialize;

use crate::documents::{ScriptDocument, SetupDocument};
use crate::print_sheets::{SheetFile, write_whole};
use crate::{
    Cancel, PlanAsked, PlanWork, PrintedSheet, ProductionError, Progress, Quiet, script_document,
};

/// A sheet of the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ScriptSheet {
    /// Scenes and setups in the order of the film.
    ShootingScript,
    /// The script with a line for each setup, and for each take once there are any.
    LinedScript,
    /// What is to be shot, by place and light.
    ShotList,
    /// To fill in at the camera.
    CameraReport,
    /// To fill in at the recorder.
    SoundReport,
    /// What is to be recorded without the camera.
    WildSounds,
    /// The film that is there, and what goes on which roll.
    StockSheet,
    /// The places from above, to scale.
    FloorPlan,
    /// What was seen on visits to the places, with their photographs.
    Visits,
    /// The film in the order of the screen, wound back for its dissolves, step by step.
    InCamera,
    /// All of them behind one cover.
    LocationFolder,
}

impl ScriptSheet {
    /// Every sheet, the folder last.
    pub const ALL: [Self; 11] = [
        Self::ShootingScript,
        Self::LinedScript,
        Self::ShotList,
        Self::FloorPlan,
        Self::Visits,
        Self::StockSheet,
        Self::InCamera,
        Self::CameraReport,
        Self::SoundReport,
        Self::WildSounds,
        Self::LocationFolder,
    ];

    /// The word in commands, and the name of the file.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::ShootingScript => "shooting-script",
            Self::LinedScript => "lined-script",
            Self::ShotList => "shot-list",
            Self::CameraReport => "camera-report",
            Self::SoundReport => "sound-report",
            Self::WildSounds => "wild-sounds",
            Self::StockSheet => "stock-sheet",
            Self::FloorPlan => "floor-plan",
            Self::Visits => "visits",
            Self::InCamera => "in-camera",
            Self::LocationFolder => "location-folder",
        }
    }
}

/// The word for the camera report as a page for a phone.
pub const CAMERA_PAGE: &str = "camera-page";

/// For where and when it is printed, and how.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct ScriptSheetsAsked {
    /// On Letter in place of A4.
    pub letter: bool,
    /// The place, in the user's words; empty names none.
    pub place: String,
    /// The day, in the user's words; empty leaves a line to write it on.
    pub day: String,
    /// Only these scenes are shot, by number; all when it is empty.
    pub scenes: Vec<String>,
}

/// All that the sheets of the plan need.
#[derive(Debug)]
pub struct ScriptSheetsToPrint {
    script: ScriptDocument,
    plan: PlanWork,
    head: PlanHead,
    scenes: Vec<String>,
    /// When the film was made, by which a phone tells two films of one title apart.
    created: String,
    /// The folder of the film, where photographs are.
    dir: PathBuf,
}

/// Gathers what the sheets of the plan need. Quick; planning and setting are slow.
///
/// # Errors
/// [`ProductionError::Unfit`] for a scene that is not there, [`ProductionError::Store`].
pub fn gather_script_sheets(
    production: &Production,
    asked: &ScriptSheetsAsked,
) -> Result<ScriptSheetsToPrint, ProductionError> {
    let script = script_document(production)?;
    let numbers = || {
        script
            .scenes
            .iter()
            .map(|scene| scene.scene.number.as_str())
    };
    if let Some(unknown) = asked
        .scenes
        .iter()
        .find(|wanted| !numbers().any(|number| number == wanted.as_str()))
    {
        let known: Vec<&str> = numbers().collect();
        return Err(crate::error::unfit(
            format!("there is no scene {unknown}"),
            &format!("there are {}", known.join(", ")),
        ));
    }
    let meta = production.meta();
    let (gauge, speed): (Gauge, Fps) = (meta.gauge, meta.speed);
    Ok(ScriptSheetsToPrint {
        plan: PlanWork::read(production, &PlanAsked::default())?,
        head: PlanHead {
            title: meta.title.clone(),
            place: asked.place.clone(),
            day: asked.day.clone(),
            gauge,
            speed,
            paper: match asked.letter {
                true => Paper::Letter,
                false => Paper::A4,
            },
        },
        scenes: asked.scenes.clone(),
        created: production.created()?,
        dir: production.dir().to_owned(),
        script,
    })
}

impl ScriptSheetsToPrint {
    /// Sets one sheet, with its pages to look at.
    ///
    /// # Errors
    /// [`ProductionError::Sheets`].
    pub fn print_one(&self, sheet: ScriptSheet) -> Result<PrintedSheet, ProductionError> {
        let printed = forms::print_plan(&self.paper(sheet))?;
        Ok(PrintedSheet {
            sheet: sheet.word(),
            file_name: format!("{}.pdf", sheet.word()),
            pdf: printed.pdf,
            pages: printed.pages,
        })
    }

    /// Sets one sheet without its pages to look at, which of a long script are large.
    ///
    /// # Errors
    /// [`ProductionError::Sheets`].
    pub fn set_one(&self, sheet: ScriptSheet) -> Result<PrintedSheet, ProductionError> {
        Ok(PrintedSheet {
            sheet: sheet.word(),
            file_name: format!("{}.pdf", sheet.word()),
            pdf: forms::set_plan(&self.paper(sheet))?.pdf,
            pages: Vec::new(),
        })
    }

    fn paper(&self, sheet: ScriptSheet) -> PlanPaper {
        PlanPaper::Sheets(vec![match sheet {
            ScriptSheet::ShootingScript => PlanSheet::ShootingScript(scripts::script(self)),
            ScriptSheet::LinedScript => PlanSheet::LinedScript(lined::script(self)),
            ScriptSheet::ShotList => PlanSheet::ShotList(scripts::shot_list(self)),
            ScriptSheet::CameraReport => PlanSheet::CameraReport(blank::camera_report(self)),
            ScriptSheet::SoundReport => PlanSheet::SoundReport(blank::sound_report(self)),
            ScriptSheet::WildSounds => PlanSheet::WildSounds(blank::wild_sounds(self)),
            ScriptSheet::StockSheet => PlanSheet::Stock(stock::sheet(self)),
            ScriptSheet::Visits => PlanSheet::Visits(visits::sheet(self)),
            ScriptSheet::InCamera => PlanSheet::InCamera(in_camera::sheet(self)),
            ScriptSheet::FloorPlan => {
                let plans = floor::plans_or_empty(self).into_iter();
                return PlanPaper::Sheets(plans.map(PlanSheet::FloorPlan).collect());
            }
            ScriptSheet::LocationFolder => return PlanPaper::Folder(self.folder()),
        }])
    }

    /// Whether a sheet is printed where none is named: visits where there are any, the
    /// film cut in the camera where it has a dissolve.
    fn has_use_for(&self, sheet: ScriptSheet) -> bool {
        match sheet {
            ScriptSheet::Visits => visits::are_there(self),
            ScriptSheet::InCamera => in_camera::is_meant(self),
            _ => true,
        }
    }

    /// The camera report as one file for a phone: its name and its text.
    #[must_use]
    pub fn camera_page(&self) -> (&'static str, String) {
        ("camera-report.html", blank::camera_page(self))
    }

    fn folder(&self) -> LocationFolder {
        let mut sheets = vec![
            PlanSheet::ShootingScript(scripts::script(self)),
            PlanSheet::LinedScript(lined::script(self)),
            PlanSheet::ShotList(scripts::shot_list(self)),
        ];
        let plans = floor::plans(self);
        sheets.extend(plans.into_iter().map(PlanSheet::FloorPlan));
        if visits::are_there(self) {
            sheets.push(PlanSheet::Visits(visits::sheet(self)));
        }
        sheets.push(PlanSheet::Stock(stock::sheet(self)));
        if in_camera::is_meant(self) {
            sheets.push(PlanSheet::InCamera(in_camera::sheet(self)));
        }
        sheets.extend([
            PlanSheet::CameraReport(blank::camera_report(self)),
            PlanSheet::SoundReport(blank::sound_report(self)),
            PlanSheet::WildSounds(blank::wild_sounds(self)),
        ]);
        LocationFolder {
            head: self.head.clone(),
            sun: sun_of_day::of_folder(self),
            recce: self.recce(),
            sheets,
        }
    }

    /// What was seen on visits to the places of the scenes that are shot.
    fn recce(&self) -> Vec<String> {
        let visits = self.script.recces.iter().map(|one| &one.recce);
        let here = visits.filter(|one| self.is_about(&one.scenes));
        let said = here.map(|one| match (one.place.is_empty(), one.words.is_empty()) {
            (false, false) => format!("{}: {}", one.place, one.words),
            (true, _) => one.words.clone(),
            (false, true) => one.place.clone(),
        });
        said.filter(|words| !words.is_empty()).collect()
    }

    /// Whether something that is for these scenes is wanted; for none it is for all.
    fn is_about(&self, scenes: &[String]) -> bool {
        scenes.is_empty() || scenes.iter().any(|number| self.has_scene(number))
    }

    fn has_scene(&self, number: &str) -> bool {
        self.scenes.is_empty() || self.scenes.iter().any(|one| one == number)
    }

    /// The setups that are shot, in the order of the script.
    fn setups(&self) -> impl Iterator<Item = &SetupDocument> {
        let all = self.script.setups.iter();
        all.filter(|one| self.has_scene(&one.setup.scene))
    }
}

/// The answer of `script sheets`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ScriptSheetsDocument {
    /// The files.
    pub files: Vec<SheetFile>,
}

/// Prints the sheets of the plan into a folder, and the camera report for a phone beside
/// them: all of them, or only the one whose word is given.
///
/// # Errors
/// As [`gather_script_sheets`]; [`ProductionError::Unfit`] for a sheet that is none,
/// [`ProductionError::Stopped`], [`ProductionError::Sheets`], [`ProductionError::File`].
pub fn script_sheets(
    production: &Production,
    out: &Path,
    only: Option<&str>,
    asked: &ScriptSheetsAsked,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<ScriptSheetsDocument, ProductionError> {
    let gathered = gather_script_sheets(production, asked)?;
    let wanted = |word: &str| only.is_none_or(|one| one == word);
    let sheets = ScriptSheet::ALL.into_iter();
    let sheets: Vec<ScriptSheet> = sheets
        .filter(|sheet| wanted(sheet.word()))
        .filter(|sheet| only.is_some() || gathered.has_use_for(*sheet))
        .collect();
    if sheets.is_empty() && !wanted(CAMERA_PAGE) {
        let known: Vec<&str> = ScriptSheet::ALL.iter().map(|sheet| sheet.word()).collect();
        return Err(crate::error::unfit(
            format!("{} is no sheet of the plan", only.unwrap_or_default()),
            &format!("there are {} and {CAMERA_PAGE}", known.join(", ")),
        ));
    }
    std::fs::create_dir_all(out).map_err(crate::error::file("make the folder", out))?;
    let mut files = Vec::new();
    let mut keep = |sheet, name: &str, bytes: &[u8]| {
        let path = out.join(name);
        write_whole(&path, bytes)?;
        files.push(SheetFile {
            sheet,
            path: crate::film_frames::path_text(&path),
            bytes: bytes.len(),
        });
        Ok::<(), ProductionError>(())
    };
    for sheet in sheets {
        if cancel.is_cancelled() {
            return Err(ProductionError::Stopped);
        }
        let said = match sheet {
            ScriptSheet::InCamera => "film cut in the camera".to_owned(),
            other => other.word().replace('-', " "),
        };
        progress.note(&format!("printing the {said}"));
        let printed = gathered.set_one(sheet)?;
        keep(printed.sheet, &printed.file_name, &printed.pdf)?;
    }
    if wanted(CAMERA_PAGE) {
        let (name, page) = gathered.camera_page();
        keep(CAMERA_PAGE, name, page.as_bytes())?;
    }
    Ok(ScriptSheetsDocument { files })
}

/// Plans without a word to anybody; it is small beside the setting.
fn planned(
    gathered: &ScriptSheetsToPrint,
) -> Result<crate::documents::PlanDocument, ProductionError> {
    gathered.plan.clone().reckon(&Cancel::new(), &mut Quiet)
}
