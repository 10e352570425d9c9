//! The shelf: a folder of productions, and those that lie open.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use onestrand_production::{
    Habits, Meta, Production, Workprints, lay_template, new_production, small_picture, take_over,
    templates,
};
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
    /// How many of them have scans that are proved complete.
    pub proved: u32,
    /// Film frames on them.
    pub frames: u64,
    /// Takes in the log.
    pub takes: u32,
    /// Scenes of the shooting script.
    pub scenes: u32,
    /// Setups of the shooting script.
    pub setups: u32,
    /// Versions of the cut.
    pub cuts: u32,
    /// The version that was made last.
    pub newest_cut: Option<String>,
    /// A name for the picture that stands for the film, another when it changes; none
    /// while nothing was logged.
    pub face: Option<String>,
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
    /// A template to make it from.
    #[serde(default)]
    pub template: Option<String>,
    /// A film of the shelf whose habits it gets, without its film.
    #[serde(default)]
    pub like: Option<String>,
}

/// The shelf.
#[derive(Debug)]
pub(crate) struct Shelf {
    dir: PathBuf,
    open: Mutex<BTreeMap<String, Arc<Desk>>>,
    events: Events,
    /// Held while the roster is kept, so that two windows do not keep theirs at once.
    roster: Mutex<()>,
}

/// The picture of a film on the shelf is at least so large. Unit: pixels.
const FACE: (u16, u16) = (240, 180);

/// The longest title.
const LONGEST_TITLE: usize = 200;

impl Shelf {
    pub(crate) fn new(dir: PathBuf, events: Events) -> Self {
        Self {
            dir,
            open: Mutex::new(BTreeMap::new()),
            events,
            roster: Mutex::new(()),
        }
    }

    /// Held by whoever keeps the roster.
    pub(crate) fn one_roster(&self) -> MutexGuard<'_, ()> {
        self.roster.lock().unwrap_or_else(PoisonError::into_inner)
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

    /// Begins a film, from a template or with the habits of another.
    ///
    /// # Errors
    /// [`ServerError::Act`] when a word does not fit.
    pub(crate) fn begin(
        &self,
        new: &NewFilm,
        like: Option<&Habits>,
    ) -> Result<ShelvedDocument, ServerError> {
        let title = new.title.trim().to_owned();
        if title.chars().count() > LONGEST_TITLE {
            return Err(ServerError::Unreadable {
                why: format!("a title has up to {LONGEST_TITLE} letters"),
            });
        }
        let is_there = |name: &String| templates().iter().any(|one| one.template == *name);
        if let Some(name) = new.template.as_ref().filter(|name| !is_there(name)) {
            return Err(ServerError::NotThere {
                what: "template",
                name: name.clone(),
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
        let mut production = new_production(&dir, &meta)?;
        if let Some(template) = &new.template {
            lay_template(&mut production, template)?;
        }
        if let Some(habits) = like {
            take_over(&mut production, habits)?;
        }
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

    /// The picture that stands for a film, made small; it is not opened for it. None while
    /// there is none.
    ///
    /// # Errors
    /// [`ServerError::NotThere`]; [`ServerError::Act`] when it cannot be read.
    pub(crate) fn face(&self, name: &str) -> Result<Option<Vec<u8>>, ServerError> {
        let dir = self.place(name)?;
        let Some((roll, frame)) = Production::peek(&dir)?.face else {
            return Ok(None);
        };
        let Some(mut prints) = Workprints::if_there(&dir)? else {
            return Ok(None);
        };
        let picture = prints.picture(&roll, frame)?;
        Ok(picture.map(|jpeg| small_picture(&jpeg, FACE)).transpose()?)
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
        proved: 0,
        frames: 0,
        takes: 0,
        scenes: 0,
        setups: 0,
        cuts: 0,
        newest_cut: None,
        face: None,
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
            document.proved = peek.proved;
            document.frames = peek.frames;
            document.takes = peek.takes;
            document.scenes = peek.scenes;
            document.setups = peek.setups;
            document.cuts = peek.cuts;
            document.newest_cut = peek.newest_cut;
            document.face = peek.face.map(|(roll, frame)| format!("{roll}·{frame}"));
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
