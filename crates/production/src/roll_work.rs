//! The bringing in of a roll, step by step.

use std::path::Path;

use onestrand_intake::Cancel;
use onestrand_store::{
    Act, InspectionRecord, JobId, JobKind, JobState, Meta, Production, RollRecord, ScanRecord,
    TakeRecord, Workprints,
};

use crate::documents::RollDocument;
use crate::film_frames::as_stopped;
use crate::reading::Reading;
use crate::roll::{AddRoll, Understood, document, free, request_of, understand, with_full_paths};
use crate::shelf_summary::ended_without;
use crate::workprint::{Opened, ReadRoll, read_and_print};
use crate::{ProductionError, Progress};

/// The bringing in of one roll, in steps, so that whoever owns the production
/// need not hold it while the scans are decoded.
#[derive(Debug)]
pub struct RollWork {
    request: AddRoll,
    understood: Understood,
    opened: Opened,
}

/// A roll that has been read and is not yet kept.
#[derive(Debug)]
pub struct RollRead(ReadRoll);

impl RollWork {
    /// Understands the request and opens its scans. What cannot be read at all
    /// is told here, before a job is written down.
    ///
    /// # Errors
    /// [`ProductionError::Unit`], [`ProductionError::Intake`],
    /// [`ProductionError::File`].
    pub fn open(request: &AddRoll, meta: &Meta) -> Result<Self, ProductionError> {
        let understood = understand(meta, request)?;
        let request = with_full_paths(request)?;
        let opened = Opened::of(&request.files)?;
        Ok(Self {
            request,
            understood,
            opened,
        })
    }

    /// The work of a job that was written down before; its scans are where
    /// the job says.
    ///
    /// # Errors
    /// As [`RollWork::open`].
    pub fn resumed(params: &str, meta: &Meta) -> Result<Self, ProductionError> {
        Self::open(&request_of(params)?, meta)
    }

    /// Writes down that a job of this kind ended before its scans could be opened.
    ///
    /// # Errors
    /// [`ProductionError::Store`].
    pub fn given_up(
        production: &Production,
        job: JobId,
        problem: &ProductionError,
    ) -> Result<(), ProductionError> {
        ended_without(production, job, problem)
    }

    /// The name the roll is to have.
    #[must_use]
    pub fn roll(&self) -> &str {
        self.understood.roll.as_str()
    }

    /// Writes down that the work begins.
    ///
    /// # Errors
    /// [`ProductionError::RollThere`], [`ProductionError::Store`].
    pub fn begin(&self, production: &Production) -> Result<JobId, ProductionError> {
        free(production, &self.request)?;
        let params =
            serde_json::to_string(&self.request).map_err(onestrand_store::StoreError::from)?;
        let words = format!("read {}", self.roll());
        Ok(production.begin_job(JobKind::Read, &words, &params)?)
    }

    /// Reads the scans into a workprint of a production's folder. The long part.
    ///
    /// # Errors
    /// [`ProductionError::Stopped`], [`ProductionError::Intake`],
    /// [`ProductionError::Store`]; nothing half-made is left then.
    pub fn read(
        &self,
        dir: &Path,
        cancel: &Cancel,
        progress: &mut dyn Progress,
    ) -> Result<RollRead, ProductionError> {
        let speed = Some(self.understood.film_speed);
        read_and_print(dir, self.roll(), &self.opened, speed, cancel, progress)
            .map(RollRead)
            .map_err(as_stopped)
    }

    /// Keeps what was read, or why it was not, and writes the job's end down.
    ///
    /// # Errors
    /// What the reading ended with; [`ProductionError::Store`].
    pub fn keep(
        &self,
        production: &mut Production,
        job: JobId,
        read: Result<RollRead, ProductionError>,
        progress: &mut dyn Progress,
    ) -> Result<RollDocument, ProductionError> {
        match read.and_then(|read| self.keep_read(production, read.0, progress)) {
            Ok(document) => {
                production.end_job(job, JobState::Done, None)?;
                Ok(document)
            }
            Err(problem) => {
                ended_without(production, job, &problem)?;
                Err(problem)
            }
        }
    }

    fn keep_read(
        &self,
        production: &mut Production,
        read: ReadRoll,
        progress: &mut dyn Progress,
    ) -> Result<RollDocument, ProductionError> {
        // While it was read, a roll of this name may have come from elsewhere.
        free(production, &self.request)?;
        let name = self.roll().to_owned();
        let takes = take_records(&name, &read.reading);
        let roll = roll_record(
            &self.request,
            &self.understood,
            &read.reading,
            read.scans.clone(),
        );
        let warnings = read.reading.warnings.clone();
        read.finish()?;
        let acts = vec![
            Act::PutRoll {
                name: name.clone(),
                roll: Some(Box::new(roll)),
            },
            Act::PutTakes {
                roll: name.clone(),
                takes,
            },
        ];
        production.act(&format!("bring in {name}"), &Act::All { acts })?;
        for warning in &warnings {
            progress.note(&format!("{}; {}", warning.message, warning.hint));
        }
        let prints = Workprints::open(production.dir())?;
        document(production, &prints, &production.roll(&name)?)
    }
}

fn take_records(roll: &str, reading: &Reading) -> Vec<TakeRecord> {
    let one = |take: crate::documents::TakeDocument| TakeRecord {
        roll: roll.to_owned(),
        first: take.first,
        thrown: take.thrown,
        setup: None,
        take: None,
        rating: "none".to_owned(),
        size: String::new(),
        camera_move: String::new(),
        direction: String::new(),
        action: String::new(),
        note: String::new(),
        begins: take.begins.to_owned(),
        flash_frames: take.flash_frames,
        flash_stops: (take.flash_frames > 0).then_some(take.flash_stops),
        looked: false,
        pin: None,
    };
    reading.takes().into_iter().map(one).collect()
}

fn roll_record(
    request: &AddRoll,
    understood: &Understood,
    reading: &Reading,
    scans: Vec<ScanRecord>,
) -> RollRecord {
    RollRecord {
        name: understood.roll.to_string(),
        gauge: understood.gauge.to_string(),
        film_speed: understood.film_speed.to_string(),
        base: request.base.clone(),
        fit: request.fit.clone(),
        wind: request.wind.clone(),
        frames: reading.frames,
        missing: reading.missing,
        expected: understood.expected,
        measured: request.measured.clone(),
        shrinkage: request.shrinkage.clone(),
        proved_by: None,
        inspection: InspectionRecord::default(),
        scans,
    }
}
