//! Long work: stored, so that it is known after a kill what was under way.

use rusqlite::{OptionalExtension, Row};

use crate::production::now;
use crate::{Production, StoreError};

/// The number of a job.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct JobId(pub(crate) i64);

impl JobId {
    /// The plain number.
    #[must_use]
    pub const fn number(self) -> i64 {
        self.0
    }
}

/// What a job does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum JobKind {
    /// Reads the scans of a roll.
    Read,
    /// Makes the digital finish of a cut.
    Finish,
}

impl JobKind {
    const ALL: [Self; 2] = [Self::Read, Self::Finish];

    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Read => "read",
            Self::Finish => "finish",
        }
    }
}

/// How a job stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum JobState {
    /// Under way in the process that owns the production.
    Running,
    /// Its process ended before it did; it is begun again.
    Interrupted,
    /// Done.
    Done,
    /// Stopped by the user.
    Cancelled,
    /// Could not be done.
    Failed,
}

impl JobState {
    const ALL: [Self; 5] = [
        Self::Running,
        Self::Interrupted,
        Self::Done,
        Self::Cancelled,
        Self::Failed,
    ];

    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Running => "running",
            Self::Interrupted => "interrupted",
            Self::Done => "done",
            Self::Cancelled => "cancelled",
            Self::Failed => "failed",
        }
    }
}

/// One job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Job {
    /// Its number.
    pub id: JobId,
    /// What it does.
    pub kind: JobKind,
    /// The same in words.
    pub words: String,
    /// All that is needed to begin it again, as JSON.
    pub params: String,
    /// How it stands.
    pub state: JobState,
    /// Frames done.
    pub done: u64,
    /// Frames in all, 0 while not known.
    pub total: u64,
    /// Why it failed.
    pub problem: Option<String>,
    /// When it ended, in UTC.
    pub ended: Option<String>,
}

const COLUMNS: &str = "id, kind, words, params, state, done, total, problem, ended";

impl Production {
    /// Writes down that a job begins.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn begin_job(&self, kind: JobKind, words: &str, params: &str) -> Result<JobId, StoreError> {
        self.db.execute(
            "INSERT INTO job (kind, words, params, state, started) VALUES (?1,?2,?3,'running',?4)",
            (kind.word(), words, params, now()),
        )?;
        Ok(JobId(self.db.last_insert_rowid()))
    }

    /// Writes down that an interrupted job is begun again.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn resume_job(&self, id: JobId) -> Result<(), StoreError> {
        self.db.execute(
            "UPDATE job SET state = 'running', done = 0 WHERE id = ?1",
            [id.0],
        )?;
        Ok(())
    }

    /// Writes down how far a job is. Unit: frames.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn job_progress(&self, id: JobId, done: u64, total: u64) -> Result<(), StoreError> {
        let signed = |n: u64| i64::try_from(n).unwrap_or(i64::MAX);
        self.db
            .prepare_cached("UPDATE job SET done = ?2, total = ?3 WHERE id = ?1")?
            .execute((id.0, signed(done), signed(total)))?;
        Ok(())
    }

    /// Writes down how a job ended.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn end_job(
        &self,
        id: JobId,
        state: JobState,
        problem: Option<&str>,
    ) -> Result<(), StoreError> {
        self.db.execute(
            "UPDATE job SET state = ?2, ended = ?3, problem = ?4 WHERE id = ?1",
            (id.0, state.word(), now(), problem),
        )?;
        Ok(())
    }

    /// All jobs, newest first.
    ///
    /// # Errors
    /// [`StoreError::Sql`] or [`StoreError::Unreadable`].
    pub fn jobs(&self) -> Result<Vec<Job>, StoreError> {
        let query = format!("SELECT {COLUMNS} FROM job ORDER BY id DESC");
        let mut query = self.db.prepare(&query)?;
        let rows = query.query_map([], read)?;
        rows.map(|row| row?.job()).collect()
    }

    /// The jobs that a killed process left behind, oldest first.
    ///
    /// # Errors
    /// [`StoreError::Sql`] or [`StoreError::Unreadable`].
    pub fn interrupted_jobs(&self) -> Result<Vec<Job>, StoreError> {
        let mut jobs = self.jobs()?;
        jobs.retain(|j| j.state == JobState::Interrupted);
        jobs.reverse();
        Ok(jobs)
    }

    /// One job.
    ///
    /// # Errors
    /// [`StoreError::NotFound`], [`StoreError::Sql`] or [`StoreError::Unreadable`].
    pub fn job(&self, id: JobId) -> Result<Job, StoreError> {
        let query = format!("SELECT {COLUMNS} FROM job WHERE id = ?1");
        let found = self.db.query_row(&query, [id.0], read).optional()?;
        let missing = || StoreError::NotFound {
            what: "job",
            name: id.0.to_string(),
        };
        found.ok_or_else(missing)?.job()
    }

    /// This process owns the production, so whatever was running is not.
    pub(crate) fn mark_interrupted_jobs(&self) -> Result<(), StoreError> {
        self.db.execute(
            "UPDATE job SET state = 'interrupted' WHERE state = 'running'",
            [],
        )?;
        Ok(())
    }
}

struct JobRow {
    id: i64,
    kind: String,
    words: String,
    params: String,
    state: String,
    done: i64,
    total: i64,
    problem: Option<String>,
    ended: Option<String>,
}

fn read(row: &Row<'_>) -> rusqlite::Result<JobRow> {
    Ok(JobRow {
        id: row.get(0)?,
        kind: row.get(1)?,
        words: row.get(2)?,
        params: row.get(3)?,
        state: row.get(4)?,
        done: row.get(5)?,
        total: row.get(6)?,
        problem: row.get(7)?,
        ended: row.get(8)?,
    })
}

impl JobRow {
    fn job(self) -> Result<Job, StoreError> {
        let kind = JobKind::ALL.into_iter().find(|k| k.word() == self.kind);
        let state = JobState::ALL.into_iter().find(|s| s.word() == self.state);
        Ok(Job {
            id: JobId(self.id),
            kind: kind.ok_or_else(|| StoreError::unreadable("a kind of job", &self.kind))?,
            state: state.ok_or_else(|| StoreError::unreadable("a state of a job", &self.state))?,
            words: self.words,
            params: self.params,
            done: u64::try_from(self.done).unwrap_or(0),
            total: u64::try_from(self.total).unwrap_or(0),
            problem: self.problem,
            ended: self.ended,
        })
    }
}
