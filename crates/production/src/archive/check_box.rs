//! A box looked at: whole or not, and where the scans are that it knows by fixity alone.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use onestrand_archive::{BagProblem, check, digests_of};
use onestrand_intake::Cancel;

use super::find_again::files_in;
use super::write_box::ScansList;
use super::{SCANS, telling};
use crate::documents::{BoxCheckDocument, BoxProblemDocument, BoxedFileDocument, OutsideDocument};
use crate::{ProductionError, Progress};

/// Reads every file of a box and compares it with its checksums; then looks for scans that
/// lie outside of it where they were and in `media`, by their fixity.
///
/// # Errors
/// [`ProductionError::Archive`] when it is no box, or when it was stopped.
pub fn check_box(
    place: &Path,
    media: &[PathBuf],
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<BoxCheckDocument, ProductionError> {
    let size = files_in(&[place.to_owned()], cancel)
        .iter()
        .map(|(_, size)| size)
        .sum();
    progress.begin_in("bytes", "reading the box", Some(size));
    let checked = check(place, &mut telling(progress, cancel))?;
    let list = scans_list(place);
    let of = |label: &str| {
        let found = checked.info.iter().find(|(known, _)| known == label);
        found.map_or_else(String::new, |(_, value)| value.clone())
    };
    let outside = match &list {
        Some(list) => outside(list, media, cancel, progress)?,
        None => Vec::new(),
    };
    Ok(BoxCheckDocument {
        place: crate::film_frames::path_text(place),
        ok: checked.problems.is_empty(),
        title: of("Title"),
        made: of("Bagging-Date"),
        files: checked.files,
        bytes: checked.bytes,
        problems: checked
            .problems
            .iter()
            .map(|problem| told(problem, list.as_ref()))
            .collect(),
        outside,
    })
}

/// The list of scans of a box of ours; nothing in any other bag.
pub(super) fn scans_list(place: &Path) -> Option<ScansList> {
    let text = std::fs::read(place.join("data").join(SCANS)).ok()?;
    serde_json::from_slice(&text).ok()
}

fn told(problem: &BagProblem, list: Option<&ScansList>) -> BoxProblemDocument {
    let path = problem.path().map(ToString::to_string);
    let scan = path.as_deref().zip(list).and_then(|(path, list)| {
        let is_it = |file: &BoxedFileDocument| {
            file.path
                .as_deref()
                .is_some_and(|known| path == format!("data/{known}"))
        };
        list.scans.iter().find(|scan| scan.files.iter().any(is_it))
    });
    let what = match (scan, path.as_deref()) {
        (Some(scan), _) => format!(" (a scan of {})", scan.roll),
        (None, Some("data/production/production.db")) => " (the production itself)".to_owned(),
        _ => String::new(),
    };
    BoxProblemDocument {
        kind: problem.kind().to_owned(),
        path,
        words: format!("{problem}{what}"),
    }
}

/// What lies outside of the box: whether it is still where it was, or the same to the bit
/// somewhere in these folders.
fn outside(
    list: &ScansList,
    media: &[PathBuf],
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<Vec<OutsideDocument>, ProductionError> {
    let scans = list.scans.iter().filter(|scan| !scan.in_box);
    let wanted: Vec<(&str, &BoxedFileDocument)> = scans
        .flat_map(|scan| scan.files.iter().map(|file| (scan.roll.as_str(), file)))
        .collect();
    if wanted.is_empty() {
        return Ok(Vec::new());
    }
    progress.begin_in("bytes", "looking for the scans outside of the box", None);
    let elsewhere = files_in(media, cancel);
    let mut known: BTreeMap<PathBuf, String> = BTreeMap::new();
    let mut all = Vec::new();
    for (of, file) in wanted {
        let there = std::iter::once(PathBuf::from(&file.place)).chain(
            elsewhere
                .iter()
                .filter(|(_, size)| *size == file.bytes)
                .map(|(path, _)| path.clone()),
        );
        let mut found = None;
        for path in there {
            if is_same(&path, file, &mut known, cancel, progress)? {
                found = Some(crate::film_frames::path_text(&path));
                break;
            }
        }
        all.push(OutsideDocument {
            of: of.to_owned(),
            place: file.place.clone(),
            found,
        });
    }
    Ok(all)
}

fn is_same(
    path: &Path,
    file: &BoxedFileDocument,
    known: &mut BTreeMap<PathBuf, String>,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<bool, ProductionError> {
    let is_size = std::fs::metadata(path).is_ok_and(|about| about.len() == file.bytes);
    let Some(wanted) = file.sha512.as_ref().filter(|_| is_size) else {
        return Ok(false);
    };
    if !known.contains_key(path) {
        let digests = digests_of(path, 0, &mut telling(progress, cancel))?;
        known.insert(path.to_owned(), digests.sha512);
    }
    Ok(known.get(path) == Some(wanted))
}
