//! The reels that are asked about, with all that is needed of their productions.

use std::path::{Path, PathBuf};

use onestrand_store::{Production, RollRecord, TakeRecord};

use crate::ProductionError;
use crate::error::unfit;

/// Shots shorter than so many frames show too little.
pub(super) const SHORTEST: u32 = 8;

/// One reel: a roll of a film.
#[derive(Debug, Clone)]
pub(super) struct Reel {
    /// The film's name on the shelf; empty where only one film was asked.
    pub(super) film: String,
    pub(super) dir: PathBuf,
    pub(super) record: RollRecord,
    pub(super) takes: Vec<TakeRecord>,
}

impl Reel {
    /// Its name for people: `film/R1`, or `R1` where there is one film.
    pub(super) fn name(&self) -> String {
        if self.film.is_empty() {
            return self.record.name.clone();
        }
        format!("{}/{}", self.film, self.record.name)
    }
}

/// Reels that were scanned, of one film or of several.
#[derive(Debug, Clone, Default)]
pub struct FamilyReels {
    pub(super) reels: Vec<Reel>,
}

impl FamilyReels {
    /// The scanned rolls of one film.
    ///
    /// # Errors
    /// [`ProductionError::Store`].
    pub fn of(production: &Production) -> Result<Self, ProductionError> {
        let mut reels = Self::default();
        reels.add("", production)?;
        Ok(reels)
    }

    /// Adds those of a film of a shelf.
    ///
    /// # Errors
    /// [`ProductionError::Store`].
    pub fn add(&mut self, film: &str, production: &Production) -> Result<(), ProductionError> {
        for record in production.rolls()? {
            if record.scans.is_empty() {
                continue;
            }
            self.reels.push(Reel {
                film: film.to_owned(),
                dir: production.dir().to_owned(),
                takes: production.takes_of(&record.name)?,
                record,
            });
        }
        Ok(())
    }

    /// Leaves only the reels named, `R1` or `film/R1`; all where none is.
    ///
    /// # Errors
    /// [`ProductionError::Unfit`] when one is not there.
    pub fn only(mut self, names: &[String]) -> Result<Self, ProductionError> {
        for name in names {
            self.number(name)?;
        }
        if !names.is_empty() {
            self.reels.retain(|reel| names.contains(&reel.name()));
        }
        Ok(self)
    }

    /// The names of all reels.
    #[must_use]
    pub fn names(&self) -> Vec<String> {
        self.reels.iter().map(Reel::name).collect()
    }

    pub(super) fn number(&self, name: &str) -> Result<usize, ProductionError> {
        let is = |reel: &Reel| reel.name() == name;
        self.reels.iter().position(is).ok_or_else(|| {
            unfit(
                format!("there is no scanned reel {name}"),
                "name one of the reels that were brought in: R1, or on a shelf film/R1",
            )
        })
    }
}

/// Where a folder is a shelf: the films on it, by name.
///
/// # Errors
/// [`ProductionError::File`] when it cannot be looked into.
pub(super) fn films_on(shelf: &Path) -> Result<Vec<(String, PathBuf)>, ProductionError> {
    let entries = std::fs::read_dir(shelf).map_err(crate::error::file("look into", shelf))?;
    let mut films: Vec<(String, PathBuf)> = entries
        .flatten()
        .map(|entry| {
            (
                entry.file_name().to_string_lossy().into_owned(),
                entry.path(),
            )
        })
        .filter(|(_, dir)| Production::is_here(dir))
        .collect();
    films.sort();
    Ok(films)
}

impl FamilyReels {
    /// The scanned rolls of a film, or of all films of a shelf.
    ///
    /// # Errors
    /// [`ProductionError::Unfit`] when neither is there or nothing was scanned;
    /// [`ProductionError::Store`].
    pub fn in_folder(dir: &Path) -> Result<Self, ProductionError> {
        let mut reels = Self::default();
        if Production::is_here(dir) {
            reels = Self::of(&Production::open(dir)?)?;
        } else {
            for (film, dir) in films_on(dir)? {
                reels.add(&film, &Production::open(&dir)?)?;
            }
        }
        reels.are_there()
    }

    /// The reels, when there are any.
    ///
    /// # Errors
    /// [`ProductionError::Unfit`] when nothing was scanned.
    pub fn are_there(self) -> Result<Self, ProductionError> {
        if self.reels.is_empty() {
            return Err(unfit(
                "no reel has been scanned yet, so there is nothing to look at".to_owned(),
                "bring in the scans of the reels first",
            ));
        }
        Ok(self)
    }
}
