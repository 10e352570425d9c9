//! Twins found by the pictures, kept beside the workprints: they can be found again.

use std::io::Write as _;
use std::path::{Path, PathBuf};

use onestrand_store::TakeRecord;
use onestrand_twins::{FoundMap, TimeMap};
use serde::{Deserialize, Serialize};

use crate::ProductionError;
use crate::error::file;

/// The form of the file; another is thrown away and the twins are sought anew.
const FORM: u32 = 1;

/// A take whose pictures were looked at.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct SeenTake {
    pub(super) roll: String,
    /// The word for the pictures that were looked at.
    pub(super) pictures: String,
    pub(super) first: u32,
    pub(super) thrown: u32,
}

impl SeenTake {
    pub(super) fn of(take: &TakeRecord, pictures: &str) -> Self {
        Self {
            roll: take.roll.clone(),
            pictures: pictures.to_owned(),
            first: take.first,
            thrown: take.thrown,
        }
    }

    /// Whether it is this take as it is divided now.
    pub(super) fn is(&self, take: &TakeRecord) -> bool {
        (&self.roll, self.first, self.thrown) == (&take.roll, take.first, take.thrown)
    }
}

/// Two takes that were laid beside each other.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(super) struct SeenPair {
    pub(super) here: SeenTake,
    pub(super) there: SeenTake,
    /// The map; nothing where they were not found to show the same.
    found: Option<KeptMap>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
struct KeptMap {
    first: u32,
    places: Vec<i64>,
    uncertain: Vec<f64>,
    strength: f64,
}

impl SeenPair {
    pub(super) fn new(here: SeenTake, there: SeenTake, map: Option<&TimeMap>) -> Self {
        let found = map.and_then(TimeMap::to_found).map(|found| KeptMap {
            first: found.first,
            places: found.places,
            // A hundredth of a frame is finer than it is known.
            uncertain: found
                .uncertain
                .iter()
                .map(|u| (u * 100.0).round() / 100.0)
                .collect(),
            strength: found.strength,
        });
        Self { here, there, found }
    }

    /// The map from the first take to the second.
    pub(super) fn map(&self) -> Option<TimeMap> {
        let kept = self.found.as_ref()?;
        let found = FoundMap {
            first: kept.first,
            places: kept.places.clone(),
            uncertain: kept.uncertain.clone(),
            strength: kept.strength,
        };
        TimeMap::of_found(&found).ok()
    }
}

/// All pairs of takes that were looked at.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub(super) struct FoundTwins {
    form: u32,
    pub(super) pairs: Vec<SeenPair>,
}

fn path(dir: &Path) -> PathBuf {
    dir.join("workprints").join("twins.json")
}

impl FoundTwins {
    /// Whether anybody has looked for twins of this film.
    pub(super) fn is_there(dir: &Path) -> bool {
        path(dir).is_file()
    }

    /// What was found so far; nothing where the file is not there, is damaged or is of
    /// another form.
    pub(super) fn read(dir: &Path) -> Self {
        let read = std::fs::read(path(dir)).ok();
        let found: Option<Self> = read.and_then(|bytes| serde_json::from_slice(&bytes).ok());
        found.filter(|one| one.form == FORM).unwrap_or_default()
    }

    /// Keeps it in the place of what was kept before.
    pub(super) fn write(&mut self, dir: &Path) -> Result<(), ProductionError> {
        self.form = FORM;
        let to = path(dir);
        let part = to.with_extension("json.part");
        let write = || -> std::io::Result<()> {
            if let Some(folder) = to.parent() {
                std::fs::create_dir_all(folder)?;
            }
            let mut into = std::fs::File::create(&part)?;
            serde_json::to_writer(&mut into, self)?;
            into.flush()?;
            into.sync_all()?;
            std::fs::rename(&part, &to)
        };
        write().map_err(file("keep what was found of twins", &to))
    }

    /// Whether these two were looked at, in either order.
    pub(super) fn knows(&self, here: &SeenTake, there: &SeenTake) -> bool {
        let is = |pair: &SeenPair| {
            (&pair.here, &pair.there) == (here, there) || (&pair.there, &pair.here) == (here, there)
        };
        self.pairs.iter().any(is)
    }
}
