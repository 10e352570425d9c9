//! A file found again by its fixity, wherever it lies now and whatever it is called.

use std::fs::File;
use std::io::Read;
use std::path::{Path, PathBuf};

use onestrand_archive::ArchiveError;
use onestrand_intake::Cancel;
use onestrand_store::ScanRecord;

use super::scans::RunHash;
use crate::ProductionError;

/// More files than this are not looked through: a whole disk was named by mistake.
const MOST_FILES: usize = 200_000;

/// Plain files of these folders and all folders in them with their sizes, by path; links
/// are not followed.
pub(crate) fn files_in(folders: &[PathBuf], cancel: &Cancel) -> Vec<(PathBuf, u64)> {
    let mut waiting: Vec<PathBuf> = folders.to_vec();
    let mut found = Vec::new();
    while let Some(folder) = waiting.pop() {
        if cancel.is_cancelled() || found.len() > MOST_FILES {
            break;
        }
        // A folder that cannot be looked into holds nothing that could be used.
        let Ok(entries) = std::fs::read_dir(&folder) else {
            continue;
        };
        for entry in entries.flatten() {
            match entry.file_type() {
                Ok(kind) if kind.is_dir() => waiting.push(entry.path()),
                Ok(kind) if kind.is_file() => {
                    let size = entry.metadata().map_or(0, |about| about.len());
                    found.push((entry.path(), size));
                }
                _ => {}
            }
        }
    }
    found.sort();
    found
}

/// Looks for a scan among files: the same size first, then the same BLAKE3.
pub(crate) fn scan_among(
    scan: &ScanRecord,
    files: &[(PathBuf, u64)],
    cancel: &Cancel,
) -> Result<Option<Vec<PathBuf>>, ProductionError> {
    match scan.paths.as_slice() {
        [_one] => {
            for (path, size) in files {
                if *size == scan.bytes && blake3_of(path, cancel)? == scan.blake3 {
                    return Ok(Some(vec![path.clone()]));
                }
            }
            Ok(None)
        }
        run => run_among(scan, run, files, cancel),
    }
}

/// A run of pictures keeps the names of its pictures: they are part of what it is known by.
fn run_among(
    scan: &ScanRecord,
    run: &[String],
    files: &[(PathBuf, u64)],
    cancel: &Cancel,
) -> Result<Option<Vec<PathBuf>>, ProductionError> {
    let names: Vec<_> = run
        .iter()
        .filter_map(|path| Path::new(path).file_name())
        .collect();
    let Some(first) = names.first() else {
        return Ok(None);
    };
    for (path, _) in files
        .iter()
        .filter(|(path, _)| path.file_name() == Some(first))
    {
        let Some(folder) = path.parent() else {
            continue;
        };
        let all: Vec<PathBuf> = names.iter().map(|name| folder.join(name)).collect();
        if !all.iter().all(|path| path.is_file()) {
            continue;
        }
        let mut hash = RunHash::default();
        for path in &all {
            hash.begin(path);
            blake3_into(path, &mut |piece| hash.take(piece), cancel)?;
            hash.end();
        }
        if hash.hex() == scan.blake3 {
            return Ok(Some(all));
        }
    }
    Ok(None)
}

/// BLAKE3 of a file; empty for one that cannot be read.
fn blake3_of(path: &Path, cancel: &Cancel) -> Result<String, ProductionError> {
    let mut hasher = blake3::Hasher::new();
    let read = blake3_into(
        path,
        &mut |piece| {
            hasher.update(piece);
        },
        cancel,
    )?;
    Ok(match read {
        true => hasher.finalize().to_hex().to_string(),
        false => String::new(),
    })
}

/// Gives whether the file could be read to its end.
fn blake3_into(
    path: &Path,
    take: &mut dyn FnMut(&[u8]),
    cancel: &Cancel,
) -> Result<bool, ProductionError> {
    let Ok(mut file) = File::open(path) else {
        return Ok(false);
    };
    let mut piece = vec![0; 1 << 20];
    loop {
        if cancel.is_cancelled() {
            return Err(ArchiveError::Stopped.into());
        }
        match file.read(&mut piece) {
            Ok(0) => return Ok(true),
            Ok(count) => take(&piece[..count]),
            Err(problem) if problem.kind() == std::io::ErrorKind::Interrupted => {}
            Err(_) => return Ok(false),
        }
    }
}
