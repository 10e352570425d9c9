//! Long work under way: how far it is, and how it is stopped.

use std::collections::BTreeMap;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

use onestrand_production::{Cancel, Progress, small_picture};
use serde::Serialize;
use utoipa::ToSchema;

use crate::events::{EventDocument, Events};
use crate::problem::{ProblemDocument, ServerError};

/// One piece of long work.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub(crate) struct JobDocument {
    /// Its number in this run of the program.
    pub job: u64,
    /// `read`, `example`, `copy`, `twins`, `listen`, `finish`, `box`, `box_check`,
    /// `strip`, `proof`, `family` or `copies`.
    pub kind: String,
    /// The film it belongs to.
    pub film: String,
    /// The roll it brings in.
    pub roll: Option<String>,
    /// What is being done, in words.
    pub words: String,
    /// `running`, `done`, `cancelled` or `failed`.
    pub state: String,
    /// So many are done of what it is counted in.
    pub done: u64,
    /// What it is counted in: `frames`, `bytes`, `samples`, `seconds`, `tries`.
    pub unit: String,
    /// All of them, if known.
    pub total: Option<u64>,
    /// What is left at the rate so far, if it can be told. Unit: seconds.
    pub left_seconds: Option<f64>,
    /// The frames of its files whose pictures may be looked at already, of a roll
    /// that is being read.
    pub pictures: Vec<u64>,
    /// What the user should know.
    pub notes: Vec<String>,
    /// Why it failed.
    pub problem: Option<ProblemDocument>,
}

/// What work is counted in that says nothing else.
const FRAMES: &str = "frames";

/// Between two tellings of one job: often enough to look alive.
const TOLD_EVERY: Duration = Duration::from_millis(200);

/// All long work of this run of the program.
#[derive(Debug)]
pub(crate) struct Jobs {
    next: AtomicU64,
    beginning: Mutex<()>,
    all: Mutex<BTreeMap<u64, Arc<Job>>>,
    events: Events,
}

/// One piece of long work.
#[derive(Debug)]
pub(crate) struct Job {
    pub(crate) cancel: Cancel,
    document: Mutex<JobDocument>,
    watched: Mutex<BTreeMap<u64, Vec<u8>>>,
    events: Events,
}

/// The most pictures that are kept to watch a reading by, and their least
/// height. Unit: pixels.
const MOST_WATCHED: usize = 400;
const WATCHED_HEIGHT: u16 = 60;

/// How many ended jobs are still told of.
const KEPT: usize = 50;

impl Jobs {
    pub(crate) fn new(events: Events) -> Self {
        Self {
            next: AtomicU64::new(1),
            beginning: Mutex::new(()),
            all: Mutex::new(BTreeMap::new()),
            events,
        }
    }

    /// Held while it is looked whether work may begin, until it has begun: two
    /// windows may ask for the same at once.
    pub(crate) fn beginning(&self) -> MutexGuard<'_, ()> {
        self.beginning
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
    }

    /// A job begins.
    pub(crate) fn begin(
        &self,
        kind: &str,
        film: &str,
        roll: Option<&str>,
        words: &str,
    ) -> Arc<Job> {
        let number = self.next.fetch_add(1, Ordering::Relaxed);
        let job = Arc::new(Job {
            cancel: Cancel::new(),
            document: Mutex::new(JobDocument {
                job: number,
                kind: kind.to_owned(),
                film: film.to_owned(),
                roll: roll.map(str::to_owned),
                words: words.to_owned(),
                state: "running".to_owned(),
                done: 0,
                unit: FRAMES.to_owned(),
                total: None,
                left_seconds: None,
                pictures: Vec::new(),
                notes: Vec::new(),
                problem: None,
            }),
            watched: Mutex::new(BTreeMap::new()),
            events: self.events.clone(),
        });
        let mut all = self.all.lock().unwrap_or_else(PoisonError::into_inner);
        all.insert(number, Arc::clone(&job));
        let ended: Vec<u64> = all
            .iter()
            .filter(|(_, j)| j.document().state != "running")
            .map(|(n, _)| *n)
            .collect();
        for number in ended.iter().take(ended.len().saturating_sub(KEPT)) {
            all.remove(number);
        }
        drop(all);
        job.tell();
        job
    }

    pub(crate) fn documents(&self) -> Vec<JobDocument> {
        let all = self.all.lock().unwrap_or_else(PoisonError::into_inner);
        all.values().map(|job| job.document()).collect()
    }

    /// # Errors
    /// [`ServerError::NotThere`].
    pub(crate) fn job(&self, number: u64) -> Result<Arc<Job>, ServerError> {
        let all = self.all.lock().unwrap_or_else(PoisonError::into_inner);
        let job = all.get(&number).ok_or_else(|| ServerError::NotThere {
            what: "work",
            name: number.to_string(),
        })?;
        Ok(Arc::clone(job))
    }

    /// Whether work of this kind is under way for a film.
    pub(crate) fn makes(&self, film: &str, kind: &str) -> bool {
        let all = self.all.lock().unwrap_or_else(PoisonError::into_inner);
        all.values()
            .map(|j| j.document())
            .any(|j| j.state == "running" && j.film == film && j.kind == kind)
    }

    /// Whether a roll of that name is being brought in to a film.
    pub(crate) fn brings_in(&self, film: &str, roll: &str) -> bool {
        let all = self.all.lock().unwrap_or_else(PoisonError::into_inner);
        all.values()
            .map(|j| j.document())
            .any(|j| j.state == "running" && j.film == film && j.roll.as_deref() == Some(roll))
    }
}

