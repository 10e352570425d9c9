//! How far long work is, told to whoever waits.

use onestrand_store::{JobId, Production};

/// Told how far long work is.
pub trait Progress {
    /// A piece of work begins: what it is, and how many frames it has, if known.
    fn begin(&mut self, words: &str, total: Option<u64>);
    /// The same for work that is counted in something else than frames.
    fn begin_in(&mut self, _unit: &'static str, words: &str, total: Option<u64>) {
        self.begin(words, total);
    }
    /// So many frames, or whatever is counted, are done.
    fn at(&mut self, frames: u64);
    /// Something the user should know.
    fn note(&mut self, words: &str);
    /// A picture of the roll that is being read, now and then, as a JPEG, for
    /// whoever wants to watch. It is counted in frames of its files: which film
    /// frame it shows may not be known yet.
    fn picture(&mut self, _file_frame: u64, _jpeg: &[u8]) {}
}

/// Tells nobody.
#[derive(Debug, Clone, Copy, Default)]
pub struct Quiet;

impl Progress for Quiet {
    fn begin(&mut self, _words: &str, _total: Option<u64>) {}
    fn at(&mut self, _frames: u64) {}
    fn note(&mut self, _words: &str) {}
}

/// Tells the user, and writes into the production now and then how far a job
/// is, so that whoever looks at it from outside can see.
pub(crate) struct JobProgress<'a> {
    production: &'a Production,
    job: JobId,
    total: u64,
    told: &'a mut dyn Progress,
}

/// Frames between two notes in the production: some tens of seconds at most.
const NOTED_EVERY: u64 = 400;

impl<'a> JobProgress<'a> {
    pub(crate) fn new(production: &'a Production, job: JobId, told: &'a mut dyn Progress) -> Self {
        Self {
            production,
            job,
            total: 0,
            told,
        }
    }
}

impl Progress for JobProgress<'_> {
    fn begin(&mut self, words: &str, total: Option<u64>) {
        self.total = total.unwrap_or(0);
        self.told.begin(words, total);
    }

    fn at(&mut self, frames: u64) {
        if frames.is_multiple_of(NOTED_EVERY) {
            // A note that could not be written is no reason to stop the work.
            let _noted = self.production.job_progress(self.job, frames, self.total);
        }
        self.told.at(frames);
    }

    fn note(&mut self, words: &str) {
        self.told.note(words);
    }

    fn picture(&mut self, file_frame: u64, jpeg: &[u8]) {
        self.told.picture(file_frame, jpeg);
    }
}
