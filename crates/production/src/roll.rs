//! Bringing a scan in as a roll.

use std::path::{Path, PathBuf};

use onestrand_film::{Fps, Gauge, Quantity, RollId, Shrinkage};
use onestrand_intake::Cancel;
use onestrand_store::{
    InspectionRecord, JobId, Meta, Production, RollRecord, ScanRecord, Workprints,
};
use serde::{Deserialize, Serialize};

use crate::bench_room::DoneAtTheBench;
use crate::documents::{FileDocument, RollDocument};
use crate::film_frames::path_text;
use crate::known_words::known;
use crate::progress::JobProgress;
use crate::roll_work::RollWork;
use crate::shelf_summary::ended_without;
use crate::{ProductionError, Progress};

/// How a roll is brought in. Kept with the job, so that it can begin again.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct AddRoll {
    /// The name of the roll.
    pub roll: String,
    /// The file, a folder of pictures, or several in order along the roll.
    pub files: Vec<PathBuf>,
    /// The gauge; the production's when not said.
    pub gauge: Option<String>,
    /// The speed in the camera; the production's when not said.
    pub film_speed: Option<String>,
    /// The base.
    pub base: String,
    /// The length measured on the bench.
    pub measured: Option<String>,
    /// The shrinkage in per cent.
    pub shrinkage: Option<String>,
    /// The wind.
    pub wind: Option<String>,
    /// What the roll is fit for.
    pub fit: String,
}

/// The request, understood.
#[derive(Debug)]
pub(crate) struct Understood {
    pub(crate) roll: RollId,
    pub(crate) gauge: Gauge,
    pub(crate) film_speed: Fps,
    pub(crate) expected: Option<u32>,
}

pub(crate) fn understand(meta: &Meta, request: &AddRoll) -> Result<Understood, ProductionError> {
    let gauge = match &request.gauge {
        Some(text) => text.parse()?,
        None => meta.gauge,
    };
    let film_speed = match &request.film_speed {
        Some(text) => text.parse()?,
        None => meta.speed,
    };
    let shrinkage = match &request.shrinkage {
        Some(text) => text.parse()?,
        None => Shrinkage::NONE,
    };
    let expected = match &request.measured {
        Some(text) => {
            let measured: Quantity = text.parse()?;
            Some(measured.frames(gauge, film_speed, shrinkage)?.count())
        }
        None => None,
    };
    let roll = RollId::new(&request.roll)?;
    known(words_alone(&roll, gauge, request).to_model())?;
    Ok(Understood {
        roll,
        gauge,
        film_speed,
        expected,
    })
}

/// What is said of a roll before anything of it was read.
fn words_alone(roll: &RollId, gauge: Gauge, request: &AddRoll) -> RollRecord {
    RollRecord {
        name: roll.to_string(),
        gauge: gauge.to_string(),
        film_speed: String::new(),
        base: request.base.clone(),
        fit: request.fit.clone(),
        wind: request.wind.clone(),
        frames: 0,
        missing: 0,
        expected: None,
        measured: None,
        shrinkage: None,
        proved_by: None,
        inspection: InspectionRecord::default(),
        scans: Vec::new(),
    }
}

