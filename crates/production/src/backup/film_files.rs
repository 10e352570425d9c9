//! The files of a film that cannot be made again, besides the production file.

use std::path::Path;

use crate::ProductionError;
use crate::error::file;

/// The folders they lie in: sounds and recordings, artwork and typefaces of titles,
/// photographs of visits.
const FOLDERS: [&str; 3] = ["sounds", "titles", "recce"];
/// How many letters of its fingerprint the name of a kept file has.
const LETTERS: usize = 24;

/// A file of a film.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct FilmFile {
    /// Where in the film's folder: `sounds/….wav`.
    pub(super) name: String,
    /// Unit: bytes.
    pub(super) bytes: u64,
    /// It is named by its fingerprint and is never written again.
    pub(super) lasts: bool,
}

impl FilmFile {
    /// Whether its name agrees with its fingerprint; one that has no such name always does.
    pub(super) fn is_named_after(&self, blake3: &str) -> bool {
        !self.lasts || stem(&self.name) == blake3.get(..LETTERS)
    }
}

/// The files of a film, in the order of their names.
pub(super) fn in_film(dir: &Path) -> Result<Vec<FilmFile>, ProductionError> {
    let mut all = Vec::new();
    for folder in FOLDERS {
        let at = dir.join(folder);
        if !at.is_dir() {
            continue;
        }
        for entry in std::fs::read_dir(&at).map_err(file("read", &at))? {
            let entry = entry.map_err(file("read", &at))?;
            let about = entry.metadata().map_err(file("read", &entry.path()))?;
            // A name that is no text is none of ours.
            let Ok(name) = entry.file_name().into_string() else {
                continue;
            };
            if about.is_file() && is_ours(&name) {
                all.push(FilmFile {
                    lasts: is_fingerprint(&name),
                    name: format!("{folder}/{name}"),
                    bytes: about.len(),
                });
            }
        }
    }
    all.sort_by(|one, other| one.name.cmp(&other.name));
    Ok(all)
}

/// What is being written goes when it breaks off, but not what was recorded.
fn is_ours(name: &str) -> bool {
    !name.ends_with(".part") || (name.starts_with("recording-") && name.ends_with(".wav.part"))
}

/// Whether a name in the list of a backup is one that a film has: no other place is written.
pub(super) fn is_place(name: &str) -> bool {
    let Some((folder, name)) = name.split_once('/') else {
        return false;
    };
    let plain =
        !name.is_empty() && !name.starts_with('.') && !name.contains(['/', '\\', ':', '\0']);
    FOLDERS.contains(&folder) && plain && is_ours(name)
}

fn is_fingerprint(name: &str) -> bool {
    let hex =
        |letters: &str| letters.len() == LETTERS && letters.bytes().all(|b| b.is_ascii_hexdigit());
    stem(name).is_some_and(hex)
}

/// The name before its first dot, without the folder.
fn stem(name: &str) -> Option<&str> {
    let name = name.rsplit('/').next()?;
    name.split('.').next()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_list_can_name_a_place_outside_of_the_film() {
        for good in [
            "sounds/0f.wav",
            "recce/a b.jpg",
            "sounds/recording-1.wav.part",
        ] {
            assert!(is_place(good), "{good}");
        }
        for bad in [
            "../x",
            "sounds/../x",
            "sounds/..",
            "production.db",
            "sounds/",
            "/etc/x",
            "recce/a\\b",
            "workprints/index.db",
            "sounds/C:x",
            "sounds/incoming-1.part",
        ] {
            assert!(!is_place(bad), "{bad}");
        }
    }

    #[test]
    fn what_is_named_by_its_fingerprint_lasts() {
        let name = "0123456789abcdef01234567";
        assert!(is_fingerprint(&format!("{name}.wav")));
        assert!(!is_fingerprint("recording-1.json"));
        let one = |lasts| FilmFile {
            name: format!("sounds/{name}.wav"),
            bytes: 1,
            lasts,
        };
        assert!(one(true).is_named_after(&format!("{name}89")));
        assert!(!one(true).is_named_after("f".repeat(64).as_str()));
        assert!(one(false).is_named_after("f"));
    }
}
