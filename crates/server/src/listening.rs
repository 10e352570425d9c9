//! Sounds listened to while the page goes on working, and what was found in them lately.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

use onestrand_production::Listening;
use onestrand_production::documents::ListenedDocument;

use crate::desk::Desk;
use crate::house::House;
use crate::jobs::JobDocument;
use crate::problem::ServerError;
use crate::reading::beside;

/// What was found lately, by the number of the work that found it.
#[derive(Debug, Default)]
pub(crate) struct Listened(Mutex<BTreeMap<u64, ListenedDocument>>);

/// How many findings are kept: windows ask for theirs at once.
const KEPT: usize = 20;

impl Listened {
    fn keep(&self, job: u64, found: ListenedDocument) {
        let mut all = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        all.insert(job, found);
        while all.len() > KEPT {
            all.pop_first();
        }
    }

    /// What a piece of work found.
    ///
    /// # Errors
    /// [`ServerError::NotThere`] while it is under way, and when it is long ago.
    pub(crate) fn of(&self, job: u64) -> Result<ListenedDocument, ServerError> {
        let all = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        all.get(&job).cloned().ok_or_else(|| ServerError::NotThere {
            what: "finding of work",
            name: job.to_string(),
        })
    }
}

/// Begins to listen.
pub(crate) fn begin_listening(
    house: &Arc<House>,
    desk: &Arc<Desk>,
    listening: Listening,
) -> JobDocument {
    let words = "listening";
    let job = house.jobs.begin("listen", &desk.film, None, words);
    let document = job.document();
    let (desk, running) = (Arc::clone(desk), Arc::clone(&job));
    beside(words, &job, move || {
        let found = listening.listen(&running.cancel, &mut running.teller())?;
        desk.listened.keep(running.document().job, found);
        Ok(())
    });
    document
}
