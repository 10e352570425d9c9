//! Files that the user brought in, kept in a folder of the film under the fingerprint of
//! what they hold.

use std::path::Path;

use crate::ProductionError;
use crate::error::file;

/// Keeps a file and gives its name there; the same one is kept once, and half-written it
/// never stands under its name.
pub(crate) fn keep(folder: &Path, bytes: &[u8], kind: &str) -> Result<String, ProductionError> {
    let name = format!("{}.{kind}", &blake3::hash(bytes).to_hex()[..24]);
    let path = folder.join(&name);
    if !path.is_file() {
        std::fs::create_dir_all(folder).map_err(file("make the folder", folder))?;
        let half = folder.join(format!("{name}.part"));
        std::fs::write(&half, bytes).map_err(file("write", &half))?;
        std::fs::rename(&half, &path).map_err(file("write", &path))?;
    }
    Ok(name)
}

/// Whether a file of that name lies there; a path is no name.
pub(crate) fn is_there(folder: &Path, name: &str) -> bool {
    let plain = Path::new(name).file_name().is_some_and(|n| n == name);
    plain && folder.join(name).is_file()
}

/// `jpg` or `png` for what is a picture of that kind.
pub(crate) fn picture_kind(bytes: &[u8]) -> Option<&'static str> {
    match image::guess_format(bytes) {
        Ok(image::ImageFormat::Jpeg) => Some("jpg"),
        Ok(image::ImageFormat::Png) => Some("png"),
        _ => None,
    }
}
