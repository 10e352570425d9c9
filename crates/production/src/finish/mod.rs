//! The digital finish of a version.

mod cards;
mod document;
mod list;
mod plan;
mod sound;

use std::path::{Path, PathBuf};

use onestrand_cut::TrialCut;
use onestrand_film::{Fps, Frames, RollId, RunningTime};
use onestrand_finish::{Coding, Container, FinishPlan, Made, Pattern, Place, make};
use onestrand_intake::{Cancel, Ffmpeg};
use onestrand_store::{JobId, JobKind, JobState, Production, StoreError};
use serde::{Deserialize, Serialize};

pub use self::document::{FinishDocument, FinishShows, FinishSoundDocument};
use self::cards::Cards;
use self::plan::{Plan, Said, Stretch};
use crate::bench_room::strip_as_it_is;
use crate::error::unfit;
use crate::progress::JobProgress;
use crate::{ProductionError, Progress, strand, workprint};

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
        for path in [&mut self.sound, &mut self.list, &mut self.captions] {
            if let Some(path) = path {
                *path = full(path)?;
            }
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
    pattern(production, &request)?;
    let laid = Laid::of(production, &request)?;
    if let Some(sound) = &request.sound {
        let frames = u32::try_from(laid.frames()).unwrap_or(u32::MAX);
        let speed = production.meta().speed;
        sound::fitting(&Ffmpeg::locate()?, sound, frames, speed, cancel)?;
    }
    let params = serde_json::to_string(&request).map_err(StoreError::from)?;
    let words = format!("finish {}", request.cut);
    let job = production.begin_job(JobKind::Finish, &words, &params)?;
    run_job(production, job, &request, cancel, progress)
}

