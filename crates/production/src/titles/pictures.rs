//! Pictures and typefaces for titles, kept in the film's own folder under the fingerprint
//! of what they hold.

use std::path::{Path, PathBuf};

use onestrand_store::Production;

use crate::ProductionError;
use crate::documents::{TitleGroundWord, TitleWords};
use crate::error::{file, unfit};

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
    let name = format!("{}.{kind}", &blake3::hash(bytes).to_hex()[..24]);
    let folder = folder(production);
    let path = folder.join(&name);
    if !path.is_file() {
        std::fs::create_dir_all(&folder).map_err(file("make the folder", &folder))?;
        let half = folder.join(format!("{name}.part"));
        std::fs::write(&half, bytes).map_err(file("write", &half))?;
        std::fs::rename(&half, &path).map_err(file("write", &path))?;
    }
    Ok(name)
}

fn kind_of(bytes: &[u8]) -> Option<&'static str> {
    match image::guess_format(bytes) {
        Ok(image::ImageFormat::Jpeg) => return Some("jpg"),
        Ok(image::ImageFormat::Png) => return Some("png"),
        _ => {}
    }
    match bytes.get(..4)? {
        [0, 1, 0, 0] | b"true" => Some("ttf"),
        b"OTTO" => Some("otf"),
        _ => None,
    }
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
    let plain = Path::new(name).file_name().is_some_and(|n| n == name);
    if plain && folder(production).join(name).is_file() {
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
