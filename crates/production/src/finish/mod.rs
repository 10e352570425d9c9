//! The digital finish of a version.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use onestrand_compose::MadeOf;
use onestrand_cut::{PieceKind, TrialCut};
use onestrand_film::{FrameRange, RollId};
use onestrand_finish::{FinishPlan, FinishScan, Place, make};
use onestrand_intake::{Cancel, Ffmpeg, FrameIndex, IndexRow, PlaneHash, Ratio, Source};
use onestrand_store::{
    JobId, JobKind, JobState, PartIndex, Production, RollRecord, StoreError, Workprints,
};
use serde::{Deserialize, Serialize};

use crate::moved::whereabouts;
use crate::progress::JobProgress;
use crate::{ProductionError, Progress, strand, workprint};

/// What is to be finished. Kept with the job.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct FinishRequest {
    cut: String,
    out: PathBuf,
}

/// The answer of `finish`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct FinishDocument {
    /// The cut.
    pub cut: String,
    /// The file.
    pub path: String,
    /// Frames in it.
    pub frames: u64,
    /// Frames a second.
    pub speed: String,
    /// Running time.
    pub clock: String,
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
    /// The coding.
    pub coding: &'static str,
    /// Frames that are black: leader, cards to shoot, frames no scan shows.
    pub black: u64,
    /// Of these, frames of the film that no scan shows.
    pub missing: u64,
}

