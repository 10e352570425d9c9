//! The folders that scans may be brought from, and what lies in them.

use std::fs;
use std::io::{Read, Seek, SeekFrom};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::problem::ServerError;
use crate::shelf::file;

/// Endings of what a roll may be brought in from.
const FILMS: [&str; 10] = [
    "mkv", "mp4", "mov", "avi", "m4v", "mxf", "mpg", "mpeg", "webm", "ts",
];
const PICTURES: [&str; 6] = ["dpx", "tif", "tiff", "png", "jpg", "jpeg"];

/// The most entries that are told of one folder.
const MOST_ENTRIES: usize = 2_000;

/// How far a dropped file is looked for: folders deep, and entries in all.
const DEEP: usize = 5;
const LOOKED_AT: usize = 50_000;

/// A dropped file is compared by its first and its last mebibyte.
pub(crate) const ENDS: u64 = 1 << 20;

/// The chosen folders.
#[derive(Debug)]
pub(crate) struct Places {
    home: Option<PathBuf>,
    kept: Option<PathBuf>,
    chosen: Mutex<Vec<PathBuf>>,
}

/// A folder that was chosen.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub(crate) struct PlaceDocument {
    /// Its path.
    pub path: String,
    /// Its own name.
    pub name: String,
}

/// The chosen folders, and where choosing begins.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub(crate) struct PlacesDocument {
    /// The chosen folders.
    pub chosen: Vec<PlaceDocument>,
    /// The home folder, under which others may be chosen.
    pub home: Option<String>,
}

/// What lies in a folder.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub(crate) struct FolderDocument {
    /// Its path.
    pub path: String,
    /// The folder above it, where that may be looked at too.
    pub above: Option<String>,
    /// Whether scans may be brought in from it: it lies in a chosen folder.
    pub chosen: bool,
    /// Folders first, then what may be brought in, by name.
    pub entries: Vec<EntryDocument>,
    /// Entries that are not told because there are too many.
    pub left_off: usize,
}

/// One thing in a folder.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub(crate) struct EntryDocument {
    /// Its name.
    pub name: String,
    /// Its path.
    pub path: String,
    /// `folder`, `film` or `pictures` (a folder that holds a run of them).
    pub kind: String,
    /// Its size. Unit: bytes.
    pub bytes: Option<u64>,
}

/// A file that was dropped on the page, as the page knows it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema, utoipa::IntoParams)]
#[into_params(parameter_in = Query)]
pub(crate) struct DroppedFile {
    /// Its name.
    pub name: String,
    /// Its size. Unit: bytes.
    pub bytes: u64,
}

/// The same file in a chosen folder.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub(crate) struct FoundFile {
    /// Its path.
    pub path: String,
}

/// Where a dropped file was found, and what a copy of it would take.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub(crate) struct MatchDocument {
    /// Files that are the same.
    pub found: Vec<FoundFile>,
    /// What is free where a copy would go. Unit: bytes.
    pub free: Option<u64>,
}

impl Places {
    pub(crate) fn new(home: Option<PathBuf>, kept: Option<PathBuf>, given: &[PathBuf]) -> Self {
        let whole = |path: &Path| path.canonicalize().ok();
        let mut chosen: Vec<PathBuf> = given.iter().filter_map(|p| whole(p)).collect();
        if let Some(text) = kept.as_ref().and_then(|k| fs::read_to_string(k).ok()) {
            chosen.extend(text.lines().filter_map(|line| whole(Path::new(line))));
        }
        chosen.sort();
        chosen.dedup();
        Self {
            home: home.and_then(|h| whole(&h)),
            kept,
            chosen: Mutex::new(chosen),
        }
    }

    pub(crate) fn document(&self) -> PlacesDocument {
        let one = |path: &PathBuf| PlaceDocument {
            path: path.display().to_string(),
            name: path.file_name().map_or_else(
                || path.display().to_string(),
                |n| n.to_string_lossy().into_owned(),
            ),
        };
        PlacesDocument {
            chosen: self.chosen().iter().map(one).collect(),
            home: self.home.as_ref().map(|h| h.display().to_string()),
        }
    }

