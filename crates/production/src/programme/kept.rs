//! The programme of a shelf as it is kept there: one small file, written whole.

use std::io::Write;
use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use crate::ProductionError;
use crate::documents::ProgrammeForm;
use crate::error::file;

/// The file beside the films.
const FILE: &str = "programme.json";
/// The form of the file.
const VERSION: u32 = 1;

/// A programme as it is kept.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct KeptProgramme {
    programme: u32,
    /// How often it was kept; 0 when it never was.
    pub revision: u64,
    /// What is asked.
    pub form: ProgrammeForm,
}

fn path(shelf: &Path) -> PathBuf {
    shelf.join(FILE)
}

/// The programme of a shelf; an empty one where none was kept.
///
/// # Errors
/// [`ProductionError::File`] when it cannot be read, [`ProductionError::Unfit`] when it is
/// none, or one of a later version of this program.
pub fn kept_programme(shelf: &Path) -> Result<KeptProgramme, ProductionError> {
    let path = path(shelf);
    let text = match std::fs::read_to_string(&path) {
        Ok(text) => text,
        Err(problem) if problem.kind() == std::io::ErrorKind::NotFound => {
            return Ok(KeptProgramme {
                programme: VERSION,
                revision: 0,
                form: ProgrammeForm::default(),
            });
        }
        Err(problem) => return Err(file("read the programme", &path)(problem)),
    };
    let kept: Result<KeptProgramme, _> = serde_json::from_str(&text);
    match kept {
        Ok(kept) if kept.programme == VERSION => Ok(kept),
        _ => Err(ProductionError::Unfit {
            message: format!(
                "what lies here is no programme that can be read: {}",
                path.display()
            ),
            hint: "put it elsewhere or take it away; then a new programme is begun".to_owned(),
        }),
    }
}

/// Keeps a programme in the place of the one before. The file is seen only when it is whole.
///
/// # Errors
/// As [`kept_programme`]; [`ProductionError::File`] when it cannot be written.
pub fn keep_programme(
    shelf: &Path,
    form: &ProgrammeForm,
) -> Result<KeptProgramme, ProductionError> {
    let kept = KeptProgramme {
        programme: VERSION,
        revision: kept_programme(shelf)?.revision + 1,
        form: form.clone(),
    };
    let text = serde_json::to_vec_pretty(&kept).map_err(onestrand_store::StoreError::from)?;
    let path = path(shelf);
    let part = path.with_extension("json.part");
    let written = std::fs::File::create(&part).and_then(|mut new| {
        new.write_all(&text)?;
        new.sync_all()
    });
    written
        .and_then(|()| std::fs::rename(&part, &path))
        .map_err(file("keep the programme", &path))?;
    Ok(kept)
}
