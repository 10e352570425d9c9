//! The scans of a film on their way into a box: where they are, under which names they
//! lie in it, and that they are what was read.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use onestrand_intake::Cancel;
use onestrand_store::{Production, ScanRecord};

use super::find_again::{files_in, scan_among};
use super::{HARD_SIGNS, PRODUCTION};
use crate::documents::{BoxedFileDocument, BoxedScanDocument};
use crate::moved::{folder_of, whereabouts};
use crate::{ProductionError, Progress};

/// A scan, and where it is.
#[derive(Debug)]
pub(super) struct ScanToBox {
    pub(super) record: ScanRecord,
    pub(super) document: BoxedScanDocument,
    /// Its files now, in order; none when it was not found.
    pub(super) files: Vec<PathBuf>,
    /// Where each lies in the payload.
    pub(super) names: Vec<String>,
}

/// Whether a roll has a scan that is not where it could be by its name.
pub(super) fn is_lost(production: &Production, roll: &str) -> bool {
    let scans = production.roll(roll).map(|roll| roll.scans);
    scans.is_ok_and(|scans| {
        scans
            .iter()
            .flat_map(|scan| whereabouts(scan, production.dir()))
            .any(|path| !path.is_file())
    })
}

/// Every scan of a film: where it was read, by its name in or beside the film, or by its
/// fixity in and beside the film and in `media`.
pub(super) fn scans_to_box(
    production: &Production,
    media: &[PathBuf],
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<Vec<ScanToBox>, ProductionError> {
    let mut taken = BTreeSet::new();
    let mut looked: Option<Vec<(PathBuf, u64)>> = None;
    let mut all = Vec::new();
    for roll in production.rolls()? {
        for (part, record) in (0..).zip(roll.scans) {
            let by_name = whereabouts(&record, production.dir());
            let is_there = by_name.iter().all(|path| path.is_file());
            let where_read: Vec<PathBuf> = record.paths.iter().map(PathBuf::from).collect();
            let (files, found) = match is_there {
                true if by_name == where_read => (by_name, "where_read"),
                true => (by_name, "beside"),
                false => {
                    progress.note(&format!(
                        "the scan of {} is not where it was read; it is looked for by its checksum",
                        roll.name
                    ));
                    let files =
                        looked.get_or_insert_with(|| files_in(&places(production, media), cancel));
                    match scan_among(&record, files, cancel)? {
                        Some(files) => (files, "by_fixity"),
                        None => (Vec::new(), "not_found"),
                    }
                }
            };
            let names = names_in_box(&record, &mut taken);
            all.push(ScanToBox {
                document: BoxedScanDocument {
                    roll: roll.name.clone(),
                    part,
                    bytes: record.bytes,
                    blake3: record.blake3.clone(),
                    in_box: false,
                    found: found.to_owned(),
                    files: Vec::new(),
                },
                record,
                files,
                names,
            });
        }
    }
    Ok(all)
}

fn places(production: &Production, media: &[PathBuf]) -> Vec<PathBuf> {
    let mut places = vec![production.dir().join("scans")];
    let read = production.rolls().unwrap_or_default();
    let parents = read
        .iter()
        .flat_map(|roll| &roll.scans)
        .flat_map(|scan| &scan.paths)
        .filter_map(|path| Path::new(path).parent().map(Path::to_owned));
    places.extend(parents);
    places.extend(media.iter().cloned());
    places.sort();
    places.dedup();
    places
}

/// Where the files of a scan lie in the payload: under their own names where the program
/// looks for them; in a folder of the scan's fingerprint where a name is taken, or has a
/// sign that readers of manifests disagree on.
fn names_in_box(record: &ScanRecord, taken: &mut BTreeSet<String>) -> Vec<String> {
    let paths: Vec<&Path> = record.paths.iter().map(Path::new).collect();
    let name = |path: &Path| {
        path.file_name()
            .map(|name| name.to_string_lossy().into_owned())
            .unwrap_or_default()
    };
    let folder = match paths.as_slice() {
        [first, _, ..] => first.parent().map(|at| format!("{}/", name(at))),
        _ => None,
    };
    let own: Vec<String> = paths
        .iter()
        .map(|path| {
            format!(
                "{PRODUCTION}/scans/{}{}",
                folder.clone().unwrap_or_default(),
                name(path)
            )
        })
        .collect();
    let is_plain = |path: &String| {
        !path.contains(HARD_SIGNS)
            && !path.contains('\u{fffd}')
            && !path.ends_with('/')
            && !path.contains("//")
            && !taken.contains(&path.to_lowercase())
    };
    let names = match own.iter().all(is_plain) {
        true => own,
        false => paths
            .iter()
            .enumerate()
            .map(|(nth, path)| {
                let ending = path
                    .extension()
                    .map(|e| format!(".{}", e.to_string_lossy()));
                let ending = ending
                    .filter(|e| !e.contains(HARD_SIGNS))
                    .unwrap_or_default();
                let place = folder_of(&record.blake3);
                format!("{PRODUCTION}/scans/{place}/{:06}{ending}", nth + 1)
            })
            .collect(),
    };
    taken.extend(names.iter().map(|path| path.to_lowercase()));
    names
}

impl ScanToBox {
    /// Its files as the document has them, before their checksums are known.
    pub(super) fn file(&self, nth: usize) -> BoxedFileDocument {
        let path = self.files.get(nth);
        let place = match path {
            Some(path) => crate::film_frames::path_text(path),
            None => self.record.paths.get(nth).cloned().unwrap_or_default(),
        };
        BoxedFileDocument {
            place,
            ..BoxedFileDocument::default()
        }
    }
}

/// The fingerprint of a scan taken while its files go by: of one file its BLAKE3, of a run
/// of pictures as `onestrand_intake::Fingerprint` has it.
#[derive(Debug, Default)]
pub(super) struct RunHash {
    whole: blake3::Hasher,
    one: blake3::Hasher,
    name: Vec<u8>,
    bytes: u64,
    files: usize,
}

impl RunHash {
    pub(super) fn begin(&mut self, path: &Path) {
        let name = path.file_name().unwrap_or_default();
        self.name = name.as_encoded_bytes().to_vec();
        self.one = blake3::Hasher::new();
        self.bytes = 0;
    }

    pub(super) fn take(&mut self, piece: &[u8]) {
        self.one.update(piece);
        self.bytes += piece.len() as u64;
    }

    pub(super) fn end(&mut self) {
        self.files += 1;
        self.whole.update(&(self.name.len() as u64).to_le_bytes());
        self.whole.update(&self.name);
        self.whole.update(&self.bytes.to_le_bytes());
        self.whole.update(self.one.finalize().as_bytes());
    }

    /// In hexadecimal letters, after the last file.
    pub(super) fn hex(&self) -> String {
        let hash = match self.files {
            1 => self.one.finalize(),
            _ => self.whole.finalize(),
        };
        hash.to_hex().to_string()
    }
}
