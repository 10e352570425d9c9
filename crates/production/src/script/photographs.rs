//! Photographs of visits, kept in the film's own folder under the fingerprint of what
//! they hold.

use std::path::{Path, PathBuf};

use onestrand_store::Production;

use crate::ProductionError;
use crate::error::{file, unfit};
use crate::kept_files;

/// The largest photograph that is kept. Unit: bytes.
const LARGEST: usize = 40 << 20;

/// The folder of them in the film's own.
const FOLDER: &str = "recce";

/// Where they lie.
fn folder(production: &Production) -> PathBuf {
    production.dir().join(FOLDER)
}

/// Keeps a photograph, a JPEG or a PNG, and gives the name by which a visit names it. The
/// same photograph is kept once.
///
/// # Errors
/// [`ProductionError::Unfit`] when it is no such picture or too large,
/// [`ProductionError::File`].
pub fn keep_photograph(production: &Production, bytes: &[u8]) -> Result<String, ProductionError> {
    if bytes.len() > LARGEST {
        return Err(unfit(
            "the photograph is larger than 40 MB".to_owned(),
            "make it smaller first; a visit wants no more than a screen shows",
        ));
    }
    let kind = kept_files::picture_kind(bytes).ok_or_else(|| {
        unfit(
            "this is no photograph that can be shown".to_owned(),
            "save it as JPEG or PNG",
        )
    })?;
    kept_files::keep(&folder(production), bytes, kind)
}

/// The bytes of a photograph, and what they are: `image/jpeg` or `image/png`.
///
/// # Errors
/// [`ProductionError::Unfit`] when there is none of that name, [`ProductionError::File`].
pub fn photograph(
    production: &Production,
    name: &str,
) -> Result<(Vec<u8>, &'static str), ProductionError> {
    photograph_fits(production, name)?;
    let bytes = photograph_in(production.dir(), name)?;
    let kind = match Path::new(name)
        .extension()
        .is_some_and(|kind| kind == "png")
    {
        true => "image/png",
        false => "image/jpeg",
    };
    Ok((bytes, kind))
}

/// The bytes of a photograph of the film in this folder, for whoever does not hold it.
/// A name that fitted once is a plain file name.
pub(crate) fn photograph_in(film: &Path, name: &str) -> Result<Vec<u8>, ProductionError> {
    let plain = Path::new(name).file_name().unwrap_or_default();
    let path = film.join(FOLDER).join(plain);
    std::fs::read(&path).map_err(file("read", &path))
}

/// Whether a visit may name it: nothing, or a photograph that lies in the folder.
pub(super) fn photograph_fits(production: &Production, name: &str) -> Result<(), ProductionError> {
    if name.is_empty() || kept_files::is_there(&folder(production), name) {
        return Ok(());
    }
    Err(unfit(
        format!("there is no photograph {name:?} in the film's folder"),
        "bring the photograph in first",
    ))
}