/// Carries a finish out that is written down as a job, and writes its end down.
pub(crate) fn run_job(
    production: &mut Production,
    job: JobId,
    request: &FinishRequest,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<FinishDocument, ProductionError> {
    let mut told = JobProgress::new(production, job, progress);
    let ended = carry_out(production, request, cancel, &mut told);
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

/// What is shown, stretch by stretch.
struct Laid {
    stretches: Vec<Stretch>,
    shows: FinishShows,
    turned: u64,
}

impl Laid {
    fn of(production: &Production, request: &FinishRequest) -> Result<Self, ProductionError> {
        let is_on_the_bench = match request.whole {
            true => None,
            false => strip_as_it_is(production, &request.cut)?,
        };
        if let Some((version, parts)) = is_on_the_bench {
            let (stretches, turned) = plan::as_it_is(&version, parts);
            let shows = FinishShows::Strip;
            return Ok(Self {
                stretches,
                shows,
                turned,
            });
        }
        let cut = strand::cuttable(production, &request.cut, None)?.cut;
        Ok(Self {
            stretches: plan::planned(&cut),
            shows: match request.whole {
                true => FinishShows::Whole,
                false => FinishShows::Planned,
            },
            turned: 0,
        })
    }

    fn frames(&self) -> u64 {
        let one = |stretch: &Stretch| match stretch {
            Stretch::Frames(_, range, _) => u64::from(range.len().count()),
            Stretch::Leader(frames) | Stretch::Card(_, frames) => u64::from(*frames),
        };
        self.stretches.iter().map(one).sum()
    }
}

fn pattern(production: &Production, request: &FinishRequest) -> Result<Pattern, ProductionError> {
    let speed = production.meta().speed;
    let file_rate = match &request.file_rate {
        Some(text) => text.parse::<Fps>()?,
        None => speed,
    };
    Ok(Pattern::new(speed, file_rate)?)
}

fn carry_out(
    production: &Production,
    request: &FinishRequest,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<FinishDocument, ProductionError> {
    let rolls = rolls_of(&strand::cut(production, &request.cut)?);
    workprint::ready_workprints(production, &rolls, cancel, progress)?;
    let ffmpeg = Ffmpeg::locate()?;
    let laid = Laid::of(production, request)?;
    let frames = u32::try_from(laid.frames()).unwrap_or(u32::MAX);
    let speed = production.meta().speed;
    let sound = match &request.sound {
        Some(path) => Some(sound::fitting(&ffmpeg, path, frames, speed, cancel)?),
        None => None,
    };
    // A card is drawn as wide as the pictures of the first roll.
    let width = widest(production, &rolls)?;
    let mut cards = Cards::default();
    let mut plan = Plan::of(production, &laid.stretches, &mut |title| {
        match request.black_cards {
            true => Ok(None),
            false => cards.of(production, title, width, progress),
        }
    })?;
    let coding = Coding::usual(Container::of(&request.out));
    let title = format!(
        "{}, {}: {}",
        production.meta().title,
        request.cut,
        laid.shows.words()
    );
    let whole = FinishPlan {
        cards: cards.into_films(),
        coding,
        pattern: pattern(production, request)?,
        sound: sound.as_ref().map(|fits| fits.sound.clone()),
        ..FinishPlan::plain(
            plan.open_scans(production, &ffmpeg)?,
            std::mem::take(&mut plan.places),
            speed,
            title,
            request.out.clone(),
        )?
    };
    progress.begin("finishing", Some(whole.places.len() as u64));
    let made = make(&ffmpeg, &whole, None, cancel, &mut |n| progress.at(n))?;
    if let Some(path) = &request.list {
        list::write(path, whole.pattern, &plan.said, &made)?;
    }
    if let Some(path) = &request.captions {
        crate::dub::write_captions(production, &request.cut, path)?;
    }
    let leader = sound.map(|fits| fits.leader);
    told(request, &whole, (&laid, &plan.said), &made, leader, speed)
}

/// How wide the pictures of these rolls are. Unit: pixels.
fn widest(production: &Production, rolls: &[RollId]) -> Result<u32, ProductionError> {
    let mut widest = 0;
    for roll in rolls {
        let record = production.roll(roll.as_str())?;
        widest = record.scans.iter().map(|s| s.facts.width).fold(widest, u32::max);
    }
    match widest {
        0 => Err(unfit(
            "no roll of this version has a scan".to_owned(),
            "bring in a scan of at least one of its rolls",
        )),
        some => Ok(some),
    }
}

/// What was made, told.
fn told(
    request: &FinishRequest,
    plan: &FinishPlan,
    (laid, said): (&Laid, &[Said]),
    made: &Made,
    leader: Option<u32>,
    speed: Fps,
) -> Result<FinishDocument, ProductionError> {
    let count = |is: fn(&Said) -> bool| said.iter().filter(|one| is(one)).count() as u64;
    let (width, height) = plan.scans.first().map_or((0, 0), |s| {
        let facts = s.source.facts();
        (facts.width, facts.height)
    });
    let frames = Frames::new(u32::try_from(made.frames).unwrap_or(u32::MAX))?;
    let text = |path: &Path| crate::film_frames::path_text(path);
    Ok(FinishDocument {
        cut: request.cut.clone(),
        path: text(&request.out),
        frames: made.frames,
        speed: speed.to_string(),
        clock: RunningTime::of(frames, speed).to_string(),
        width,
        height,
        coding: document::coding_words(plan.coding, Container::of(&plan.path)),
        black: plan.places.iter().filter(|p| **p == Place::Black).count() as u64,
        missing: count(|one| matches!(one, Said::Missing(_))),
        shows: laid.shows,
        turned: laid.turned,
        cards: plan.places.iter().filter(|p| matches!(p, Place::Card { .. })).count() as u64,
        file_rate: plan.pattern.file_rate().to_string(),
        file_frames: made.file_frames,
        pattern: plan.pattern.words(),
        kept: made.kept,
        sound: plan.sound.as_ref().map(|sound| FinishSoundDocument {
            path: text(&sound.path),
            leader_frames: leader.unwrap_or(0),
            samples: sound.samples,
        }),
        list: request.list.as_deref().map(text),
        captions: request.captions.as_deref().map(text),
    })
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
