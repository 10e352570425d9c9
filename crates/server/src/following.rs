//! Projectors that are followed while the mix runs, one for each window that runs it.

use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};

use onestrand_production::FollowedRun;

/// How many are held; with one more the oldest is let go.
const MOST: usize = 8;

#[derive(Debug)]
struct Held {
    film: String,
    run: String,
    followed: Arc<Mutex<FollowedRun>>,
}

/// The runs that are followed, the newest last.
#[derive(Debug, Default)]
pub(crate) struct Runs(Mutex<(u64, VecDeque<Held>)>);

impl Runs {
    /// Holds a run and gives its name.
    pub(crate) fn hold(&self, film: &str, followed: FollowedRun) -> String {
        let mut held = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        held.0 += 1;
        let run = format!("run-{}", held.0);
        held.1.push_back(Held {
            film: film.to_owned(),
            run: run.clone(),
            followed: Arc::new(Mutex::new(followed)),
        });
        while held.1.len() > MOST {
            held.1.pop_front();
        }
        run
    }

    /// A run of a film.
    pub(crate) fn find(&self, film: &str, run: &str) -> Option<Arc<Mutex<FollowedRun>>> {
        let held = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let found = held.1.iter().find(|one| one.film == film && one.run == run);
        found.map(|one| Arc::clone(&one.followed))
    }
}
