//! Pictures and typefaces for titles, kept in the film's own folder under the fingerprint
//! of what they hold.

use std::path::PathBuf;

use onestrand_store::Production;

use crate::ProductionError;
use crate::documents::{TitleGroundWord, TitleWords};
use crate::error::{file, unfit};
use crate::kept_files;

/// The largest file that is kept. Unit: bytes.
const LARGEST: usize = 60 << 20;

/// The folder of them in the film's own.
const FOLDER: &str = "titles";

fn folder(production: &Production) -> PathBuf {
    production.dir().join(FOLDER)
}

/// Keeps artwork for a title, a JPEG or a PNG, or a typeface, and gives the name by which a
/// title names it. The same file is kept once.
///
/// # Errors
/// [`ProductionError::Unfit`] when it is neither or too large, [`ProductionError::File`].
pub fn keep_for_title(production: &Production, bytes: &[u8]) -> Result<String, ProductionError> {
    if bytes.len() > LARGEST {
        return Err(unfit(
            "the file is larger than 60 MB".to_owned(),
            "make the picture smaller first; 4,000 pixels across are plenty",
        ));
    }
    let kind = kind_of(bytes).ok_or_else(|| {
        unfit(
            "this is neither a picture nor a typeface".to_owned(),
            "pictures come as JPEG or PNG, typefaces as TTF or OTF",
        )
    })?;
    kept_files::keep(&folder(production), bytes, kind)
}

fn kind_of(bytes: &[u8]) -> Option<&'static str> {
    kept_files::picture_kind(bytes).or(match bytes.get(..4)? {
        [0, 1, 0, 0] | b"true" => Some("ttf"),
        b"OTTO" => Some("otf"),
        _ => None,
    })
}

/// The bytes of a kept file.
///
/// # Errors
/// [`ProductionError::Unfit`] when there is none of that name, [`ProductionError::File`].
pub(crate) fn kept_file(production: &Production, name: &str) -> Result<Vec<u8>, ProductionError> {
    is_there(production, name)?;
    let path = folder(production).join(name);
    std::fs::read(&path).map_err(file("read", &path))
}

fn is_there(production: &Production, name: &str) -> Result<(), ProductionError> {
    if kept_files::is_there(&folder(production), name) {
        return Ok(());
    }
    Err(unfit(
        format!("there is no file {name:?} among those of the titles"),
        "bring the picture or the typeface in first",
    ))
}

/// Whether what a title names is there.
pub(super) fn kept_files_fit(
    production: &Production,
    title: &TitleWords,
) -> Result<(), ProductionError> {
    if title.ground.kind == TitleGroundWord::Picture && !title.ground.picture.is_empty() {
        is_there(production, &title.ground.picture)?;
    }
    if !title.lettering.face.is_empty() {
        is_there(production, &title.lettering.face)?;
    }
    Ok(())
}