/// Makes the digital finish of a version from the original scans.
///
/// # Errors
/// [`ProductionError::CutRefused`] when the strand check refuses the cut,
/// [`ProductionError::ScanChanged`], [`ProductionError::Finish`] and others;
/// nothing half-made is left.
pub fn finish(
    production: &mut Production,
    cut: &str,
    out: &Path,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<FinishDocument, ProductionError> {
    let request = FinishRequest {
        cut: cut.to_owned(),
        out: std::path::absolute(out).map_err(crate::error::file("name the file in full", out))?,
    };
    // What cannot be made at all is told before a job is written down.
    Plan::of(production, &request)?;
    let params = serde_json::to_string(&request).map_err(StoreError::from)?;
    let job = production.begin_job(JobKind::Finish, &format!("finish {cut}"), &params)?;
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

fn carry_out(
    production: &Production,
    request: &FinishRequest,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<FinishDocument, ProductionError> {
    let rolls = rolls_of(&strand::cut(production, &request.cut)?);
    workprint::ready_workprints(production, &rolls, cancel, progress)?;
    let mut plan = Plan::of(production, request)?;
    let ffmpeg = Ffmpeg::locate()?;
    let scans = plan.open_scans(production, &ffmpeg)?;
    let (width, height) = scans.first().map_or((0, 0), |s| {
        let facts = s.source.facts();
        (facts.width, facts.height)
    });
    let places = std::mem::take(&mut plan.places);
    let black = places.iter().filter(|p| **p == Place::Black).count() as u64;
    let speed = production.meta().speed;
    progress.begin("finishing", Some(places.len() as u64));
    let whole = FinishPlan {
        scans,
        places,
        speed,
        title: format!("{}, {}", production.meta().title, request.cut),
        path: request.out.clone(),
    };
    let frames = make(&ffmpeg, &whole, cancel, &mut |n| progress.at(n))?;
    let count = onestrand_film::Frames::new(u32::try_from(frames).unwrap_or(u32::MAX))?;
    Ok(FinishDocument {
        cut: request.cut.clone(),
        path: crate::film_frames::path_text(&request.out),
        frames,
        speed: speed.to_string(),
        clock: onestrand_film::RunningTime::of(count, speed).to_string(),
        width,
        height,
        coding: "FFV1 in Matroska",
        black,
        missing: plan.missing,
    })
}

/// The rolls a cut is made from, each once.
pub(crate) fn rolls_of(cut: &TrialCut) -> Vec<RollId> {
    let rolls: BTreeSet<&RollId> = cut
        .pieces()
        .iter()
        .filter_map(|p| Some(&p.span()?.roll))
        .collect();
    rolls.into_iter().cloned().collect()
}

/// Which scans are wanted, and what stands at each place.
struct Plan {
    wanted: BTreeMap<(String, u32), usize>,
    places: Vec<Place>,
    missing: u64,
    prints: Workprints,
}

impl Plan {
    fn of(production: &Production, request: &FinishRequest) -> Result<Self, ProductionError> {
        let cut = strand::cuttable(production, &request.cut, None)?.cut;
        let mut plan = Self {
            wanted: BTreeMap::new(),
            places: Vec::new(),
            missing: 0,
            prints: Workprints::open(production.dir())?,
        };
        plan.lay(&cut)?;
        Ok(plan)
    }

    fn lay(&mut self, cut: &TrialCut) -> Result<(), ProductionError> {
        for piece in cut.pieces() {
            match &piece.kind {
                PieceKind::Shot(span) => self.shot(span.roll.as_str(), span.range)?,
                PieceKind::Leader(frames) | PieceKind::Card { frames, .. } => {
                    self.black(frames.count());
                }
            }
        }
        Ok(())
    }

    fn black(&mut self, frames: u32) {
        self.places.extend((0..frames).map(|_| Place::Black));
    }

    fn shot(&mut self, roll: &str, range: FrameRange) -> Result<(), ProductionError> {
        let rows = self.prints.rows(roll, range)?;
        let known = rows.len();
        for row in rows {
            // Words of another version, if there were any, would be no reason to
            // show nothing.
            let put_together = row.made_of.as_deref().and_then(MadeOf::parse);
            match row.shown_by {
                Some((part, file_frame)) => {
                    let made_of = put_together.unwrap_or(MadeOf::One(file_frame));
                    let next = self.wanted.len();
                    let scan = *self.wanted.entry((roll.to_owned(), part)).or_insert(next);
                    self.places.push(Place::Shown { scan, made_of });
                }
                None => {
                    self.missing += 1;
                    self.black(1);
                }
            }
        }
        // A roll on paper, or one whose workprint was thrown away.
        let unknown = range.len().count() as usize - known;
        self.missing += unknown as u64;
        self.black(u32::try_from(unknown).unwrap_or(u32::MAX));
        Ok(())
    }

    fn open_scans(
        &mut self,
        production: &Production,
        ffmpeg: &Ffmpeg,
    ) -> Result<Vec<FinishScan>, ProductionError> {
        let mut by_number: Vec<(&(String, u32), &usize)> = self.wanted.iter().collect();
        by_number.sort_by_key(|entry| *entry.1);
        let keys: Vec<(String, u32)> = by_number.into_iter().map(|e| e.0.clone()).collect();
        let mut scans = Vec::new();
        for (name, part) in keys {
            let roll = production.roll(&name)?;
            let index = self.prints.part_index(&name, part)?;
            scans.push(FinishScan {
                source: reopen(production, &roll, part, ffmpeg)?,
                index: frame_index(&index),
            });
        }
        Ok(scans)
    }
}

/// Opens a scan again and sees that its size is still that which was read; the
/// planes of the fetched frames are compared with the index besides.
fn reopen(
    production: &Production,
    roll: &RollRecord,
    part: u32,
    ffmpeg: &Ffmpeg,
) -> Result<Source, ProductionError> {
    let scan = roll
        .scans
        .get(part as usize)
        .ok_or_else(|| StoreError::NotFound {
            what: "scan",
            name: format!("{} {part}", roll.name),
        })?;
    let paths = whereabouts(scan, production.dir());
    let (source, _warnings) = Source::open(ffmpeg, &paths)?;
    let bytes = source.size_in_bytes()?;
    if bytes != scan.bytes {
        return Err(ProductionError::ScanChanged {
            roll: roll.name.clone(),
            found: format!("{bytes} bytes, {} when it was read", scan.bytes),
            path: source.path().to_owned(),
        });
    }
    Ok(source)
}

fn frame_index(part: &PartIndex) -> FrameIndex {
    let row = |r: &onestrand_store::FileFrameRow| IndexRow {
        pts: r.pts,
        key: r.key,
        number: r.number,
        plane: PlaneHash::from_bits(r.plane),
    };
    let base = part.time_base.map(|(num, den)| Ratio { num, den });
    FrameIndex::new(part.rows.iter().map(row).collect(), base)
}
