//! The shelf: a folder of productions, and those that lie open.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use onestrand_production::{Meta, Production, new_production};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::desk::Desk;
use crate::events::{EventDocument, Events};
use crate::problem::ServerError;

/// The folder of the example on a shelf.
pub(crate) const EXAMPLE: &str = "the-ten-past-boat";

/// A film on the shelf.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub(crate) struct ShelvedDocument {
    /// Its name in addresses: its folder on the shelf.
    pub film: String,
    /// Its title.
    pub title: String,
    /// Its gauge in words.
    pub gauge: String,
    /// Its running speed.
    pub speed: String,
    /// Rolls.
    pub rolls: u32,
    /// Film frames on them.
    pub frames: u64,
    /// Versions of the cut.
    pub cuts: u32,
    /// When it was changed last, in UTC.
    pub changed: Option<String>,
    /// Its folder.
    pub dir: String,
    /// Why it cannot be opened, if so.
    pub problem: Option<String>,
}

/// A film to be begun.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub(crate) struct NewFilm {
    /// The working title.
    pub title: String,
    /// `regular8`, `super8`, `9.5`, `16` or `35`.
    pub gauge: String,
    /// Frames a second: `18`, `50/3`, `24000/1001`.
    pub speed: String,
}

/// The shelf.
#[derive(Debug)]
pub(crate) struct Shelf {
    dir: PathBuf,
    open: Mutex<BTreeMap<String, Arc<Desk>>>,
    events: Events,
}

/// The longest title.
const LONGEST_TITLE: usize = 200;

impl Shelf {
    pub(crate) fn new(dir: PathBuf, events: Events) -> Self {
        Self {
            dir,
            open: Mutex::new(BTreeMap::new()),
            events,
        }
    }

    pub(crate) fn dir(&self) -> &Path {
        &self.dir
    }

    /// Every production on the shelf, by title.
    pub(crate) fn films(&self) -> Result<Vec<ShelvedDocument>, ServerError> {
        let entries = match std::fs::read_dir(&self.dir) {
            Ok(entries) => entries,
            Err(problem) if problem.kind() == std::io::ErrorKind::NotFound => {
                return Ok(Vec::new());
            }
            Err(source) => return Err(file("look at the shelf", source, &self.dir)),
        };
        let mut films = Vec::new();
        for entry in entries.flatten() {
            let dir = entry.path();
            let name = entry.file_name().to_string_lossy().into_owned();
            if Production::is_here(&dir) {
                films.push(shelved(&name, &dir));
            }
        }
        films.sort_by(|a, b| a.title.cmp(&b.title).then_with(|| a.film.cmp(&b.film)));
        Ok(films)
    }

    /// A film, taken into this server's hand if it is not yet.
    ///
    /// # Errors
    /// [`ServerError::NotThere`]; [`ServerError::Act`] when another program
    /// owns it or it is damaged.
    pub(crate) fn film(&self, name: &str) -> Result<(Arc<Desk>, Opened), ServerError> {
        let mut open = self.open.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(desk) = open.get(name) {
            return Ok((Arc::clone(desk), Opened::Before));
        }
        let dir = self.place(name)?;
        if !Production::is_here(&dir) {
            return Err(ServerError::NotThere {
                what: "film",
                name: name.to_owned(),
            });
        }
        let desk = Desk::open(name, Production::open(&dir)?, self.events.clone())?;
        let desk = Arc::new(desk);
        open.insert(name.to_owned(), Arc::clone(&desk));
        Ok((desk, Opened::Now))
    }

    /// Begins a film.
    ///
    /// # Errors
    /// [`ServerError::Act`] when a word does not fit.
    pub(crate) fn begin(&self, new: &NewFilm) -> Result<ShelvedDocument, ServerError> {
        let title = new.title.trim().to_owned();
        if title.chars().count() > LONGEST_TITLE {
            return Err(ServerError::Unreadable {
                why: format!("a title has up to {LONGEST_TITLE} letters"),
            });
        }
        let unit = |e| ServerError::Act(onestrand_production::ProductionError::Unit(e));
        let meta = Meta {
            gauge: new.gauge.parse().map_err(unit)?,
            speed: new.speed.parse().map_err(unit)?,
            title,
        };
        let mut open = self.open.lock().unwrap_or_else(PoisonError::into_inner);
        let (name, dir) = self.free_folder(&meta.title);
        let production = new_production(&dir, &meta)?;
        let desk = Desk::open(&name, production, self.events.clone())?;
        open.insert(name.clone(), Arc::new(desk));
        drop(open);
        self.events.tell(EventDocument::Shelf);
        Ok(shelved(&name, &dir))
    }

    /// Puts a film that was made elsewhere in this program on the shelf.
    pub(crate) fn put(&self, name: &str, production: Production) -> Result<Arc<Desk>, ServerError> {
        let desk = Arc::new(Desk::open(name, production, self.events.clone())?);
        let mut open = self.open.lock().unwrap_or_else(PoisonError::into_inner);
        open.insert(name.to_owned(), Arc::clone(&desk));
        drop(open);
        self.events.tell(EventDocument::Shelf);
        Ok(desk)
    }

    /// The folder of a name that may have come from outside: a plain name of
    /// one folder on the shelf, or nothing.
    pub(crate) fn place(&self, name: &str) -> Result<PathBuf, ServerError> {
        // Held against the whole name, since `a/` and `a/.` have one part too.
        let mut parts = Path::new(name).components();
        match parts.next() {
            Some(std::path::Component::Normal(part)) if part == name && !name.contains('\0') => {
                Ok(self.dir.join(name))
            }
            _ => Err(ServerError::NotThere {
                what: "film",
                name: name.to_owned(),
            }),
        }
    }

    /// A folder for a new film, named after its title.
    fn free_folder(&self, title: &str) -> (String, PathBuf) {
        let plain: String = title
            .to_lowercase()
            .chars()
            .map(|c| if c.is_ascii_alphanumeric() { c } else { '-' })
            .collect();
        let words: Vec<&str> = plain.split('-').filter(|w| !w.is_empty()).collect();
        let mut stem: String = words.join("-").chars().take(60).collect();
        if stem.is_empty() {
            "film".clone_into(&mut stem);
        }
        let mut name = stem.clone();
        let mut number = 2;
        while self.dir.join(&name).exists() || name == EXAMPLE {
            name = format!("{stem}-{number}");
            number += 1;
        }
        let dir = self.dir.join(&name);
        (name, dir)
    }
}

/// Whether a film was opened by this request or before.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Opened {
    /// By this request: interrupted work is to be carried on.
    Now,
    /// Before.
    Before,
}

fn shelved(name: &str, dir: &Path) -> ShelvedDocument {
    let mut document = ShelvedDocument {
        film: name.to_owned(),
        title: name.to_owned(),
        gauge: String::new(),
        speed: String::new(),
        rolls: 0,
        frames: 0,
        cuts: 0,
        changed: None,
        dir: dir.display().to_string(),
        problem: None,
    };
    match Production::peek(dir) {
        Ok(peek) => {
            document.title = peek.meta.title;
            peek.meta.gauge.spec().name.clone_into(&mut document.gauge);
            document.speed = peek.meta.speed.to_string();
            document.rolls = peek.rolls;
            document.frames = peek.frames;
            document.cuts = peek.cuts;
            document.changed = peek.changed;
        }
        Err(problem) => document.problem = Some(problem.to_string()),
    }
    document
}

pub(crate) fn file(what: &'static str, source: std::io::Error, path: &Path) -> ServerError {
    ServerError::Act(onestrand_production::ProductionError::File {
        what,
        source,
        path: path.to_owned(),
    })
}
