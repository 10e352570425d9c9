//! The digital finish of a version.

mod cards;
mod document;
mod list;
mod plan;
mod sound;
mod words;
mod work;

use std::path::{Path, PathBuf};

use onestrand_cut::TrialCut;
use onestrand_film::RollId;
use onestrand_intake::Cancel;
use onestrand_store::{JobId, JobKind, JobState, Production, StoreError};
use serde::{Deserialize, Serialize};

pub use self::document::{FinishDocument, FinishShows, FinishSoundDocument};
pub(crate) use self::plan::{frame_index, reopen};
pub use self::words::{counted, finish_words};
use self::work::Able;
pub use self::work::FinishWork;
use crate::light::TreatmentChoice;
use crate::progress::JobProgress;
use crate::{ProductionError, Progress};
/// Where the parts of a finish lie while it is made.
pub use onestrand_finish::parts_of as finish_parts;

/// What is to be finished. Kept with the job, so that it can be begun again.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct FinishRequest {
    /// The version.
    pub cut: String,
    /// The file; its end says what it is coded in: `.mkv` FFV1, `.mov` ProRes, `.mp4`
    /// H.264.
    pub out: PathBuf,
    /// Frames a second of the file, as a speed is written; the film's own speed where
    /// nothing is said.
    #[serde(default)]
    pub file_rate: Option<String>,
    /// Whether every planned frame is shown, also what joins have taken since.
    #[serde(default)]
    pub whole: bool,
    /// The mix, as `onestrand mix` writes it.
    #[serde(default)]
    pub sound: Option<PathBuf>,
    /// Whether titles that are not photographed stand black instead of drawn.
    #[serde(default)]
    pub black_cards: bool,
    /// What is done to the pictures: nothing, unless it is asked for.
    #[serde(default)]
    pub treat: TreatmentChoice,
    /// Where the list of all frames goes.
    #[serde(default)]
    pub list: Option<PathBuf>,
    /// Where the captions go, as WebVTT.
    #[serde(default)]
    pub captions: Option<PathBuf>,
}

impl FinishRequest {
    /// A silent finish of a version at its own speed.
    #[must_use]
    pub fn plain(cut: &str, out: &Path) -> Self {
        Self {
            cut: cut.to_owned(),
            out: out.to_owned(),
            file_rate: None,
            whole: false,
            sound: None,
            black_cards: false,
            treat: TreatmentChoice::default(),
            list: None,
            captions: None,
        }
    }

    /// All names in full, so that they hold wherever the job is carried on.
    fn in_full(mut self) -> Result<Self, ProductionError> {
        let full = |path: &Path| {
            std::path::absolute(path).map_err(crate::error::file("name the file in full", path))
        };
        self.out = full(&self.out)?;
        let others = [&mut self.sound, &mut self.list, &mut self.captions];
        for path in others.into_iter().flatten() {
            *path = full(path)?;
        }
        Ok(self)
    }
}

/// Makes the digital finish of a version from the original scans. Stopped or killed, it
/// goes on where it was when the same is asked for again.
///
/// # Errors
/// [`ProductionError::CutRefused`] when the strand check refuses the cut,
/// [`ProductionError::ScanChanged`], [`ProductionError::Unfit`] for a sound that does not
/// fit, [`ProductionError::Finish`] and others; nothing stands under the finish's name then.
pub fn finish(
    production: &mut Production,
    request: FinishRequest,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<FinishDocument, ProductionError> {
    let request = request.in_full()?;
    // What cannot be made at all is told before a job is written down.
    let able = Able::of(production, &request, cancel)?;
    let params = serde_json::to_string(&request).map_err(StoreError::from)?;
    let words = format!("finish {}", request.cut);
    let job = production.begin_job(JobKind::Finish, &words, &params)?;
    carry_out(production, job, progress, |production, told| {
        FinishWork::of_able(production, request, able, cancel, told)?.make(cancel, told)
    })
}

/// Carries a finish out that is written down as a job, and writes its end down.
pub(crate) fn run_job(
    production: &mut Production,
    job: JobId,
    request: &FinishRequest,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<FinishDocument, ProductionError> {
    carry_out(production, job, progress, |production, told| {
        FinishWork::gather(production, request, cancel, told)?.make(cancel, told)
    })
}

/// Does the work of a job and writes its end down.
fn carry_out(
    production: &mut Production,
    job: JobId,
    progress: &mut dyn Progress,
    work: impl FnOnce(&Production, &mut dyn Progress) -> Result<FinishDocument, ProductionError>,
) -> Result<FinishDocument, ProductionError> {
    let mut told = JobProgress::new(production, job, progress);
    let ended = work(production, &mut told);
    match &ended {
        Ok(_) => production.end_job(job, JobState::Done, None)?,
        Err(problem) => {
            let state = if problem.is_stopped() {
                JobState::Cancelled
            } else {
                JobState::Failed
            };
            production.end_job(job, state, Some(&problem.to_string()))?;
        }
    }
    ended
}

/// The rolls a cut is made from, each once.
pub(crate) fn rolls_of(cut: &TrialCut) -> Vec<RollId> {
    let rolls: std::collections::BTreeSet<&RollId> = cut
        .pieces()
        .iter()
        .filter_map(|p| Some(&p.span()?.roll))
        .collect();
    rolls.into_iter().cloned().collect()
}
