//! Photographs of visits, kept in the film's own folder under the fingerprint of what
//! they hold.

use std::path::{Path, PathBuf};

use onestrand_store::Production;

use crate::ProductionError;
use crate::error::{file, unfit};

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
    let kind = match image::guess_format(bytes) {
        Ok(image::ImageFormat::Jpeg) => "jpg",
        Ok(image::ImageFormat::Png) => "png",
        _ => {
            return Err(unfit(
                "this is no photograph that can be shown".to_owned(),
                "save it as JPEG or PNG",
            ));
        }
    };
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
    let plain = Path::new(name).file_name().is_some_and(|n| n == name);
    if name.is_empty() || (plain && folder(production).join(name).is_file()) {
        return Ok(());
    }
    Err(unfit(
        format!("there is no photograph {name:?} in the film's folder"),
        "bring the photograph in first",
    ))
}
