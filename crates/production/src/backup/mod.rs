//! Safe copies: the production file, and beside it what else cannot be made again: sounds,
//! recordings, artwork of titles, photographs of visits.

mod film_files;
mod parts;
mod restored;

use std::path::{Path, PathBuf};

use onestrand_store::Production;
use serde::Serialize;

use self::film_files::{FilmFile, in_film};
use self::parts::{Part, PartsList};
use crate::error::file;
use crate::{Cancel, ProductionError, Progress};

pub use self::restored::{PartNamed, RestoredDocument, restore, take_parts_back};

/// The folder beside a backup that holds what is not in it.
pub(crate) fn parts_folder(backup: &Path) -> PathBuf {
    let mut name = backup.file_name().unwrap_or_default().to_os_string();
    name.push("-parts");
    backup.with_file_name(name)
}

/// The answer of `backup`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct BackupDocument {
    /// The copy of the production file.
    pub file: String,
    /// What lies beside it.
    pub parts: BackedUpParts,
}

/// What a backup holds besides the production file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct BackedUpParts {
    /// Their folder, beside the file and named after it.
    pub folder: String,
    /// How many files of the film are in it.
    pub files: usize,
    /// How large they are together. Unit: bytes.
    pub bytes: u64,
    /// How many were copied this time; the others were there already.
    pub copied: usize,
    /// How large these are. Unit: bytes.
    pub copied_bytes: u64,
    /// Files that no longer hold what their names say: they were copied as they are.
    pub changed: Vec<String>,
}

/// Writes a safe copy of a production, also while it is open elsewhere: the production file,
/// and beside it the folder `FILE-parts` with sounds, recordings, artwork of titles and
/// photographs of visits, each once, and a list of them. Scans and workprints are not in it.
/// A second backup to the same file copies only what is new.
///
/// # Errors
/// [`ProductionError::Store`], [`ProductionError::File`], [`ProductionError::Stopped`]; the
/// backup that was there before then still stands.
pub fn backup(
    dir: &Path,
    to: &Path,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<BackupDocument, ProductionError> {
    let folder = parts_folder(to);
    // Where there is no film nothing is made.
    if !Production::is_here(dir) {
        Production::backup(dir, to)?;
    }
    std::fs::create_dir_all(&folder).map_err(file("make the folder", &folder))?;
    let fresh = folder.join("production.new");
    Production::backup(dir, &fresh)?;
    // Files are only ever added to a film, so that whatever the copy names is there now.
    let before = PartsList::read(&folder).unwrap_or_default();
    let made = copied(dir, &folder, &before, cancel, progress);
    let (list, document) = match made {
        Ok((parts, document)) => {
            let production = parts::fingerprint(&fresh)?;
            (PartsList::of(production, parts), document)
        }
        Err(problem) => {
            // The first problem is the one to tell.
            let _gone = std::fs::remove_file(&fresh);
            return Err(problem);
        }
    };
    std::fs::rename(&fresh, to).map_err(file("write", to))?;
    list.write(&folder)?;
    Ok(BackupDocument {
        file: crate::film_frames::path_text(to),
        parts: document,
    })
}

/// Copies what is not in the folder yet.
fn copied(
    dir: &Path,
    folder: &Path,
    before: &PartsList,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<(Vec<Part>, BackedUpParts), ProductionError> {
    let files = in_film(dir)?;
    let mut told = BackedUpParts {
        folder: crate::film_frames::path_text(folder),
        files: files.len(),
        bytes: 0,
        copied: 0,
        copied_bytes: 0,
        changed: Vec::new(),
    };
    let all = files.iter().map(|one| one.bytes).sum();
    progress.begin_in("bytes", "copying sounds and pictures", Some(all));
    let mut kept = Vec::with_capacity(files.len());
    for one in &files {
        if cancel.is_cancelled() {
            return Err(ProductionError::Stopped);
        }
        let part = match known(one, folder, before) {
            Some(part) => part,
            None => {
                let (part, is_new) = parts::copy(one, dir, folder, cancel)?;
                if is_new {
                    told.copied += 1;
                    told.copied_bytes += part.bytes;
                }
                part
            }
        };
        if !one.is_named_after(&part.blake3) {
            told.changed.push(one.name.clone());
        }
        told.bytes += part.bytes;
        progress.at(told.bytes);
        kept.push(part);
    }
    Ok((kept, told))
}

/// The part of a file that was copied before and cannot have changed since: its name is
/// its fingerprint, its length the same, and it still lies there.
fn known(one: &FilmFile, folder: &Path, before: &PartsList) -> Option<Part> {
    let part = before.parts.iter().find(|part| part.name == one.name)?;
    let lies = std::fs::metadata(folder.join(&part.blake3)).ok()?.len();
    let same = one.lasts && part.bytes == one.bytes && lies == part.bytes;
    same.then(|| part.clone())
}
