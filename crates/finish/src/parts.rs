//! A finish in parts, so that what is made stays made.
//!
//! Beside its place lies a hidden folder with a part for every few hundred places and a
//! mark of what is being made. When the same finish is asked for again, whole parts are
//! not made again; when anything of it is different, all of it is.

use std::ffi::OsString;
use std::fs;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

use crate::{FinishError, FinishPlan};

/// The folder of a finish in the making.
#[derive(Debug)]
pub(crate) struct Parts {
    folder: PathBuf,
}

/// Where the parts of a finish of this name lie while it is made.
#[must_use]
pub fn parts_of(path: &Path) -> PathBuf {
    let mut name = OsString::from(".");
    name.push(path.file_name().unwrap_or_default());
    name.push(".parts");
    path.with_file_name(name)
}

/// Throws the parts of a finish away that was stopped.
///
/// # Errors
/// [`FinishError::File`] where the folder cannot be removed; that there is none is fine.
pub fn throw_parts_away(path: &Path) -> Result<(), FinishError> {
    let folder = parts_of(path);
    match fs::remove_dir_all(&folder) {
        Err(source) if source.kind() != ErrorKind::NotFound => Err(at(&folder)(source)),
        _ => Ok(()),
    }
}

pub(crate) fn at(path: &Path) -> impl Fn(std::io::Error) -> FinishError + '_ {
    move |source| FinishError::File {
        source,
        path: path.to_owned(),
    }
}

impl Parts {
    /// Opens the folder; parts of another finish in it are thrown away.
    pub(crate) fn open(plan: &FinishPlan, mark: &str) -> Result<Self, FinishError> {
        let folder = parts_of(&plan.path);
        let kept = folder.join("mark");
        if fs::read_to_string(&kept).is_ok_and(|known| known == mark) {
            return Ok(Self { folder });
        }
        throw_parts_away(&plan.path)?;
        fs::create_dir(&folder).map_err(at(&plan.path))?;
        fs::write(&kept, mark).map_err(at(&plan.path))?;
        Ok(Self { folder })
    }

    /// The film file of a part.
    pub(crate) fn film(&self, part: usize) -> PathBuf {
        self.folder.join(format!("{part:05}"))
    }

    fn list(&self, part: usize) -> PathBuf {
        self.folder.join(format!("{part:05}.pictures"))
    }

    /// The hashes of a whole part's pictures; none where it has to be made.
    pub(crate) fn known(&self, part: usize, places: usize) -> Option<Vec<blake3::Hash>> {
        if !self.film(part).is_file() {
            return None;
        }
        let text = fs::read_to_string(self.list(part)).ok()?;
        let hashes: Option<Vec<blake3::Hash>> = text
            .lines()
            .map(|line| blake3::Hash::from_hex(line).ok())
            .collect();
        hashes.filter(|all| all.len() == places)
    }

    /// Writes down what a part shows, before its film is put under its name.
    pub(crate) fn note(&self, part: usize, seen: &[blake3::Hash]) -> Result<(), FinishError> {
        let mut text = String::new();
        for hash in seen {
            text.push_str(hash.to_hex().as_str());
            text.push('\n');
        }
        let path = self.list(part);
        fs::write(&path, text).map_err(at(&path))
    }

    /// The list of FFmpeg's concatenation: our own names and the exact length of each
    /// part, so that no rounding of one moves the next.
    pub(crate) fn list_of_all(&self, seconds: &[f64]) -> Result<PathBuf, FinishError> {
        let mut text = String::from("ffconcat version 1.0\n");
        for (part, seconds) in seconds.iter().enumerate() {
            text.push_str(&format!("file {part:05}\nduration {seconds:.6}\n"));
        }
        let path = self.folder.join("all");
        fs::write(&path, text).map_err(at(&path))?;
        Ok(path)
    }
}
