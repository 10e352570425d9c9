//! One film that this server owns: the one place where it is read and changed.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};

use onestrand_production::documents::{CutDocument, RollLogDocument};
use onestrand_production::{
    FilmChange, FilmPart, LastTouched, MatchMemory, Production, ProductionError, SketchMemory,
    cut_document, parts_touched, roll_log, sweep_recordings,
};
use onestrand_store::{Act, Stepped, Workprints};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::copies;
use crate::events::{EventDocument, Events};
use crate::listening::Listened;
use crate::printing::Press;
use crate::problem::ServerError;
use crate::routes::ReadBack;

/// A film on the bench.
#[derive(Debug)]
pub(crate) struct Desk {
    pub(crate) film: String,
    dir: PathBuf,
    // Taken in this order where both are: production, then prints.
    production: Mutex<Production>,
    prints: Mutex<Workprints>,
    // Small pictures take time to make; the player does not wait for them.
    small_prints: Mutex<Workprints>,
    touched: Mutex<LastTouched>,
    pub(crate) press: Press,
    /// Takes that were laid beside each other lately.
    pub(crate) matched: Mutex<MatchMemory>,
    /// What the frames of the rolls are known by; held while a strip or a reel is looked at.
    pub(crate) sketches: Mutex<SketchMemory>,
    /// What strips and reels were found to be lately, by the number of the work.
    pub(crate) read_back: Mutex<BTreeMap<u64, ReadBack>>,
    /// What was found in sounds lately.
    pub(crate) listened: Listened,
    /// Held by whoever looks for twins.
    pub(crate) searching: Mutex<()>,
    events: Events,
}

/// A change that a window asks for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub(crate) struct ChangeRequest {
    /// A name of the window's own for this change: sent again under the same
    /// name, it is carried out once.
    pub key: String,
    /// The revision of what the window showed when the change was made.
    pub revision: u64,
    /// The change.
    pub change: FilmChange,
}

/// A step back or forth in the journal.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub(crate) struct StepRequest {
    /// A name of the window's own for this step.
    pub key: String,
}

/// That a change is kept, on the disk.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub(crate) struct KeptDocument {
    /// The revision it led to.
    pub revision: u64,
    /// Whether it was kept before, and nothing was done now.
    pub already: bool,
    /// What was done, in words.
    pub words: String,
    /// The version as it stands now, where one was touched.
    pub cut: Option<CutDocument>,
    /// The roll with its log as it stands now, where one was touched.
    pub roll: Option<RollLogDocument>,
    /// What the next undo takes back.
    pub undo: Option<String>,
    /// What the next redo makes again.
    pub redo: Option<String>,
}

/// The longest name a window may give a change.
const LONGEST_KEY: usize = 100;

impl Desk {
    /// Takes a film into this server's hand.
    ///
    /// # Errors
    /// [`ServerError::Act`] when another program owns it, or it is damaged.
    pub(crate) fn open(
        film: &str,
        production: Production,
        events: Events,
    ) -> Result<Self, ServerError> {
        let dir = production.dir().to_owned();
        Workprints::sweep(&dir)?;
        copies::sweep(&dir);
        sweep_recordings(&dir);
        let prints = Workprints::open(&dir)?;
        let touched = LastTouched::of(&production.lately()?);
        Ok(Self {
            film: film.to_owned(),
            production: Mutex::new(production),
            prints: Mutex::new(prints),
            small_prints: Mutex::new(Workprints::open(&dir)?),
            touched: Mutex::new(touched),
            press: Press::default(),
            matched: Mutex::default(),
            sketches: Mutex::default(),
            read_back: Mutex::default(),
            listened: Listened::default(),
            searching: Mutex::default(),
            dir,
            events,
        })
    }

    /// Its folder.
    pub(crate) fn dir(&self) -> &Path {
        &self.dir
    }

