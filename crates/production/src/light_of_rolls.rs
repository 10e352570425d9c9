//! How light the rolls of a film are, for the questions of continuity.
//!
//! Each frame was measured once, when its roll was read. Here the measures are
//! fetched once more from beside the workprint and then kept in memory, since the
//! check is asked after every change of a cut: it looks at no picture.

use std::cell::{OnceCell, RefCell};
use std::collections::HashMap;
use std::ops::Range;
use std::path::{Path, PathBuf};
use std::sync::{Arc, LazyLock, Mutex, PoisonError};

use onestrand_cut::LightMeasure;
use onestrand_film::Span;
use onestrand_signs::{RollLight, SignRecord};
use onestrand_store::{Production, Workprints};

/// Frames that are looked at on each side of a join: half a second at 18 a second.
/// A flash of the camera's start, or a flicker, is fewer.
const BESIDE: u32 = 9;

/// Rolls that are kept in memory, each of some 90 thousand bytes. A film has fewer.
const MOST: usize = 256;

/// A roll of a film in a folder.
type Place = (PathBuf, String);

/// What was fetched, and of which workprint. Nothing is kept of a workprint that
/// has no measures, so that it is not asked again either.
struct Fetched {
    workprint: String,
    light: Option<Arc<RollLight>>,
}

static FETCHED: LazyLock<Mutex<HashMap<Place, Fetched>>> = LazyLock::new(Mutex::default);

/// How light the rolls of a film are, as they were last read.
#[derive(Debug)]
pub(crate) struct LightOfRolls {
    dir: PathBuf,
    /// Opened when the first two views of one setup are met.
    prints: OnceCell<Option<Workprints>>,
    /// What was found of each roll: a check asks for the same few hundreds of times.
    found: RefCell<HashMap<String, Option<Arc<RollLight>>>>,
}

impl LightOfRolls {
    pub(crate) fn of(production: &Production) -> Self {
        Self {
            dir: production.dir().to_owned(),
            prints: OnceCell::new(),
            found: RefCell::default(),
        }
    }

    /// A roll's light, fetched once.
    pub(crate) fn roll(&self, name: &str) -> Option<Arc<RollLight>> {
        if let Some(found) = self.found.borrow().get(name) {
            return found.clone();
        }
        let light = self.fetched(name);
        let mut found = self.found.borrow_mut();
        found.insert(name.to_owned(), light.clone());
        light
    }

    /// A roll's light; nothing where there is no workprint, or where it was made by
    /// an older program. What cannot be read raises no question either.
    fn fetched(&self, name: &str) -> Option<Arc<RollLight>> {
        let open = || Workprints::open(&self.dir).ok();
        let prints = self.prints.get_or_init(open).as_ref()?;
        let workprint = prints.identity(name).ok()??;
        if let Some(known) = known(&self.dir, name, &workprint) {
            return known;
        }
        let record = prints.signs(name).ok()?;
        let record = record.and_then(|bytes| SignRecord::from_bytes(&bytes));
        let light = record.map(|record| Arc::new(record.light()));
        let fetched = Fetched {
            workprint,
            light: light.clone(),
        };
        keep((self.dir.clone(), name.to_owned()), fetched);
        light
    }
}

/// What is known of a workprint: that it has a light, or that it has none.
fn known(dir: &Path, roll: &str, workprint: &str) -> Option<Option<Arc<RollLight>>> {
    let fetched = FETCHED.lock().unwrap_or_else(PoisonError::into_inner);
    let found = fetched.get(&(dir.to_owned(), roll.to_owned()))?;
    (found.workprint == workprint).then(|| found.light.clone())
}

fn keep(place: Place, fetched: Fetched) {
    let mut all = FETCHED.lock().unwrap_or_else(PoisonError::into_inner);
    if all.len() >= MOST {
        all.clear();
    }
    all.insert(place, fetched);
}

impl LightMeasure for LightOfRolls {
    fn step(&self, end_of: &Span, beginning_of: &Span) -> Option<f64> {
        let light = |span: &Span, frames| self.roll(span.roll.as_str())?.over(frames);
        let before = light(end_of, last_frames(end_of))?;
        let after = light(beginning_of, first_frames(beginning_of))?;
        before.step_to(&after).map(f64::from)
    }
}

fn first_frames(span: &Span) -> Range<u32> {
    let (begin, end) = (span.range.begin().index(), span.range.end().index());
    begin..end.min(begin.saturating_add(BESIDE))
}

fn last_frames(span: &Span) -> Range<u32> {
    let (begin, end) = (span.range.begin().index(), span.range.end().index());
    begin.max(end.saturating_sub(BESIDE))..end
}
