//! The roster of a shelf as it is kept there: one small file, written whole.

use std::io::Write;
use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use super::usual_roster;
use crate::ProductionError;
use crate::documents::RosterForm;
use crate::error::file;

/// The file beside the films.
const FILE: &str = "roster.json";
/// The form of the file.
const VERSION: u32 = 1;

/// A roster as it is kept.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct KeptRoster {
    roster: u32,
    /// How often it was kept; 0 when it never was.
    pub revision: u64,
    /// What is asked.
    pub form: RosterForm,
}

fn path(shelf: &Path) -> PathBuf {
    shelf.join(FILE)
}

/// The roster of a shelf; one to begin with where none was kept.
///
/// # Errors
/// [`ProductionError::File`] when it cannot be read, [`ProductionError::Unfit`] when it is
/// no roster, or one of a later version of this program.
pub fn kept_roster(shelf: &Path) -> Result<KeptRoster, ProductionError> {
    let path = path(shelf);
    let text = match std::fs::read_to_string(&path) {
        Ok(text) => text,
        Err(problem) if problem.kind() == std::io::ErrorKind::NotFound => {
            return Ok(KeptRoster {
                roster: VERSION,
                revision: 0,
                form: usual_roster(),
            });
        }
        Err(problem) => return Err(file("read the roster", &path)(problem)),
    };
    let kept: Result<KeptRoster, _> = serde_json::from_str(&text);
    match kept {
        Ok(kept) if kept.roster == VERSION => Ok(kept),
        _ => Err(ProductionError::Unfit {
            message: format!(
                "what lies here is no roster that can be read: {}",
                path.display()
            ),
            hint: "put it elsewhere or take it away; then a new roster is begun".to_owned(),
        }),
    }
}

/// Keeps a roster in the place of the one before. The file is seen only when it is whole.
///
/// # Errors
/// As [`kept_roster`]; [`ProductionError::File`] when it cannot be written.
pub fn keep_roster(shelf: &Path, form: &RosterForm) -> Result<KeptRoster, ProductionError> {
    let kept = KeptRoster {
        roster: VERSION,
        revision: kept_roster(shelf)?.revision + 1,
        form: form.clone(),
    };
    let text = serde_json::to_vec_pretty(&kept).map_err(onestrand_store::StoreError::from)?;
    write_whole(&path(shelf), &text)?;
    Ok(kept)
}

/// On the disk under a name of its own first, then in the place of what was there.
fn write_whole(path: &Path, text: &[u8]) -> Result<(), ProductionError> {
    let part = path.with_extension("json.part");
    let written = std::fs::File::create(&part).and_then(|mut new| {
        new.write_all(text)?;
        new.sync_all()
    });
    written
        .and_then(|()| std::fs::rename(&part, path))
        .map_err(file("keep the roster", path))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_roster_is_kept_and_comes_back() {
        let shelf = tempfile::tempdir().expect("a folder");
        let first = kept_roster(shelf.path()).expect("one to begin with");
        assert_eq!((first.revision, &first.form), (0, &usual_roster()));
        let mut form = first.form;
        form.sessions = 8;
        assert_eq!(keep_roster(shelf.path(), &form).expect("kept").revision, 1);
        let again = kept_roster(shelf.path()).expect("kept");
        assert_eq!((again.revision, again.form), (1, form));
        assert_eq!(
            std::fs::read_dir(shelf.path()).expect("a folder").count(),
            1
        );
    }

    #[test]
    fn what_is_no_roster_is_left_as_it_is() {
        let shelf = tempfile::tempdir().expect("a folder");
        for text in ["{", "{\"roster\":2,\"revision\":1,\"form\":{}}"] {
            std::fs::write(path(shelf.path()), text).expect("written");
            assert!(keep_roster(shelf.path(), &usual_roster()).is_err());
            let left = std::fs::read_to_string(path(shelf.path())).expect("there");
            assert_eq!(left, text);
        }
    }
}
