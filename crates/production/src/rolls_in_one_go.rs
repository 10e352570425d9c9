//! A shelf of scans read in one go, unattended: each a roll, and one that cannot be
//! read does not keep the others.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use onestrand_film::RollId;
use onestrand_intake::Cancel;
use onestrand_store::{JobId, JobKind, JobState, Production, StoreError, Workprints};
use serde::Serialize;
use utoipa::ToSchema;

use crate::documents::{FootageDocument, RollDocument};
use crate::film_frames::path_text;
use crate::roll::{AddRoll, run_job, understand, with_full_paths};
use crate::sign_limits::roll_report;
use crate::{ProductionError, Progress};

/// What film files are called; anything else in a folder is left alone.
const FILM_ENDINGS: [&str; 10] = [
    "mkv", "mp4", "mov", "avi", "m4v", "mxf", "mpg", "mpeg", "webm", "ts",
];

/// A scan of the shelf and the roll it is to become.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct ScanOnShelf {
    /// The file, or the folder of pictures.
    pub file: String,
    /// The name the roll is to have, or has already.
    pub roll: String,
    /// Whether it has been read before.
    pub read_before: bool,
}

/// What came of a shelf.
#[derive(Debug, Clone, Default, PartialEq, Serialize, ToSchema)]
pub struct ShelfRead {
    /// Each scan in its order.
    pub rolls: Vec<ShelfRow>,
    /// How many were read now.
    pub read: usize,
    /// How many had been read before.
    pub read_before: usize,
    /// How many could not be read.
    pub failed: usize,
    /// How many were not begun, or not ended, because the user stopped.
    pub stopped: usize,
}

/// What came of one scan of a shelf.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct ShelfRow {
    /// The file, or the folder of pictures.
    pub file: String,
    /// The roll.
    pub roll: String,
    /// `read`, `read_before`, `failed` or `stopped`.
    pub came_of_it: String,
    /// Film frames found.
    pub frames: u32,
    /// The same in feet and frames.
    pub footage: Option<FootageDocument>,
    /// Frames that the scan does not show.
    pub missing: u32,
    /// Found less measured, where a length was measured.
    pub difference: Option<i64>,
    /// Whether its scan is proved complete.
    pub proved: bool,
    /// Takes found.
    pub takes: usize,
    /// Breaks between them.
    pub breaks: usize,
    /// Signs by their kind.
    pub signs: BTreeMap<String, usize>,
    /// What the reading remarked.
    pub warnings: Vec<String>,
    /// Why it could not be read.
    pub problem: Option<ShelfProblem>,
}

/// Why a scan could not be read.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct ShelfProblem {
    /// A stable name for programs.
    pub code: String,
    /// What happened.
    pub message: String,
    /// What to do.
    pub hint: String,
}

/// Says which roll each scan would become: the name of the file where that is the
/// name of a roll and free, else the next free number. A folder stands for the film
/// files in it, and where there are none, for its pictures as one roll.
///
/// # Errors
/// [`ProductionError::File`] for a folder that cannot be looked into,
/// [`ProductionError::Store`].
pub fn scans_on_shelf(
    production: &Production,
    given: &[PathBuf],
) -> Result<Vec<ScanOnShelf>, ProductionError> {
    let mut taken = BTreeSet::new();
    let mut read = BTreeMap::new();
    for roll in production.rolls()? {
        for path in roll.scans.iter().flat_map(|scan| &scan.paths) {
            // A run of pictures is known by its folder, a film by its file.
            let path = Path::new(path);
            let known = match path.parent() {
                Some(folder) if !is_film(path) => folder,
                _ => path,
            };
            read.insert(path_text(known), roll.name.clone());
        }
        taken.insert(roll.name);
    }
    let mut all = Vec::new();
    for file in films_of(given)? {
        let full = std::path::absolute(&file).map_err(crate::error::file("name in full", &file))?;
        let full_text = path_text(&full);
        let before = read.get(&full_text);
        let roll = match before {
            Some(roll) => roll.clone(),
            None => free_name(&file, &taken),
        };
        taken.insert(roll.clone());
        all.push(ScanOnShelf {
            file: full_text,
            roll,
            read_before: before.is_some(),
        });
    }
    Ok(all)
}

/// The scans that files and folders stand for, in order.
fn films_of(given: &[PathBuf]) -> Result<Vec<PathBuf>, ProductionError> {
    let mut all = Vec::new();
    for path in given {
        if !path.is_dir() {
            all.push(path.clone());
            continue;
        }
        let entries = std::fs::read_dir(path).map_err(crate::error::file("look into", path))?;
        let mut films: Vec<PathBuf> = entries
            .flatten()
            .map(|entry| entry.path())
            .filter(|inside| inside.is_file() && is_film(inside))
            .collect();
        films.sort();
        if films.is_empty() {
            films.push(path.clone());
        }
        all.extend(films);
    }
    Ok(all)
}

fn is_film(path: &Path) -> bool {
    let ending = path.extension().and_then(|e| e.to_str()).unwrap_or("");
    FILM_ENDINGS.contains(&ending.to_ascii_lowercase().as_str())
}

/// The name of the file, if it is the name of a roll and free, else the next number.
fn free_name(file: &Path, taken: &BTreeSet<String>) -> String {
    let stem = file.file_stem().and_then(|stem| stem.to_str());
    let own = stem.and_then(|stem| RollId::new(stem).ok());
    match own.map(|roll| roll.to_string()) {
        Some(name) if !taken.contains(&name) => name,
        _ => (1..)
            .map(|number: u32| format!("R{number}"))
            .find(|name| !taken.contains(name))
            .unwrap_or_default(),
    }
}