    fn chosen(&self) -> Vec<PathBuf> {
        self.chosen
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .clone()
    }

    /// Also scans that lie in the films' own folders may be brought in.
    pub(crate) fn add(&self, dir: &Path) {
        if let Ok(dir) = dir.canonicalize() {
            let mut chosen = self.chosen.lock().unwrap_or_else(PoisonError::into_inner);
            if !chosen.contains(&dir) {
                chosen.push(dir);
            }
        }
    }

    /// Chooses a folder under the home folder, and remembers it.
    pub(crate) fn choose(&self, path: &Path) -> Result<PlacesDocument, ServerError> {
        let dir = self.inside_home(path)?;
        self.add(&dir);
        if let Some(kept) = &self.kept {
            // Each on a line of its own; a name of two lines would be two folders.
            let chosen = self.chosen();
            let lines = chosen.iter().filter_map(|p| p.to_str());
            let lines: Vec<&str> = lines.filter(|l| !l.contains('\n')).collect();
            if let Some(above) = kept.parent() {
                let _made = fs::create_dir_all(above);
            }
            // Not written: it has to be chosen again next time.
            let _kept = fs::write(kept, lines.join("\n") + "\n");
        }
        Ok(self.document())
    }

    fn inside_home(&self, path: &Path) -> Result<PathBuf, ServerError> {
        let outside = || ServerError::Outside {
            path: path.to_owned(),
        };
        let dir = path.canonicalize().map_err(|_| outside())?;
        let home = self.home.as_ref().ok_or_else(outside)?;
        if dir.is_dir() && (dir.starts_with(home) || self.chosen().contains(&dir)) {
            return Ok(dir);
        }
        Err(outside())
    }

    /// A path as the system knows it, if it lies in a chosen folder.
    ///
    /// # Errors
    /// [`ServerError::Outside`], also when it does not exist: what lies outside
    /// is not told.
    pub(crate) fn inside(&self, path: &Path) -> Result<PathBuf, ServerError> {
        let outside = || ServerError::Outside {
            path: path.to_owned(),
        };
        let whole = path.canonicalize().map_err(|_| outside())?;
        let within = self.chosen().iter().any(|c| whole.starts_with(c));
        if within { Ok(whole) } else { Err(outside()) }
    }

    /// What lies in a folder of the home folder or of a chosen one.
    pub(crate) fn look(&self, path: &Path) -> Result<FolderDocument, ServerError> {
        let dir = self.inside(path).or_else(|_| self.inside_home(path))?;
        let listed = fs::read_dir(&dir).map_err(|e| file("look into the folder", e, &dir))?;
        let mut entries: Vec<EntryDocument> = listed
            .flatten()
            .map(|e| e.path())
            .filter(|p| self.stays(p))
            .filter_map(|p| entry(&p))
            .collect();
        entries.sort_by(|a, b| {
            let folder = |e: &EntryDocument| e.kind != "folder" && e.kind != "pictures";
            folder(a)
                .cmp(&folder(b))
                .then_with(|| a.name.to_lowercase().cmp(&b.name.to_lowercase()))
        });
        let left_off = entries.len().saturating_sub(MOST_ENTRIES);
        entries.truncate(MOST_ENTRIES);
        let above = dir
            .parent()
            .filter(|a| self.inside(a).or_else(|_| self.inside_home(a)).is_ok())
            .map(|a| a.display().to_string());
        Ok(FolderDocument {
            path: dir.display().to_string(),
            above,
            chosen: self.inside(&dir).is_ok(),
            entries,
            left_off,
        })
    }

    /// Whether something in a folder is no link that leads to where nothing may
    /// be told of.
    fn stays(&self, path: &Path) -> bool {
        let leads = || self.inside(path).or_else(|_| self.inside_home(path));
        !path.is_symlink() || leads().is_ok()
    }

