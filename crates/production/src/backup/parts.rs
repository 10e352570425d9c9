//! The parts of a backup: files named by their fingerprint, and the list of them.

use std::fs::File;
use std::io::{Read, Write};
use std::path::Path;

use onestrand_store::StoreError;
use serde::{Deserialize, Serialize};

use super::film_files::FilmFile;
use crate::error::file;
use crate::{Cancel, ProductionError};

/// The name of the list among the parts.
const LIST: &str = "list.json";
/// The largest list that is read: a hundred thousand files. Unit: bytes.
const LARGEST_LIST: u64 = 32 << 20;
/// How much is read at a time. Unit: bytes.
const BLOCK: usize = 1 << 20;

/// One file of a film in a backup.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Part {
    /// Where it lies in the film's folder.
    pub(super) name: String,
    /// Unit: bytes.
    pub(super) bytes: u64,
    /// The BLAKE3 of what it holds, 64 letters: its name among the parts.
    pub(super) blake3: String,
}

/// What a backup is made of.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct PartsList {
    /// The form of this list.
    form: u32,
    /// The BLAKE3 of the production file it belongs to.
    pub(super) production: String,
    /// The files, in the order of their names.
    pub(super) parts: Vec<Part>,
}

impl PartsList {
    const FORM: u32 = 1;

    pub(super) fn of(production: String, parts: Vec<Part>) -> Self {
        let form = Self::FORM;
        Self {
            form,
            production,
            parts,
        }
    }

    /// The list in a folder of parts; nothing where there is none that can be read.
    pub(super) fn read(folder: &Path) -> Option<Self> {
        let path = folder.join(LIST);
        let about = std::fs::metadata(&path).ok()?;
        if about.len() > LARGEST_LIST {
            return None;
        }
        let list: Self = serde_json::from_slice(&std::fs::read(&path).ok()?).ok()?;
        let named = |part: &Part| is_fingerprint(&part.blake3);
        (list.form == Self::FORM && list.parts.iter().all(named)).then_some(list)
    }

    /// Writes it beside its place and moves it there whole.
    pub(super) fn write(&self, folder: &Path) -> Result<(), ProductionError> {
        let words = serde_json::to_vec_pretty(self).map_err(StoreError::from)?;
        crate::print_sheets::write_whole(&folder.join(LIST), &words)
    }
}

/// The BLAKE3 of a file, 64 letters.
pub(super) fn fingerprint(path: &Path) -> Result<String, ProductionError> {
    let mut hasher = blake3::Hasher::new();
    let mut read = File::open(path).map_err(file("read", path))?;
    std::io::copy(&mut read, &mut hasher).map_err(file("read", path))?;
    Ok(hasher.finalize().to_hex().to_string())
}

fn is_fingerprint(name: &str) -> bool {
    name.len() == 64 && name.bytes().all(|b| b.is_ascii_hexdigit())
}

/// Copies a file of a film under its fingerprint, and says whether it was not there yet.
/// What lies there is on the disk before it has its name.
pub(super) fn copy(
    one: &FilmFile,
    dir: &Path,
    folder: &Path,
    cancel: &Cancel,
) -> Result<(Part, bool), ProductionError> {
    let from = dir.join(&one.name);
    let half = tempfile::Builder::new()
        .prefix("arriving-")
        .tempfile_in(folder)
        .map_err(file("write in", folder))?;
    let (blake3, bytes) = pour(&from, half.path(), cancel)?;
    let place = folder.join(&blake3);
    let part = Part {
        name: one.name.clone(),
        bytes,
        blake3,
    };
    // One that is there and sound is not written again; one that was cut short is.
    let is_there = std::fs::metadata(&place).is_ok_and(|about| about.len() == bytes);
    if !is_there || fingerprint(&place)? != part.blake3 {
        half.persist(&place)
            .map_err(|e| file("write", &place)(e.error))?;
        return Ok((part, true));
    }
    Ok((part, false))
}

/// Copies a file and gives the BLAKE3 and the length of what was copied.
pub(super) fn pour(
    from: &Path,
    to: &Path,
    cancel: &Cancel,
) -> Result<(String, u64), ProductionError> {
    let mut read = File::open(from).map_err(file("read", from))?;
    let mut written = File::create(to).map_err(file("write", to))?;
    let mut hasher = blake3::Hasher::new();
    let mut block = vec![0; BLOCK];
    let mut bytes = 0;
    loop {
        if cancel.is_cancelled() {
            return Err(ProductionError::Stopped);
        }
        let count = read.read(&mut block).map_err(file("read", from))?;
        if count == 0 {
            break;
        }
        hasher.update(&block[..count]);
        written
            .write_all(&block[..count])
            .map_err(file("write", to))?;
        bytes += count as u64;
    }
    written.sync_all().map_err(file("write", to))?;
    Ok((hasher.finalize().to_hex().to_string(), bytes))
}
