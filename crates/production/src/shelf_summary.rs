//! What came of a shelf of scans: told at its end, and kept with the film until the
//! user puts it away, so that a kill or a closed window loses nothing of it.

use std::collections::BTreeMap;

use onestrand_store::{JobId, JobState, Production, StoreError, Workprints};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::ProductionError;
use crate::documents::FootageDocument;
use crate::rolls_in_one_go::ScanOnShelf;
use crate::sign_limits::roll_report;

/// The name under which the newest shelf is kept.
const KEPT: &str = "shelf_read";

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
    /// How many are being read, or wait for their turn.
    pub under_way: usize,
}

/// What came of one scan of a shelf.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct ShelfRow {
    /// The file, or the folder of pictures.
    pub file: String,
    /// The roll.
    pub roll: String,
    /// `read`, `read_before`, `failed`, `stopped`, `under_way` or `taken_out`.
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
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct ShelfProblem {
    /// A stable name for programs.
    pub code: String,
    /// What happened.
    pub message: String,
    /// What to do.
    pub hint: String,
}

/// A scan of the shelf as it is kept with the film.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub(crate) struct KeptScan {
    pub(crate) file: String,
    pub(crate) roll: String,
    /// The job that reads it; none where it was read before or was refused.
    pub(crate) job: Option<i64>,
    /// Why it could not be read.
    #[serde(default)]
    pub(crate) problem: Option<ShelfProblem>,
}

impl ShelfProblem {
    pub(crate) fn of(problem: &ProductionError) -> Self {
        Self {
            code: problem.code().to_owned(),
            message: problem.to_string(),
            hint: problem.hint(),
        }
    }
}

/// Keeps a shelf in the place of the one before.
pub(crate) fn keep(production: &Production, scans: &[KeptScan]) -> Result<(), ProductionError> {
    let text = serde_json::to_string(scans).map_err(StoreError::from)?;
    Ok(production.keep_beside(KEPT, Some(&text))?)
}

fn kept(production: &Production) -> Result<Vec<KeptScan>, ProductionError> {
    let text = production.setting(KEPT)?;
    // A shelf that another version kept in another form is no longer told of.
    let scans = text.and_then(|text| serde_json::from_str(&text).ok());
    Ok(scans.unwrap_or_default())
}

/// Writes down that a reading ended without a roll, and why; the summary of its shelf
/// tells it too.
pub(crate) fn ended_without(
    production: &Production,
    job: JobId,
    problem: &ProductionError,
) -> Result<(), ProductionError> {
    let state = if problem.is_stopped() {
        JobState::Cancelled
    } else {
        JobState::Failed
    };
    production.end_job(job, state, Some(&problem.to_string()))?;
    let mut scans = kept(production)?;
    let mine = scans.iter_mut().find(|scan| scan.job == Some(job.number()));
    match mine {
        Some(scan) if state == JobState::Failed => {
            scan.problem = Some(ShelfProblem::of(problem));
            keep(production, &scans)
        }
        _ => Ok(()),
    }
}

/// What came of the newest shelf so far; nothing when there was none or it is put away.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn shelf_read(production: &Production) -> Result<Option<ShelfRead>, ProductionError> {
    let scans = kept(production)?;
    if scans.is_empty() {
        return Ok(None);
    }
    let jobs = production.jobs()?;
    let mut shelf = ShelfRead::default();
    for kept in scans {
        let state = kept.job.and_then(|number| {
            let found = jobs.iter().find(|job| job.id.number() == number);
            found.map(|job| job.state)
        });
        shelf.take(row_now(production, kept, state)?);
    }
    Ok(Some(shelf))
}

fn row_now(
    production: &Production,
    kept: KeptScan,
    state: Option<JobState>,
) -> Result<ShelfRow, ProductionError> {
    let scan = ScanOnShelf {
        file: kept.file,
        roll: kept.roll,
        read_before: kept.job.is_none() && kept.problem.is_none(),
    };
    let came_of_it = match state {
        Some(JobState::Running | JobState::Interrupted) => "under_way",
        Some(JobState::Cancelled) => "stopped",
        Some(JobState::Failed) => "failed",
        None if kept.problem.is_some() => "failed",
        Some(JobState::Done) | None => {
            // A roll may have been taken out of the film since.
            if production.roll(&scan.roll).is_err() {
                return Ok(bare_row(&scan, "taken_out"));
            }
            let word = if scan.read_before {
                "read_before"
            } else {
                "read"
            };
            return row_of(production, &scan, word);
        }
    };
    Ok(ShelfRow {
        problem: kept.problem,
        ..bare_row(&scan, came_of_it)
    })
}

/// The user has seen what came of the shelf.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn put_shelf_away(production: &Production) -> Result<(), ProductionError> {
    Ok(production.keep_beside(KEPT, None)?)
}

pub(crate) fn bare_row(scan: &ScanOnShelf, came_of_it: &str) -> ShelfRow {
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
pub(crate) fn row_of(
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
    pub(crate) fn take(&mut self, row: ShelfRow) {
        let count = match row.came_of_it.as_str() {
            "read" => &mut self.read,
            "read_before" => &mut self.read_before,
            "failed" => &mut self.failed,
            "under_way" => &mut self.under_way,
            _ => &mut self.stopped,
        };
        *count += 1;
        self.rolls.push(row);
    }

    /// Whether every scan of the shelf is read now.
    #[must_use]
    pub fn is_whole(&self) -> bool {
        self.failed + self.stopped + self.under_way == 0
    }
}
