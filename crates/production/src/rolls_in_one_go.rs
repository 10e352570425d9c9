//! A shelf of scans read in one go, unattended: each a roll, and one that cannot be
//! read does not keep the others.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use onestrand_film::RollId;
use onestrand_intake::Cancel;
use onestrand_store::{JobId, JobKind, JobState, Production, StoreError};
use serde::Serialize;
use utoipa::ToSchema;

use crate::documents::RollDocument;
use crate::film_frames::path_text;
use crate::roll::{AddRoll, request_of, run_job, understand, with_full_paths};
use crate::shelf_summary::{KeptScan, ShelfProblem, ShelfRead, ShelfRow, bare_row, keep, row_of};
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
    let wanted: Vec<ShelfScan> = scans.into_iter().map(ShelfScan::from).collect();
    let waiting = begin_shelf(production, &wanted, like)?;
    let mut shelf = ShelfRead::default();
    let count = wanted.len();
    for (number, (ShelfScan { scan, .. }, job)) in (1..).zip(wanted.iter().zip(waiting)) {
        let row = match job {
            None => row_of(production, scan, "read_before")?,
            Some(job) if cancel.is_cancelled() => {
                production.end_job(job.id, JobState::Cancelled, None)?;
                bare_row(scan, "stopped")
            }
            Some(job) => {
                progress.note(&format!(
                    "{number} of {count}: {} as {}",
                    scan.file, scan.roll
                ));
                let request = request_of(&job.params)?;
                let read = run_job(production, job.id, &request, cancel, progress);
                came_of(production, scan, read)?
            }
        };
        shelf.take(row);
    }
    Ok(shelf)
}

/// A scan of a shelf, and why it is refused before anything was read, if it is.
#[derive(Debug, Clone)]
pub struct ShelfScan {
    /// The scan.
    pub scan: ScanOnShelf,
    /// Why it is not read.
    pub refused: Option<ShelfProblem>,
}

impl From<ScanOnShelf> for ShelfScan {
    fn from(scan: ScanOnShelf) -> Self {
        Self {
            scan,
            refused: None,
        }
    }
}

/// A reading of a shelf that is written down and not begun.
#[derive(Debug, Clone)]
pub struct ShelfJob {
    /// The roll it is to become.
    pub roll: String,
    /// Its job.
    pub id: JobId,
    /// All that is needed to begin it, as the job keeps it.
    pub params: String,
}

/// Writes down what is to be read of a shelf, before any of it is begun: a job for
/// each scan that is to be read, and the shelf itself for its summary. `like` says
/// what holds for each.
///
/// # Errors
/// [`ProductionError::Unfit`] when what holds for each is not sound,
/// [`ProductionError::File`], [`ProductionError::Store`].
pub fn begin_shelf(
    production: &Production,
    scans: &[ShelfScan],
    like: &AddRoll,
) -> Result<Vec<Option<ShelfJob>>, ProductionError> {
    let mut jobs = Vec::with_capacity(scans.len());
    for ShelfScan { scan, refused } in scans {
        jobs.push(match refused.is_some() || scan.read_before {
            true => None,
            false => Some(written_down(production, scan, like)?),
        });
    }
    let kept: Vec<KeptScan> = scans
        .iter()
        .zip(&jobs)
        .map(|(ShelfScan { scan, refused }, job)| KeptScan {
            file: scan.file.clone(),
            roll: scan.roll.clone(),
            job: job.as_ref().map(|job| job.id.number()),
            problem: refused.clone(),
        })
        .collect();
    keep(production, &kept)?;
    Ok(jobs)
}

/// Writes a reading down as a job that is begun again after a kill.
fn written_down(
    production: &Production,
    scan: &ScanOnShelf,
    like: &AddRoll,
) -> Result<ShelfJob, ProductionError> {
    let request = with_full_paths(&AddRoll {
        roll: scan.roll.clone(),
        files: vec![PathBuf::from(&scan.file)],
        ..like.clone()
    })?;
    understand(production.meta(), &request)?;
    let params = serde_json::to_string(&request).map_err(StoreError::from)?;
    let words = format!("read {}", scan.roll);
    let id = production.begin_job(JobKind::Read, &words, &params)?;
    Ok(ShelfJob {
        roll: request.roll,
        id,
        params,
    })
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
            problem: Some(ShelfProblem::of(&problem)),
            ..bare_row(scan, "failed")
        }),
    }
}