impl Job {
    pub(crate) fn document(&self) -> JobDocument {
        self.document
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .clone()
    }

    fn change(&self, how: impl FnOnce(&mut JobDocument)) {
        how(&mut self.document.lock().unwrap_or_else(PoisonError::into_inner));
    }

    fn tell(&self) {
        self.events.tell(EventDocument::Job {
            job: Box::new(self.document()),
        });
    }

    /// Says which roll the work is at now.
    pub(crate) fn at_roll(&self, roll: &str) {
        self.forget_watched();
        self.change(|j| j.roll = Some(roll.to_owned()));
    }

    /// Says what it waits for.
    pub(crate) fn waits(&self, words: &str) {
        self.change(|j| words.clone_into(&mut j.words));
        self.tell();
    }

    /// A small picture of the roll that is being read.
    pub(crate) fn watched(&self, frame: u64) -> Option<Vec<u8>> {
        let watched = self.watched.lock().unwrap_or_else(PoisonError::into_inner);
        watched.get(&frame).cloned()
    }

    fn forget_watched(&self) {
        let mut watched = self.watched.lock().unwrap_or_else(PoisonError::into_inner);
        watched.clear();
        self.change(|j| j.pictures.clear());
    }

    fn watch(&self, frame: u64, jpeg: &[u8]) {
        let mut watched = self.watched.lock().unwrap_or_else(PoisonError::into_inner);
        if watched.len() >= MOST_WATCHED {
            return;
        }
        // A picture that cannot be made small is not worth stopping for.
        if let Ok(small) = small_picture(jpeg, (1, WATCHED_HEIGHT)) {
            watched.insert(frame, small);
            self.change(|j| j.pictures.push(frame));
        }
    }

    /// The job has ended.
    pub(crate) fn end(&self, how: Result<&(), &ServerError>) {
        self.forget_watched();
        self.change(|job| {
            job.left_seconds = None;
            match how {
                Ok(&()) => "done".clone_into(&mut job.state),
                Err(ServerError::Act(e)) if e.is_stopped() => {
                    "cancelled".clone_into(&mut job.state);
                }
                Err(problem) => {
                    "failed".clone_into(&mut job.state);
                    job.problem = Some(problem.document());
                }
            }
        });
        self.tell();
    }

    /// Somebody to tell how far the work is.
    pub(crate) fn teller(self: &Arc<Self>) -> Teller {
        Teller {
            job: Arc::clone(self),
            began: Instant::now(),
            told: None,
        }
    }
}

/// Tells the page how far a job is.
#[derive(Debug)]
pub(crate) struct Teller {
    job: Arc<Job>,
    began: Instant,
    told: Option<Instant>,
}

impl Teller {
    fn left(&self, done: u64, total: Option<u64>) -> Option<f64> {
        let spent = self.began.elapsed().as_secs_f64();
        let total = total.filter(|t| *t > done)?;
        // Before a second has gone by the rate is a guess.
        if done == 0 || spent < 1.0 {
            return None;
        }
        let left = spent / done as f64 * (total - done) as f64;
        Some((left * 10.0).round() / 10.0)
    }
}

impl Progress for Teller {
    fn begin(&mut self, words: &str, total: Option<u64>) {
        self.begin_in(FRAMES, words, total);
    }

    fn begin_in(&mut self, unit: &'static str, words: &str, total: Option<u64>) {
        self.began = Instant::now();
        self.job.change(|job| {
            words.clone_into(&mut job.words);
            unit.clone_into(&mut job.unit);
            job.total = total;
            job.done = 0;
        });
        self.job.tell();
    }

    fn at(&mut self, done: u64) {
        if self.told.is_some_and(|t| t.elapsed() < TOLD_EVERY) {
            return;
        }
        self.told = Some(Instant::now());
        let total = self.job.document().total;
        let left = self.left(done, total);
        self.job.change(|job| {
            job.done = done;
            job.left_seconds = left;
        });
        self.job.tell();
    }

    fn picture(&mut self, file_frame: u64, jpeg: &[u8]) {
        self.job.watch(file_frame, jpeg);
    }

    fn note(&mut self, words: &str) {
        self.job.change(|job| job.notes.push(words.to_owned()));
        self.job.tell();
    }
}
