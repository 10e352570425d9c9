//! Names of numbered pictures, and the runs that a folder holds.

use std::collections::BTreeMap;
use std::ffi::{OsStr, OsString};
use std::os::unix::ffi::OsStrExt;
use std::path::{Path, PathBuf};

use super::check_count;
use crate::{IntakeError, PictureKind};

/// What a run has in common: the name before the number, and the extension.
pub(super) type RunKey = (OsString, OsString);

/// The pictures of each run of a folder, with their numbers.
pub(super) type Runs = BTreeMap<RunKey, Vec<(u64, PathBuf)>>;

pub(super) struct RunName {
    pub(super) run: RunKey,
    pub(super) number: Option<u64>,
}

impl RunName {
    /// Takes a name apart: `scan_0042.dpx` is run `scan_`, number 42.
    pub(super) fn of(path: &Path) -> Option<Self> {
        let extension = path.extension()?;
        PictureKind::from_extension(extension.to_str()?)?;
        let stem = path.file_stem()?.as_bytes();
        let digits = stem.iter().rev().take_while(|b| b.is_ascii_digit()).count();
        let (before, digits) = stem.split_at(stem.len() - digits);
        let number = std::str::from_utf8(digits)
            .ok()
            .and_then(|d| d.parse().ok());
        let before = if number.is_some() { before } else { stem };
        let run = (
            OsStr::from_bytes(before).to_owned(),
            extension.to_ascii_lowercase(),
        );
        Some(Self { run, number })
    }
}

/// Whether two names are of numbered pictures of one run in one folder.
pub(crate) fn are_of_one_run(a: &Path, b: &Path) -> bool {
    match (RunName::of(a), RunName::of(b)) {
        (Some(x), Some(y)) => {
            x.number.is_some() && y.number.is_some() && x.run == y.run && a.parent() == b.parent()
        }
        _ => false,
    }
}

/// All runs of a folder, and how many entries it has.
pub(super) fn runs_in(folder: &Path) -> Result<(Runs, usize), IntakeError> {
    let failed = |source| IntakeError::from_io("listing the folder", folder.to_owned(), source);
    let (mut runs, mut seen) = (Runs::new(), 0);
    for entry in std::fs::read_dir(folder).map_err(failed)? {
        let path = entry.map_err(failed)?.path();
        seen += 1;
        check_count(seen as u64)?;
        // Names with a leading dot are other systems' notes, not pictures.
        let is_hidden = path
            .file_name()
            .is_some_and(|name| name.as_bytes().starts_with(b"."));
        if let Some(name) = RunName::of(&path).filter(|_| !is_hidden && path.is_file()) {
            runs.entry(name.run)
                .or_default()
                .push((name.number.unwrap_or(0), path));
        }
    }
    Ok((runs, seen))
}

pub(super) fn holds_cineon(folder: &Path) -> bool {
    let is_cineon = |path: &Path| {
        path.extension()
            .is_some_and(|e| e.eq_ignore_ascii_case("cin"))
    };
    std::fs::read_dir(folder)
        .is_ok_and(|entries| entries.flatten().any(|entry| is_cineon(&entry.path())))
}

pub(super) fn run_in_words(members: &[(u64, PathBuf)]) -> String {
    let name = |path: &Path| {
        path.file_name()
            .unwrap_or_default()
            .to_string_lossy()
            .into_owned()
    };
    match (members.iter().min(), members.iter().max()) {
        (Some(first), Some(last)) if first != last => {
            format!(
                "{} to {}, {} pictures",
                name(&first.1),
                name(&last.1),
                members.len()
            )
        }
        (Some(only), _) => name(&only.1),
        _ => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_taken_apart() {
        let part = |name: &str| {
            RunName::of(Path::new(name)).map(|n| {
                (
                    n.run.0.into_string().unwrap(),
                    n.run.1.into_string().unwrap(),
                    n.number,
                )
            })
        };
        assert_eq!(
            part("/x/scan_0042.DPX"),
            Some(("scan_".into(), "dpx".into(), Some(42)))
        );
        assert_eq!(
            part("/x/00007.png"),
            Some((String::new(), "png".into(), Some(7)))
        );
        assert_eq!(
            part("/x/title.tif"),
            Some(("title".into(), "tif".into(), None))
        );
        assert_eq!(
            part("/x/r2.v3.0009.jpg"),
            Some(("r2.v3.".into(), "jpg".into(), Some(9)))
        );
        assert_eq!(part("/x/notes.txt"), None);
        assert_eq!(
            part("/x/99999999999999999999999.png").map(|p| p.2),
            Some(None)
        );
    }
}