/// Brings scans in as a roll: reads them, makes the workprint, finds the takes.
///
/// # Errors
/// [`ProductionError`]; nothing is changed and nothing half-made is left then.
pub fn add_roll(
    production: &mut Production,
    request: &AddRoll,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<RollDocument, ProductionError> {
    // There is no need to open scans for a name that is taken.
    free(production, request)?;
    let work = RollWork::open(request, production.meta())?;
    let job = work.begin(production)?;
    run(production, job, &work, cancel, progress)
}

/// The name a roll is to have, if it is free.
pub(crate) fn free(production: &Production, request: &AddRoll) -> Result<(), ProductionError> {
    let roll = RollId::new(&request.roll)?.to_string();
    if production.roll(&roll).is_ok() {
        return Err(ProductionError::RollThere { roll });
    }
    Ok(())
}

/// A request as a job keeps it.
pub(crate) fn request_of(params: &str) -> Result<AddRoll, ProductionError> {
    Ok(serde_json::from_str(params).map_err(onestrand_store::StoreError::from)?)
}

/// A job is begun again from anywhere, so its files are named in full.
pub(crate) fn with_full_paths(request: &AddRoll) -> Result<AddRoll, ProductionError> {
    let full = |path: &PathBuf| {
        std::path::absolute(path).map_err(crate::error::file("name the file in full", path))
    };
    Ok(AddRoll {
        files: request.files.iter().map(full).collect::<Result<_, _>>()?,
        ..request.clone()
    })
}

/// Reads and keeps, telling the production now and then how far it is.
fn run(
    production: &mut Production,
    job: JobId,
    work: &RollWork,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<RollDocument, ProductionError> {
    let read = {
        let mut told = JobProgress::new(production, job, progress);
        work.read(production.dir(), cancel, &mut told)
    };
    work.keep(production, job, read, progress)
}

/// Carries a reading out that is written down as a job, and writes its end down.
pub(crate) fn run_job(
    production: &mut Production,
    job: JobId,
    request: &AddRoll,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<RollDocument, ProductionError> {
    match RollWork::open(request, production.meta()) {
        Ok(work) => run(production, job, &work, cancel, progress),
        Err(problem) => {
            ended_without(production, job, &problem)?;
            Err(problem)
        }
    }
}

/// All rolls of a production.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn list_rolls(production: &Production) -> Result<Vec<RollDocument>, ProductionError> {
    rolls_with(production, &Workprints::open(production.dir())?)
}

/// The same with the workprints open already.
pub(crate) fn rolls_with(
    production: &Production,
    prints: &Workprints,
) -> Result<Vec<RollDocument>, ProductionError> {
    let mut all = Vec::new();
    let mut rolls = production.rolls()?;
    rolls.sort_by_key(|r| RollId::new(&r.name).ok());
    let bench = DoneAtTheBench::of(production);
    for roll in &rolls {
        all.push(document_with(production, prints, roll, &bench)?);
    }
    Ok(all)
}

pub(crate) fn document(
    production: &Production,
    prints: &Workprints,
    roll: &RollRecord,
) -> Result<RollDocument, ProductionError> {
    document_with(production, prints, roll, &DoneAtTheBench::of(production))
}

/// The same with the log of the bench read already.
fn document_with(
    production: &Production,
    prints: &Workprints,
    roll: &RollRecord,
    bench: &DoneAtTheBench,
) -> Result<RollDocument, ProductionError> {
    let ledger = crate::ledger::ledger_of(roll, bench);
    let model = roll.to_model()?;
    let print = prints.info(&roll.name)?;
    let scan = |scan: &ScanRecord| FileDocument {
        path: shown_path(&scan.paths),
        frames: scan.facts.frames,
        rate: scan.facts.rate.clone(),
        width: scan.facts.width,
        height: scan.facts.height,
        coding: scan.facts.coding.clone(),
    };
    Ok(RollDocument {
        roll: roll.name.clone(),
        gauge: roll.gauge.clone(),
        frames: roll.frames,
        footage: model.gauge.footage(model.frames).into(),
        missing: roll.missing,
        expected: roll.expected,
        difference: roll.expected.map(|e| i64::from(roll.frames) - i64::from(e)),
        proved: model.proved,
        base: roll.base.clone(),
        fit: roll.fit.clone(),
        half: crate::halves::half_document(production, roll)?,
        runs: crate::ledger::runs_of(roll),
        handled: crate::ledger::sums_of(&ledger),
        ledger,
        takes: production.takes_of(&roll.name)?.len(),
        paper: roll.scans.is_empty(),
        workprint: print.is_some(),
        pictures: match print {
            Some(_) => prints.identity(&roll.name)?,
            None => None,
        },
        scans: roll.scans.iter().map(scan).collect(),
    })
}

/// One file by its name, a run of pictures by its folder.
fn shown_path(paths: &[String]) -> String {
    match paths {
        [one] => one.clone(),
        [first, ..] => Path::new(first).parent().map(path_text).unwrap_or_default(),
        [] => String::new(),
    }
}
