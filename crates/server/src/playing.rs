//! Mixes that are being heard: kept open, so that the next piece goes on where the last
//! one stopped.

use std::collections::HashMap;
use std::sync::{Arc, Mutex, PoisonError};

use onestrand_production::MixSet;
use onestrand_sound::{MixRun, Stripe};

use crate::problem::ServerError;

/// A mix that is being heard.
#[derive(Debug)]
pub(crate) struct Playing {
    pub(crate) set: MixSet,
    pub(crate) run: MixRun,
    pub(crate) stripe: Option<Stripe>,
    /// The name of what is heard, if whoever listens said one.
    heard: Option<String>,
}

/// How many are kept open.
const MOST: usize = 4;

/// The mixes that are being heard, by film and version.
#[derive(Debug, Default)]
pub(crate) struct PlayingMixes(Mutex<HashMap<String, Arc<Mutex<Option<Playing>>>>>);

impl PlayingMixes {
    /// Does something with the mix of that name; opened anew where anything that is heard
    /// has changed. Who says by name what is heard, and says the same as before, is not
    /// waited for: the film need not be asked.
    pub(crate) fn with<T>(
        &self,
        name: &str,
        heard: Option<String>,
        set: impl FnOnce() -> Result<MixSet, ServerError>,
        hear: impl FnOnce(&mut Playing) -> Result<T, onestrand_production::ProductionError>,
    ) -> Result<T, ServerError> {
        let slot = {
            let mut all = self.0.lock().unwrap_or_else(PoisonError::into_inner);
            if all.len() >= MOST && !all.contains_key(name) {
                all.clear();
            }
            Arc::clone(all.entry(name.to_owned()).or_default())
        };
        let mut playing = slot.lock().unwrap_or_else(PoisonError::into_inner);
        let known = |playing: &Playing| heard.is_some() && playing.heard == heard;
        if !playing.as_ref().is_some_and(known) {
            let set = set()?;
            match playing.as_mut().filter(|playing| playing.set == set) {
                Some(playing) => playing.heard = heard,
                None => {
                    let run = set.run()?;
                    let stripe = None;
                    *playing = Some(Playing {
                        set,
                        run,
                        stripe,
                        heard,
                    });
                }
            }
        }
        match playing.as_mut() {
            Some(playing) => Ok(hear(playing)?),
            None => Err(ServerError::Unreadable {
                why: "no mix".to_owned(),
            }),
        }
    }
}
