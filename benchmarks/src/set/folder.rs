//! What a folder holds to be read.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use crate::trouble::Trouble;

/// Endings of pictures that are one frame each.
const PICTURES: &[&str] = &["dpx", "tif", "tiff", "png", "jpg", "jpeg", "cin"];
/// Endings of files that are about the clips; those without an ending are too.
const PAPERS: &[&str] = &["csv", "md", "txt", "json"];

/// Something to be read.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Scan {
    /// What it is called, from the folder.
    pub(crate) name: String,
    /// A film file, a picture alone, or the folder of a run of pictures.
    pub(crate) path: PathBuf,
    /// For a run: the ending of its pictures.
    pub(crate) run_of: Option<String>,
}

/// Everything to be read in a folder and the folders in it, by name. Pictures
/// of one kind alone in a folder are a run; of several kinds, each is a scan.
///
/// # Errors
/// [`Trouble::File`].
pub(crate) fn scans(folder: &Path) -> Result<Vec<Scan>, Trouble> {
    let mut all = Vec::new();
    look_into(folder, "", &mut all)?;
    Ok(all)
}

fn look_into(folder: &Path, within: &str, all: &mut Vec<Scan>) -> Result<(), Trouble> {
    let unread = || Trouble::file("look into the folder", folder);
    let entries = std::fs::read_dir(folder).map_err(unread())?;
    let mut paths = entries
        .map(|entry| entry.map(|entry| entry.path()))
        .collect::<Result<Vec<_>, _>>()
        .map_err(unread())?;
    paths.sort();
    let mut pictures: BTreeMap<String, Vec<PathBuf>> = BTreeMap::new();
    for path in paths {
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        let name = format!("{within}{name}");
        let ending = path
            .extension()
            .map(|e| e.to_string_lossy().to_ascii_lowercase());
        let ending = ending.unwrap_or_default();
        if path.is_dir() {
            look_into(&path, &format!("{name}/"), all)?;
        } else if PICTURES.contains(&ending.as_str()) {
            pictures.entry(ending).or_default().push(path);
        } else if !ending.is_empty() && !PAPERS.contains(&ending.as_str()) {
            all.push(Scan {
                name,
                path,
                run_of: None,
            });
        }
    }
    add_pictures(folder, within, pictures, all);
    Ok(())
}

fn add_pictures(
    folder: &Path,
    within: &str,
    pictures: BTreeMap<String, Vec<PathBuf>>,
    all: &mut Vec<Scan>,
) {
    if pictures.len() == 1 {
        all.extend(pictures.into_keys().map(|ending| Scan {
            name: if within.is_empty() {
                ".".to_owned()
            } else {
                within.trim_end_matches('/').to_owned()
            },
            path: folder.to_owned(),
            run_of: Some(ending),
        }));
        return;
    }
    all.extend(pictures.into_values().flatten().map(|path| Scan {
        name: format!(
            "{within}{}",
            path.file_name().unwrap_or_default().to_string_lossy()
        ),
        path,
        run_of: None,
    }));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn films_runs_and_lone_pictures_are_told_apart() {
        let room = tempfile::tempdir().expect("there is room");
        for path in [
            "a.mov",
            "list.csv",
            "SUMS",
            "run/1.dpx",
            "run/2.dpx",
            "odd/a.DPX",
            "odd/b.cin",
        ] {
            let path = room.path().join(path);
            std::fs::create_dir_all(path.parent().expect("it has one")).expect("there is room");
            std::fs::write(path, "").expect("there is room");
        }
        let found = scans(room.path()).expect("the folder is there");
        let found: Vec<_> = found
            .iter()
            .map(|s| (s.name.as_str(), s.run_of.as_deref()))
            .collect();
        let wanted = [
            ("a.mov", None),
            ("odd/b.cin", None),
            ("odd/a.DPX", None),
            ("run", Some("dpx")),
        ];
        assert_eq!(found, wanted);
    }
}