    /// Files of a name, a size and the same first and last mebibyte in the
    /// chosen folders; `ends` is those two, one after the other.
    pub(crate) fn find(&self, dropped: &DroppedFile, ends: &[u8]) -> Vec<FoundFile> {
        let wanted = blake3::hash(ends);
        let mut left = LOOKED_AT;
        let mut found = Vec::new();
        for place in self.chosen() {
            walk(&place, DEEP, &mut left, &mut |path, bytes| {
                let same = path.file_name().is_some_and(|n| n == dropped.name.as_str());
                if same && bytes == dropped.bytes && ends_of(path).is_ok_and(|e| e == wanted) {
                    found.push(FoundFile {
                        path: path.display().to_string(),
                    });
                }
            });
        }
        found
    }
}

fn entry(path: &Path) -> Option<EntryDocument> {
    let name = path.file_name()?.to_str()?.to_owned();
    if name.starts_with('.') {
        return None;
    }
    let about = fs::metadata(path).ok()?;
    let (kind, bytes) = if about.is_dir() {
        let kind = if holds_pictures(path) {
            "pictures"
        } else {
            "folder"
        };
        (kind, None)
    } else if has_ending(path, &FILMS) {
        ("film", Some(about.len()))
    } else {
        return None;
    };
    Some(EntryDocument {
        name,
        path: path.display().to_string(),
        kind: kind.to_owned(),
        bytes,
    })
}

fn has_ending(path: &Path, endings: &[&str]) -> bool {
    let ending = path.extension().and_then(|e| e.to_str()).unwrap_or("");
    endings.contains(&ending.to_ascii_lowercase().as_str())
}

/// Whether a folder holds a run of pictures: several of the first few entries.
fn holds_pictures(dir: &Path) -> bool {
    let Ok(entries) = fs::read_dir(dir) else {
        return false;
    };
    let pictures = entries
        .flatten()
        .take(40)
        .filter(|e| has_ending(&e.path(), &PICTURES));
    pictures.count() >= 8
}

fn walk(dir: &Path, deep: usize, left: &mut usize, seen: &mut dyn FnMut(&Path, u64)) {
    let Ok(entries) = fs::read_dir(dir) else {
        return;
    };
    for entry in entries.flatten() {
        if *left == 0 {
            return;
        }
        *left -= 1;
        // Links are not followed: they may lead out of the chosen folder.
        let Ok(about) = entry.metadata() else {
            continue;
        };
        if about.is_file() {
            seen(&entry.path(), about.len());
        } else if about.is_dir() && deep > 0 {
            walk(&entry.path(), deep - 1, left, seen);
        }
    }
}

/// BLAKE3 of the first and the last mebibyte of a file.
fn ends_of(path: &Path) -> std::io::Result<blake3::Hash> {
    let mut open = fs::File::open(path)?;
    let size = open.metadata()?.len();
    let mut hasher = blake3::Hasher::new();
    let mut part = Vec::new();
    open.by_ref().take(ENDS).read_to_end(&mut part)?;
    hasher.update(&part);
    open.seek(SeekFrom::Start(size.saturating_sub(ENDS)))?;
    part.clear();
    open.take(ENDS).read_to_end(&mut part)?;
    hasher.update(&part);
    Ok(hasher.finalize())
}

/// The longest name that is given to a file or folder. Unit: bytes.
const LONGEST_NAME: usize = 120;

/// A name of one file or folder, not a way to another; nothing where it is none. No `%`:
/// the reference reader of boxes does not take it.
pub(crate) fn plain_name(name: &str) -> Option<&str> {
    let name = name.trim();
    let fits = (1..=LONGEST_NAME).contains(&name.len())
        && !name.starts_with('.')
        && !name.contains(['/', '\\', '%'])
        && !name.contains(char::is_control);
    fits.then_some(name)
}