    /// The production. A request that panicked has not harmed it: acts are
    /// whole, in one transaction each.
    pub(crate) fn production(&self) -> MutexGuard<'_, Production> {
        self.production
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
    }

    /// Its workprints.
    pub(crate) fn prints(&self) -> MutexGuard<'_, Workprints> {
        self.prints.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Its workprints once more, for small pictures.
    pub(crate) fn small_prints(&self) -> MutexGuard<'_, Workprints> {
        self.small_prints
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
    }

    /// A roll has been read: pictures held open before are no longer its own.
    pub(crate) fn forget_pictures(&self, roll: &str) {
        self.prints().forget(roll);
        self.small_prints().forget(roll);
    }

    /// Carries a change out, unless what it touches has changed meanwhile.
    ///
    /// # Errors
    /// [`ServerError::Stale`], or what refuses the change.
    pub(crate) fn change(&self, request: &ChangeRequest) -> Result<KeptDocument, ServerError> {
        self.change_by(request, "")
    }

    /// The same for whoever asks: the name of a tablet, which stands beside what is
    /// written down at the bench; empty for the main machine.
    ///
    /// # Errors
    /// As [`Desk::change`].
    pub(crate) fn change_by(
        &self,
        request: &ChangeRequest,
        by: &str,
    ) -> Result<KeptDocument, ServerError> {
        sound_key(&request.key)?;
        let mut production = self.production();
        if let Some(kept) = production.kept(&request.key)? {
            return self.answer(&production, kept);
        }
        let parts = request.change.parts();
        let now = production.revision()?.number();
        if self.touched().since(request.revision, &parts) || request.revision > now {
            return Err(ServerError::Stale {
                seen: request.revision,
                now,
            });
        }
        let (words, act) = match &request.change {
            FilmChange::AtTheBench(write) => write.act(&production, by)?,
            other => other.act(&production)?,
        };
        let touched = act.touches();
        let kept = production.act_once(&request.key, &words, &act)?;
        let stepped = Stepped {
            words,
            touched,
            revision: kept.revision,
            already: kept.already,
        };
        // The change knows more closely than its act what another window must
        // have seen; what another must ask for anew, the act knows.
        self.touched().note(parts, stepped.revision.number());
        self.tell(&stepped);
        self.answer(&production, stepped)
    }

    /// Carries out what was made outside a change of the page, such as a sound that came.
    ///
    /// # Errors
    /// [`ServerError::Act`].
    pub(crate) fn act(&self, words: &str, act: &Act) -> Result<KeptDocument, ServerError> {
        let mut production = self.production();
        let revision = production.act(words, act)?;
        let stepped = Stepped {
            words: words.to_owned(),
            touched: act.touches(),
            revision,
            already: false,
        };
        let parts = parts_touched(&stepped.touched);
        self.touched().note(parts, stepped.revision.number());
        self.tell(&stepped);
        self.answer(&production, stepped)
    }

    /// Undoes the last change, or makes the last undone one again.
    ///
    /// # Errors
    /// [`ServerError::Act`] when there is nothing to.
    pub(crate) fn step(&self, key: &str, way: Way) -> Result<KeptDocument, ServerError> {
        sound_key(key)?;
        let mut production = self.production();
        let stepped = match way {
            Way::Back => production.undo_once(Some(key))?,
            Way::Forth => production.redo_once(Some(key))?,
        };
        if !stepped.already {
            let parts = parts_touched(&stepped.touched);
            self.touched().note(parts, stepped.revision.number());
            self.tell(&stepped);
        }
        self.answer(&production, stepped)
    }

    /// Tells all windows of a change that was made on the production directly.
    pub(crate) fn was_changed(&self, production: &Production, words: &str, parts: Vec<FilmPart>) {
        let Ok(revision) = production.revision() else {
            return;
        };
        self.touched().note(parts.clone(), revision.number());
        self.events.tell(EventDocument::Changed {
            film: self.film.clone(),
            revision: revision.number(),
            words: words.to_owned(),
            parts: parts.iter().map(Into::into).collect(),
        });
    }

    fn touched(&self) -> MutexGuard<'_, LastTouched> {
        self.touched.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn tell(&self, stepped: &Stepped) {
        self.events.tell(EventDocument::Changed {
            film: self.film.clone(),
            revision: stepped.revision.number(),
            words: stepped.words.clone(),
            parts: parts_touched(&stepped.touched)
                .iter()
                .map(Into::into)
                .collect(),
        });
    }

    fn answer(
        &self,
        production: &Production,
        stepped: Stepped,
    ) -> Result<KeptDocument, ServerError> {
        let mut cut = None;
        let mut roll = None;
        for part in parts_touched(&stepped.touched) {
            match part {
                FilmPart::Cut(name) => cut = there(cut_document(production, &name))?,
                FilmPart::Takes(name) | FilmPart::Roll(name) => {
                    roll = there(roll_log(production, &self.prints(), &name))?;
                }
                _ => {}
            }
        }
        Ok(KeptDocument {
            revision: stepped.revision.number(),
            already: stepped.already,
            words: stepped.words,
            cut,
            roll,
            undo: production.next_undo()?,
            redo: production.next_redo()?,
        })
    }
}

/// Which way in the journal.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Way {
    /// Undo.
    Back,
    /// Redo.
    Forth,
}

/// What was asked for, or nothing where it is no longer there.
fn there<T>(found: Result<T, ProductionError>) -> Result<Option<T>, ServerError> {
    match found {
        Ok(document) => Ok(Some(document)),
        Err(ProductionError::Store(onestrand_store::StoreError::NotFound { .. })) => Ok(None),
        Err(problem) => Err(problem.into()),
    }
}

fn sound_key(key: &str) -> Result<(), ServerError> {
    // Keys that begin with # are the store's own.
    if (1..=LONGEST_KEY).contains(&key.len()) && !key.starts_with('#') {
        return Ok(());
    }
    Err(ServerError::Unreadable {
        why: format!("a change has a key of 1 to {LONGEST_KEY} letters that begins with no #"),
    })
}
