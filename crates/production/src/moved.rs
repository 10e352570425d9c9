//! Scans that are no longer where they were read.

use std::path::{Path, PathBuf};

use onestrand_intake::{Cancel, Source};
use onestrand_store::{Act, Production, RollRecord, ScanRecord, Workprints};

use crate::documents::RollDocument;
use crate::workprint::Opened;
use crate::{ProductionError, Progress};

/// Where the files of a scan are now: where they were read, or under the same
/// name in or beside the production's folder, which may have been moved or
/// copied as a whole. What is found by name alone is held against size and
/// planes before a frame of it is used.
pub(crate) fn whereabouts(scan: &ScanRecord, production: &Path) -> Vec<PathBuf> {
    let read: Vec<PathBuf> = scan.paths.iter().map(PathBuf::from).collect();
    if read.iter().all(|path| path.is_file()) {
        return read;
    }
    let places = [
        Some(production.join("scans")),
        Some(production.to_owned()),
        production.parent().map(Path::to_owned),
    ];
    let found = places
        .into_iter()
        .flatten()
        .filter_map(|place| all_in(&read, &place))
        .next();
    found
        .or_else(|| in_own_folder(scan, &production.join("scans")))
        .unwrap_or(read)
}

/// The folder of a scan that came out of an archive box under no name of its own.
pub(crate) fn folder_of(blake3: &str) -> &str {
    blake3.get(..16).unwrap_or(blake3)
}

/// The files in the folder of a scan's fingerprint, in order, when they are as many.
fn in_own_folder(scan: &ScanRecord, scans: &Path) -> Option<Vec<PathBuf>> {
    let folder = std::fs::read_dir(scans.join(folder_of(&scan.blake3))).ok()?;
    let mut all: Vec<PathBuf> = folder.flatten().map(|entry| entry.path()).collect();
    all.sort();
    (all.len() == scan.paths.len()).then_some(all)
}

/// The same files in another place; a run of pictures in the folder of its name.
fn all_in(read: &[PathBuf], place: &Path) -> Option<Vec<PathBuf>> {
    let folder = match read {
        [_one] => place.to_owned(),
        [first, ..] => place.join(first.parent()?.file_name()?),
        [] => return None,
    };
    let there: Option<Vec<PathBuf>> = read
        .iter()
        .map(|p| Some(folder.join(p.file_name()?)))
        .collect();
    there.filter(|paths| paths.iter().all(|path| path.is_file()))
}

/// Tells the production where the scans of a roll are now. They must be the
/// same to the bit: their hash is taken again.
///
/// # Errors
/// [`ProductionError::ScanChanged`] when they are not; nothing is changed then.
pub fn scans_moved(
    production: &mut Production,
    name: &str,
    files: &[PathBuf],
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<RollDocument, ProductionError> {
    let roll = production.roll(name)?;
    let opened = Opened::of(files)?;
    progress.note("comparing the files with what was read");
    let mut scans = Vec::new();
    for source in opened.sources() {
        scans.push(source.fingerprint(&mut |_| {}, cancel)?.hex());
    }
    let known: Vec<&String> = roll.scans.iter().map(|s| &s.blake3).collect();
    if scans.iter().collect::<Vec<_>>() != known {
        return Err(ProductionError::ScanChanged {
            roll: roll.name,
            found: "not the same to the bit".to_owned(),
            path: files.first().cloned().unwrap_or_default(),
        });
    }
    let moved = with_paths(&roll, opened.sources())?;
    let act = Act::PutRoll {
        name: name.to_owned(),
        roll: Some(Box::new(moved)),
    };
    production.act(&format!("the scan of {name} was moved"), &act)?;
    let prints = Workprints::open(production.dir())?;
    crate::roll::document(production, &prints, &production.roll(name)?)
}

fn with_paths(roll: &RollRecord, sources: &[Source]) -> Result<RollRecord, ProductionError> {
    let mut moved = roll.clone();
    for (scan, source) in moved.scans.iter_mut().zip(sources) {
        let paths: Vec<PathBuf> = match source.sequence() {
            None => vec![source.path().to_owned()],
            Some(run) => run.pictures().iter().map(|p| p.path.clone()).collect(),
        };
        scan.paths.clear();
        for path in paths {
            let full = std::path::absolute(&path)
                .map_err(crate::error::file("name the file in full", &path))?;
            scan.paths.push(crate::film_frames::path_text(&full));
        }
    }
    Ok(moved)
}
