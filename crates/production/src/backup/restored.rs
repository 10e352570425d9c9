//! A film put back out of its backup.

use std::path::Path;

use onestrand_store::Production;
use serde::Serialize;

use super::film_files::is_place;
use super::parts::{self, Part, PartsList};
use super::parts_folder;
use crate::error::{file, unfit};
use crate::{Cancel, ProductionError, Progress};

/// A part of a backup that could not be put back.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PartNamed {
    /// Where it would lie in the film's folder, such as `sounds/….wav`.
    pub name: String,
    /// What the film calls it, where it is a sound of the film; else empty.
    pub called: String,
}

/// The answer of `restore`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RestoredDocument {
    /// The folder of the film.
    pub dir: String,
    /// The backup it came from.
    pub file: String,
    /// Whether everything the backup should hold was put back.
    pub ok: bool,
    /// How many files were put back besides the production file.
    pub files: usize,
    /// How large they are together. Unit: bytes.
    pub bytes: u64,
    /// Parts that are not in the backup.
    pub missing: Vec<PartNamed>,
    /// Parts that do not hold what they held when the backup was made: not put back.
    pub damaged: Vec<PartNamed>,
    /// What else should be known.
    pub remarks: Vec<String>,
}

/// Puts a film back out of a backup into a new folder: the production file, and sounds,
/// recordings, artwork and photographs from the folder beside it, each checked against the
/// list of the backup. What is missing or damaged is told by name; everything else is put
/// back.
///
/// # Errors
/// [`ProductionError::Unfit`] when there is a film in the folder already,
/// [`ProductionError::Store`] when the file is no production, [`ProductionError::File`],
/// [`ProductionError::Stopped`].
pub fn restore(
    backup: &Path,
    dir: &Path,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<RestoredDocument, ProductionError> {
    let place = Production::database_path(dir);
    if place.exists() {
        return Err(unfit(
            format!("there is a film in {} already", dir.display()),
            "name a folder that is not there yet; nothing was changed",
        ));
    }
    let folder = parts_folder(backup);
    let list = PartsList::read(&folder);
    std::fs::create_dir_all(dir).map_err(file("make the folder", dir))?;
    let (fingerprint, _) = parts::pour(backup, &place, cancel)?;
    // A file that is no production is told now, and not left under that name.
    let called = match names_of_sounds(dir) {
        Ok(called) => called,
        Err(problem) => {
            let _gone = std::fs::remove_file(&place);
            return Err(problem);
        }
    };
    let mut told = nothing_yet(backup, dir);
    match &list {
        None => told.remarks.push(format!(
            "there is no list of parts beside the backup, in {}: only the production file was put back",
            folder.display()
        )),
        Some(list) if list.production != fingerprint => told.remarks.push(
            "the list of parts was made with another backup than this file: look whether anything is missing".to_owned(),
        ),
        Some(_) => {}
    }
    let list = list.unwrap_or_default();
    let all = list.parts.iter().map(|part| part.bytes).sum();
    progress.begin_in("bytes", "putting sounds and pictures back", Some(all));
    for part in &list.parts {
        put_back(part, (&folder, dir), &mut told, cancel)?;
        progress.at(told.bytes);
    }
    missing_of_film(&called, dir, &mut told);
    for named in told.missing.iter_mut().chain(&mut told.damaged) {
        let known = called.iter().find(|(kept, _)| named.name == *kept);
        known
            .map_or("", |(_, name)| name)
            .clone_into(&mut named.called);
    }
    told.ok = told.missing.is_empty() && told.damaged.is_empty();
    Ok(told)
}

/// Puts back what lies beside the production file of a folder as the parts of a backup and
/// is not in the folder itself: so a film is whole whose safe copy was written, or put, as
/// the production file of a new folder. What could not be put back is told as a note.
/// Gives how many files were put back.
///
/// # Errors
/// [`ProductionError::File`], [`ProductionError::Stopped`].
pub fn take_parts_back(
    dir: &Path,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<usize, ProductionError> {
    let place = Production::database_path(dir);
    let folder = parts_folder(&place);
    let Some(list) = PartsList::read(&folder) else {
        return Ok(0);
    };
    let mut told = nothing_yet(&place, dir);
    let away = |part: &&Part| is_place(&part.name) && !dir.join(&part.name).is_file();
    for part in list.parts.iter().filter(away) {
        put_back(part, (&folder, dir), &mut told, cancel)?;
    }
    for (what, all) in [("missing", &told.missing), ("damaged", &told.damaged)] {
        for part in all {
            progress.note(&format!("{what} in the safe copy: {}", part.name));
        }
    }
    if told.files > 0 {
        let (count, folder) = (told.files, folder.display());
        progress.note(&format!("{count} files put back from {folder}"));
    }
    Ok(told.files)
}

fn nothing_yet(backup: &Path, dir: &Path) -> RestoredDocument {
    RestoredDocument {
        dir: crate::film_frames::path_text(dir),
        file: crate::film_frames::path_text(backup),
        ok: true,
        files: 0,
        bytes: 0,
        missing: Vec::new(),
        damaged: Vec::new(),
        remarks: Vec::new(),
    }
}

/// The sounds of a film: where each lies in its folder, and what it is called.
fn names_of_sounds(dir: &Path) -> Result<Vec<(String, String)>, ProductionError> {
    let production = Production::open(dir)?;
    let sounds = crate::sound_list(&production)?.into_iter();
    let one = |known: crate::documents::SoundDocument| {
        let kept = format!("sounds/{}", known.sound.kept);
        (kept, known.sound.name)
    };
    Ok(sounds.map(one).collect())
}

/// Copies one part to its place; what it holds is looked at before it has its name.
fn put_back(
    part: &Part,
    (folder, dir): (&Path, &Path),
    told: &mut RestoredDocument,
    cancel: &Cancel,
) -> Result<(), ProductionError> {
    let named = || PartNamed {
        name: part.name.clone(),
        called: String::new(),
    };
    let from = folder.join(&part.blake3);
    if !from.is_file() {
        told.missing.push(named());
        return Ok(());
    }
    let to = dir.join(&part.name);
    let (Some(into), true) = (to.parent(), is_place(&part.name)) else {
        told.damaged.push(named());
        return Ok(());
    };
    std::fs::create_dir_all(into).map_err(file("make the folder", into))?;
    let half = tempfile::Builder::new()
        .prefix("arriving-")
        .suffix(".part")
        .tempfile_in(into)
        .map_err(file("write in", into))?;
    let (blake3, bytes) = parts::pour(&from, half.path(), cancel)?;
    if blake3 != part.blake3 || bytes != part.bytes {
        told.damaged.push(named());
        return Ok(());
    }
    half.persist(&to).map_err(|e| file("write", &to)(e.error))?;
    told.files += 1;
    told.bytes += bytes;
    Ok(())
}

/// Sounds that the film names and that no list spoke of.
fn missing_of_film(called: &[(String, String)], dir: &Path, told: &mut RestoredDocument) {
    for (kept, _) in called {
        let mut known = told.missing.iter().chain(&told.damaged);
        if !dir.join(kept).is_file() && !known.any(|named| named.name == *kept) {
            told.missing.push(PartNamed {
                name: kept.clone(),
                called: String::new(),
            });
        }
    }
}