/// Reads the scans of a shelf one after the other. `like` says what holds for each
/// of them; its own roll and files are not used.
///
/// All of it is written down as jobs first, so that after a kill the rest is read
/// when the production is opened again.
///
/// # Errors
/// [`ProductionError::Unfit`] when what holds for each is not sound or there is no
/// scan, [`ProductionError::File`], [`ProductionError::Store`]. What keeps a
/// single scan from being read stands in its row.
pub fn add_rolls(
    production: &mut Production,
    given: &[PathBuf],
    like: &AddRoll,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<ShelfRead, ProductionError> {
    let scans = scans_on_shelf(production, given)?;
    if scans.is_empty() {
        return Err(crate::error::unfit(
            "no scan was named".to_owned(),
            "name film files, or a folder that holds them",
        ));
    }
    let mut waiting = Vec::with_capacity(scans.len());
    for scan in &scans {
        waiting.push(match scan.read_before {
            true => None,
            false => Some(written_down(production, scan, like)?),
        });
    }
    let mut shelf = ShelfRead::default();
    let count = scans.len();
    for (number, (scan, job)) in (1..).zip(scans.iter().zip(waiting)) {
        let row = match job {
            None => row_of(production, scan, "read_before")?,
            Some((job, _)) if cancel.is_cancelled() => {
                production.end_job(job, JobState::Cancelled, None)?;
                bare_row(scan, "stopped")
            }
            Some((job, request)) => {
                progress.note(&format!(
                    "{number} of {count}: {} as {}",
                    scan.file, scan.roll
                ));
                let read = run_job(production, job, &request, cancel, progress);
                came_of(production, scan, read)?
            }
        };
        shelf.take(row);
    }
    Ok(shelf)
}

/// Writes a reading down as a job that is begun again after a kill.
fn written_down(
    production: &Production,
    scan: &ScanOnShelf,
    like: &AddRoll,
) -> Result<(JobId, AddRoll), ProductionError> {
    let request = with_full_paths(&AddRoll {
        roll: scan.roll.clone(),
        files: vec![PathBuf::from(&scan.file)],
        ..like.clone()
    })?;
    understand(production.meta(), &request)?;
    let params = serde_json::to_string(&request).map_err(StoreError::from)?;
    let words = format!("read {}", scan.roll);
    let job = production.begin_job(JobKind::Read, &words, &params)?;
    Ok((job, request))
}

fn came_of(
    production: &Production,
    scan: &ScanOnShelf,
    read: Result<RollDocument, ProductionError>,
) -> Result<ShelfRow, ProductionError> {
    match read {
        Ok(_) => row_of(production, scan, "read"),
        Err(problem) if problem.is_stopped() => Ok(bare_row(scan, "stopped")),
        Err(problem) => Ok(ShelfRow {
            problem: Some(ShelfProblem {
                code: problem.code().to_owned(),
                message: problem.to_string(),
                hint: problem.hint(),
            }),
            ..bare_row(scan, "failed")
        }),
    }
}

fn bare_row(scan: &ScanOnShelf, came_of_it: &str) -> ShelfRow {
    ShelfRow {
        file: scan.file.clone(),
        roll: scan.roll.clone(),
        came_of_it: came_of_it.to_owned(),
        frames: 0,
        footage: None,
        missing: 0,
        difference: None,
        proved: false,
        takes: 0,
        breaks: 0,
        signs: BTreeMap::new(),
        warnings: Vec::new(),
        problem: None,
    }
}

/// What stands now of a roll that was read.
fn row_of(
    production: &Production,
    scan: &ScanOnShelf,
    came_of_it: &str,
) -> Result<ShelfRow, ProductionError> {
    let prints = Workprints::open(production.dir())?;
    let roll = production.roll(&scan.roll)?;
    let document = crate::roll::document(production, &prints, &roll)?;
    let report = roll_report(production, &prints, &scan.roll)?.unwrap_or_default();
    let mut signs = BTreeMap::new();
    for sign in &report.signs {
        *signs.entry(sign.kind.clone()).or_insert(0) += 1;
    }
    let takes = production.takes_of(&scan.roll)?;
    let touch = |two: &[onestrand_store::TakeRecord]| two[0].thrown == two[1].first;
    Ok(ShelfRow {
        frames: document.frames,
        footage: Some(document.footage),
        missing: document.missing,
        difference: document.difference,
        proved: document.proved,
        takes: takes.len(),
        breaks: takes.windows(2).filter(|two| touch(two)).count(),
        signs,
        warnings: report
            .warnings
            .iter()
            .map(|warning| format!("{}; {}", warning.message, warning.hint))
            .collect(),
        ..bare_row(scan, came_of_it)
    })
}

impl ShelfRead {
    fn take(&mut self, row: ShelfRow) {
        let count = match row.came_of_it.as_str() {
            "read" => &mut self.read,
            "read_before" => &mut self.read_before,
            "failed" => &mut self.failed,
            _ => &mut self.stopped,
        };
        *count += 1;
        self.rolls.push(row);
    }

    /// Whether every scan of the shelf is read now.
    #[must_use]
    pub fn is_whole(&self) -> bool {
        self.failed + self.stopped == 0
    }
}
