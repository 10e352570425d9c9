//! Scans that are copied into a film's own folder, as they come.

use std::fs::File;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

use axum::body::Body;
use futures_util::StreamExt;
use rustix::fs::{CWD, RenameFlags, renameat_with};
use rustix::io::Errno;
use tokio::io::AsyncWriteExt;

use crate::problem::{ServerError, away};
use crate::shelf::file;

/// The folder of copied scans in that of a film.
const SCANS: &str = "scans";

/// A copy has this before its name until it is whole. No scan's plain name
/// begins so.
const COMING: &str = ".coming-";

/// The longest name; with what stands before it, a file system takes it. Unit:
/// bytes.
const LONGEST_NAME: usize = 200;

/// A copy that is not whole yet. It goes with this value, however the request
/// ends: refused, broken off, or given up by the program.
#[derive(Debug)]
struct Coming {
    part: PathBuf,
}

impl Drop for Coming {
    fn drop(&mut self) {
        // After it was kept there is nothing under this name any more.
        let _gone = std::fs::remove_file(&self.part);
    }
}

/// Takes a copy as it comes, and gives its path. It stands under its name only
/// once it is whole; nothing is written over.
///
/// # Errors
/// [`ServerError::Unreadable`] for a name that is not plain or a size that was
/// not the promised one, [`ServerError::ScanThere`], [`ServerError::NoRoom`],
/// [`ServerError::Act`] when the disk refuses.
pub(crate) async fn take(
    film: &Path,
    name: &str,
    bytes: u64,
    body: Body,
) -> Result<PathBuf, ServerError> {
    if !is_plain(name) {
        return Err(ServerError::Unreadable {
            why: "a file's plain name is wanted".to_owned(),
        });
    }
    let dir = film.join(SCANS);
    let (whole, named) = (dir.join(name), name.to_owned());
    let place = whole.clone();
    let (coming, out) = away(move || begin(&dir, &place, &named, bytes)).await?;
    let out = write_as_it_comes(&coming.part, out, body, bytes).await?;
    let (kept, named) = (whole.clone(), name.to_owned());
    away(move || keep(&coming, &out, &kept, named)).await?;
    Ok(whole)
}

fn is_plain(name: &str) -> bool {
    (1..LONGEST_NAME).contains(&name.len())
        && !name.starts_with('.')
        && !name.contains(['/', '\\'])
        && !name.contains(char::is_control)
}

fn begin(dir: &Path, whole: &Path, name: &str, bytes: u64) -> Result<(Coming, File), ServerError> {
    std::fs::create_dir_all(dir).map_err(|e| file("make the folder", e, dir))?;
    let free = free_bytes(dir).unwrap_or(u64::MAX);
    if bytes > free {
        return Err(ServerError::NoRoom { bytes, free });
    }
    let there = || ServerError::ScanThere {
        name: name.to_owned(),
    };
    if whole.exists() {
        return Err(there());
    }
    let part = dir.join(format!("{COMING}{name}"));
    // Another copy of this name that is still coming has made it.
    match File::create_new(&part) {
        Ok(out) => Ok((Coming { part }, out)),
        Err(e) if e.kind() == ErrorKind::AlreadyExists => Err(there()),
        Err(e) => Err(file("write the copy", e, &part)),
    }
}

async fn write_as_it_comes(
    part: &Path,
    out: File,
    body: Body,
    bytes: u64,
) -> Result<File, ServerError> {
    let failed = |e| file("write the copy", e, part);
    let mut out = tokio::fs::File::from_std(out);
    let mut stream = body.into_data_stream();
    let mut got = 0_u64;
    while let Some(piece) = stream.next().await {
        let piece = piece.map_err(|e| ServerError::Unreadable { why: e.to_string() })?;
        got += piece.len() as u64;
        if got > bytes {
            break;
        }
        out.write_all(&piece).await.map_err(failed)?;
    }
    if got != bytes {
        return Err(ServerError::Unreadable {
            why: format!("the copy is not of the promised {bytes} bytes"),
        });
    }
    out.flush().await.map_err(failed)?;
    Ok(out.into_std().await)
}

fn keep(coming: &Coming, out: &File, whole: &Path, name: String) -> Result<(), ServerError> {
    let failed = |e| file("keep the copy", e, whole);
    out.sync_all().map_err(failed)?;
    match renameat_with(CWD, &coming.part, CWD, whole, RenameFlags::NOREPLACE) {
        Ok(()) => Ok(()),
        Err(Errno::EXIST) => Err(ServerError::ScanThere { name }),
        // Some file systems cannot promise that nothing is written over.
        Err(Errno::INVAL | Errno::NOSYS | Errno::NOTSUP) if !whole.exists() => {
            std::fs::rename(&coming.part, whole).map_err(failed)
        }
        Err(e) => Err(failed(e.into())),
    }
}

/// Takes away what a killed program has left half-copied. The film has just
/// been taken into this program's hand, so no copy is under way.
pub(crate) fn sweep(film: &Path) {
    let Ok(entries) = std::fs::read_dir(film.join(SCANS)) else {
        return;
    };
    for entry in entries.flatten() {
        if entry.file_name().to_string_lossy().starts_with(COMING) {
            // What cannot be taken away only takes room.
            let _gone = std::fs::remove_file(entry.path());
        }
    }
}

/// What is free on the disk of a folder. Unit: bytes.
pub(crate) fn free_bytes(dir: &Path) -> Option<u64> {
    let about = rustix::fs::statvfs(dir).ok()?;
    about.f_bavail.checked_mul(about.f_frsize)
}
