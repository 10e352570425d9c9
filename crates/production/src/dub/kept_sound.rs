//! Sounds in the film's folder, each under the fingerprint of its file.

use std::path::Path;

use tempfile::NamedTempFile;

use crate::ProductionError;
use crate::error::file;

/// A file for a sound that is coming in; it goes when it is not kept.
pub(super) fn half(folder: &Path) -> Result<NamedTempFile, ProductionError> {
    tempfile::Builder::new()
        .prefix("incoming-")
        .suffix(".part")
        .tempfile_in(folder)
        .map_err(file("write in", folder))
}

/// Keeps a file that is whole, and gives its name; the same one is kept once.
pub(super) fn under_its_fingerprint(
    half: NamedTempFile,
    folder: &Path,
) -> Result<String, ProductionError> {
    let mut hasher = blake3::Hasher::new();
    let mut written = std::fs::File::open(half.path()).map_err(file("read", half.path()))?;
    std::io::copy(&mut written, &mut hasher).map_err(file("read", half.path()))?;
    // What is said to be kept is on the disk.
    written.sync_all().map_err(file("write", half.path()))?;
    let kept = format!("{}.wav", &hasher.finalize().to_hex()[..24]);
    let place = folder.join(&kept);
    if !place.is_file() {
        half.persist(&place)
            .map_err(|e| file("write", &place)(e.error))?;
    }
    Ok(kept)
}

/// Takes away what a killed program has left half brought in. The film has just been taken
/// into this program's hand, so no sound is coming.
pub(super) fn sweep(folder: &Path) {
    let Ok(entries) = std::fs::read_dir(folder) else {
        return;
    };
    for entry in entries.flatten() {
        let name = entry.file_name();
        let name = name.to_string_lossy();
        let is_coming = name.starts_with("incoming-") || name.starts_with("arriving-");
        if is_coming && name.ends_with(".part") {
            // What cannot be taken away only takes room.
            let _gone = std::fs::remove_file(entry.path());
        }
    }
}
