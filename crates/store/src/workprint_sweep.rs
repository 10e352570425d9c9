//! What a killed process left of workprints.

use std::collections::BTreeSet;
use std::path::Path;

use crate::production::{file, remove_if_there};
use crate::workprint_write::{listed, remove};
use crate::{StoreError, Workprints, workprint_index};

impl Workprints {
    /// Takes away workprints that were never finished or have been replaced, and
    /// picture files that the index does not know.
    ///
    /// For the owner of the production alone, once, before it reads any roll: a
    /// reading under way looks just like one that was killed.
    ///
    /// # Errors
    /// [`StoreError::Sql`] or [`StoreError::File`].
    pub fn sweep(dir: &Path) -> Result<(), StoreError> {
        let mut db = workprint_index::open(dir)?;
        let stale = listed(
            &db,
            "SELECT id, file FROM workprint AS old WHERE complete = 0 OR EXISTS
             (SELECT 1 FROM workprint AS new
              WHERE new.roll = old.roll AND new.complete = 1 AND new.id > old.id)",
            [],
        )?;
        for (id, name) in stale {
            remove(&mut db, dir, id, &name)?;
        }
        let known = listed(&db, "SELECT id, file FROM workprint", [])?;
        sweep_files(dir, &known.into_iter().map(|(_, name)| name).collect())
    }
}

/// A picture file without a row is what a kill between the two leaves, or what
/// a damaged index knew. No picture in it can be found again.
fn sweep_files(dir: &Path, known: &BTreeSet<String>) -> Result<(), StoreError> {
    let folder = workprint_index::folder(dir);
    let entries = std::fs::read_dir(&folder).map_err(file("the workprints", &folder))?;
    for entry in entries {
        let entry = entry.map_err(file("the workprints", &folder))?;
        let name = entry.file_name();
        if let Some(name) = name.to_str().filter(|n| is_picture_file(n))
            && !known.contains(name)
        {
            remove_if_there(&entry.path())?;
        }
    }
    Ok(())
}

/// Whether a name is one that a workprint gets: `ROLL-NUMBER.mjpeg`.
fn is_picture_file(name: &str) -> bool {
    let number = name
        .strip_suffix(".mjpeg")
        .and_then(|stem| stem.rsplit_once('-'))
        .map(|(_, number)| number);
    number.is_some_and(|n| !n.is_empty() && n.bytes().all(|b| b.is_ascii_digit()))
}
