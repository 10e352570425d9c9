//! A production taken out of a box, to be worked on again.

use std::io::{Read, Write};
use std::path::{Path, PathBuf};

use onestrand_archive::{ArchiveError, check};
use onestrand_intake::Cancel;
use onestrand_store::Production;

use super::check_box::scans_list;
use super::{PRODUCTION, stopped_if, telling};
use crate::documents::UnboxedDocument;
use crate::error::{file, unfit};
use crate::{ProductionError, Progress};

/// Takes the production out of a box into a folder of its own; the box stays as it is. The
/// whole box is held against its checksums first.
///
/// # Errors
/// [`ProductionError::Unfit`] when the folder is there, when the production's own files are
/// not as they were put in (all named), or when the bag holds no production;
/// [`ProductionError::Archive`], [`ProductionError::File`]. Nothing half-made is left.
pub fn open_box(
    place: &Path,
    out: &Path,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<UnboxedDocument, ProductionError> {
    if out.symlink_metadata().is_ok() {
        return Err(unfit(
            format!(
                "something stands under that name already: {}",
                out.display()
            ),
            "name a folder that is not there yet",
        ));
    }
    progress.begin_in("bytes", "reading the box", None);
    let checked = check(place, &mut telling(progress, cancel))?;
    let folder = format!("data/{PRODUCTION}/");
    let is_ours = |path: &str| path.starts_with(&folder);
    let hurt = checked
        .problems
        .iter()
        .filter(|problem| problem.path().is_some_and(|path| is_ours(path.as_str())));
    let hurt: Vec<String> = hurt.map(ToString::to_string).collect();
    if !hurt.is_empty() {
        return Err(unfit(
            format!(
                "the production in the box is not as it was put in: {}",
                hurt.join("; ")
            ),
            "take another copy of the box, or copy what is whole out of it by hand",
        ));
    }
    let files: Vec<(PathBuf, PathBuf, u64)> = checked
        .found
        .iter()
        .filter_map(|(path, digests)| {
            let rest = path.as_str().strip_prefix(&folder)?;
            Some((path.within(place), PathBuf::from(rest), digests.bytes))
        })
        .collect();
    if !files
        .iter()
        .any(|(_, rest, _)| rest == Path::new("production.db"))
    {
        return Err(unfit(
            "the box holds no production".to_owned(),
            "it may be a bag of another program; its files lie in its folder data",
        ));
    }
    let bytes = files.iter().map(|(_, _, bytes)| bytes).sum();
    room_for(out, bytes)?;
    progress.begin_in("bytes", "taking the production out", Some(bytes));
    let parent = out.parent().filter(|at| !at.as_os_str().is_empty());
    let parent = parent.unwrap_or(Path::new("."));
    std::fs::create_dir_all(parent).map_err(file("make the folder", parent))?;
    let half = tempfile::Builder::new()
        .prefix(".unboxed-")
        .tempdir_in(parent)
        .map_err(file("make a folder", parent))?;
    let mut done = 0;
    for (from, rest, _) in &files {
        done = copied(from, &half.path().join(rest), done, cancel, progress)?;
    }
    let title = Production::open(half.path())?.meta().title.clone();
    let half = half.keep();
    std::fs::rename(&half, out).map_err(file("give its name to the folder", out))?;
    let outside = scans_list(place).map(|list| list.scans).unwrap_or_default();
    Ok(UnboxedDocument {
        dir: crate::film_frames::path_text(out),
        title,
        files: files.len() as u64,
        bytes,
        scans_outside: outside
            .into_iter()
            .filter(|scan| !scan.in_box)
            .map(|scan| scan.roll)
            .collect(),
    })
}

fn room_for(out: &Path, bytes: u64) -> Result<(), ProductionError> {
    match onestrand_archive::free_bytes(out) {
        Some(free) if free < bytes => Err(ArchiveError::NoRoom {
            needed: bytes,
            free,
            path: out.to_owned(),
        }
        .into()),
        _ => Ok(()),
    }
}

/// Copies a file; gives the bytes of all files so far.
fn copied(
    from: &Path,
    to: &Path,
    mut done: u64,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<u64, ProductionError> {
    if let Some(folder) = to.parent() {
        std::fs::create_dir_all(folder).map_err(file("make the folder", folder))?;
    }
    let mut read = std::fs::File::open(from).map_err(file("read", from))?;
    let mut write = std::fs::File::create(to).map_err(file("write", to))?;
    let mut piece = vec![0; 1 << 20];
    loop {
        stopped_if(cancel)?;
        let count = read.read(&mut piece).map_err(file("read", from))?;
        if count == 0 {
            break;
        }
        write
            .write_all(&piece[..count])
            .map_err(file("write", to))?;
        done += count as u64;
        progress.at(done);
    }
    write.sync_all().map_err(file("write", to))?;
    Ok(done)
}
