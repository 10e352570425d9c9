//! Runs of numbered pictures.

use std::collections::BTreeMap;
use std::ffi::{OsStr, OsString};
use std::fs::File;
use std::os::unix::ffi::OsStrExt;
use std::path::{Path, PathBuf};

use crate::facts::check_size;
use crate::picture_header::read_header;
use crate::{IntakeError, PictureKind, Warning};

/// The widest gap taken for missing frames: ten rolls of 16 mm (400 ft at 40
/// frames a foot is 16,000); beyond that two runs were mixed.
const GAP_MOST: u64 = 160_000;
/// The most pictures in one run.
const PICTURES_MOST: u64 = 2_000_000;

/// One picture of a run.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SequencePicture {
    /// The number in its name; the place in the run for a picture without one.
    pub number: u64,
    /// Its file, absolute.
    pub path: PathBuf,
    /// Whether its header is sound, so that decoding it is tried.
    pub is_readable: bool,
}

/// A run of pictures of one kind and size, numbers rising.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sequence {
    pictures: Vec<SequencePicture>,
    kind: PictureKind,
}

impl Sequence {
    /// The pictures present, rising by number.
    #[must_use]
    pub fn pictures(&self) -> &[SequencePicture] {
        &self.pictures
    }

    /// The kind of the pictures.
    #[must_use]
    pub fn kind(&self) -> PictureKind {
        self.kind
    }

    /// The number of the first picture present.
    #[must_use]
    pub fn first_number(&self) -> u64 {
        self.pictures.first().map_or(0, |p| p.number)
    }

    /// The number of the last picture present.
    #[must_use]
    pub fn last_number(&self) -> u64 {
        self.pictures.last().map_or(0, |p| p.number)
    }

    /// Places from the first number to the last, those of missing pictures
    /// counted too. At least the number of pictures.
    #[must_use]
    pub fn expected_places(&self) -> u64 {
        self.last_number() - self.first_number() + 1
    }

    /// The pictures that are handed to FFmpeg.
    pub(crate) fn readable(&self) -> impl Iterator<Item = &SequencePicture> {
        self.pictures.iter().filter(|p| p.is_readable)
    }

    /// The first picture that can be read.
    pub(crate) fn first_readable(&self) -> Option<&SequencePicture> {
        self.readable().next()
    }

    /// All pictures in a folder that holds exactly one run.
    pub(crate) fn from_folder(folder: &Path) -> Result<(Self, Vec<Warning>), IntakeError> {
        let (runs, seen) = runs_in(folder)?;
        match runs.len() {
            0 if holds_cineon(folder) => Err(IntakeError::Cineon {
                path: folder.to_owned(),
            }),
            0 => Err(IntakeError::NoPictures {
                seen,
                path: folder.to_owned(),
            }),
            1 => Self::from_members(runs.into_values().next().unwrap_or_default()),
            _ => {
                let words = runs
                    .values()
                    .take(8)
                    .map(|members| run_in_words(members))
                    .collect();
                Err(IntakeError::SeveralSequences {
                    runs: words,
                    path: folder.to_owned(),
                })
            }
        }
    }

    /// The whole run that one picture belongs to.
    pub(crate) fn around(picture: &Path) -> Result<(Self, Vec<Warning>), IntakeError> {
        let alone = || Self::from_members(vec![(0, picture.to_owned())]);
        let Some(name) = RunName::of(picture) else {
            return alone();
        };
        if name.number.is_none() {
            return alone();
        }
        let folder = picture.parent().unwrap_or(Path::new("/"));
        // A folder that may be entered but not listed still gives its picture.
        let Ok((mut runs, _)) = runs_in(folder) else {
            return alone();
        };
        let members = runs
            .remove(&name.run)
            .unwrap_or_else(|| vec![(0, picture.to_owned())]);
        let count = members.len() as u64;
        let (sequence, mut warnings) = Self::from_members(members)?;
        if count > 1 {
            let (first, last) = (sequence.first_number(), sequence.last_number());
            warnings.insert(
                0,
                Warning::WholeRunTaken {
                    first,
                    last,
                    pictures: count,
                },
            );
        }
        Ok((sequence, warnings))
    }

    /// Exactly these pictures, which must be of one run.
    pub(crate) fn from_files(files: &[PathBuf]) -> Result<(Self, Vec<Warning>), IntakeError> {
        let mut members: Vec<(u64, PathBuf)> = Vec::with_capacity(files.len());
        let mut run = None;
        for file in files {
            let name = RunName::of(file);
            let odd = || IntakeError::MixedFiles {
                first: files[0].clone(),
                odd: file.clone(),
            };
            let name = name.ok_or_else(odd)?;
            let key = (file.parent().map(Path::to_owned), name.run);
            if *run.get_or_insert_with(|| key.clone()) != key {
                return Err(odd());
            }
            members.push((name.number.ok_or_else(odd)?, file.clone()));
        }
        Self::from_members(members)
    }

    fn from_members(mut members: Vec<(u64, PathBuf)>) -> Result<(Self, Vec<Warning>), IntakeError> {
        members.sort();
        let mut warnings = Vec::new();
        check_count(members.len() as u64)?;
        for pair in members.windows(2) {
            let ((before, first), (after, second)) = (&pair[0], &pair[1]);
            if before == after {
                let (first, second) = (first.clone(), second.clone());
                return Err(IntakeError::DoubleNumber {
                    number: *before,
                    first,
                    second,
                });
            }
            let missing = after - before - 1;
            if missing > GAP_MOST {
                let (after, path) = (*before, first.clone());
                return Err(IntakeError::GapTooWide {
                    after,
                    missing,
                    limit: GAP_MOST,
                    path,
                });
            }
            if missing > 0 {
                warnings.push(Warning::Gap {
                    after: *before,
                    missing,
                });
            }
        }
        let (sequence, broken) = Self::look_at(members)?;
        warnings.extend(broken);
        Ok((sequence, warnings))
    }

    /// Looks at every header: one kind, one size; broken ones keep their place.
    fn look_at(members: Vec<(u64, PathBuf)>) -> Result<(Self, Vec<Warning>), IntakeError> {
        let mut first: Option<(PictureKind, u32, u32)> = None;
        let mut warnings = Vec::new();
        let mut pictures = Vec::with_capacity(members.len());
        for (number, path) in members {
            let failed =
                |source| IntakeError::from_io("looking at a picture", path.clone(), source);
            let header = File::open(&path)
                .and_then(|mut file| read_header(&mut file))
                .map_err(failed)?;
            if let Some(found) = header {
                let expected = *first.get_or_insert(found);
                if found != expected {
                    let words =
                        |(kind, w, h): (PictureKind, u32, u32)| format!("a {kind} of {w}×{h}");
                    return Err(IntakeError::UnlikePictures {
                        expected: words(expected),
                        found: words(found),
                        path,
                    });
                }
            } else {
                warnings.push(Warning::Undecodable {
                    number,
                    path: path.clone(),
                });
            }
            pictures.push(SequencePicture {
                number,
                path,
                is_readable: header.is_some(),
            });
        }
        let Some((kind, width, height)) = first else {
            let path = pictures
                .into_iter()
                .next()
                .map(|p| p.path)
                .unwrap_or_default();
            return Err(IntakeError::NoFrames {
                said: "no picture has a sound header".to_owned(),
                path,
            });
        };
        check_size(width, height, &pictures[0].path)?;
        Ok((Self { pictures, kind }, warnings))
    }
}

fn holds_cineon(folder: &Path) -> bool {
    let is_cineon = |path: &Path| {
        path.extension()
            .is_some_and(|e| e.eq_ignore_ascii_case("cin"))
    };
    std::fs::read_dir(folder)
        .is_ok_and(|entries| entries.flatten().any(|entry| is_cineon(&entry.path())))
}

fn check_count(found: u64) -> Result<(), IntakeError> {
    if found > PICTURES_MOST {
        return Err(IntakeError::LimitReached {
            what: "the pictures of one run",
            found,
            limit: PICTURES_MOST,
        });
    }
    Ok(())
}

/// What a run has in common: the name before the number, and the extension.
type RunKey = (OsString, OsString);
/// The pictures of each run of a folder, with their numbers.
type Runs = BTreeMap<RunKey, Vec<(u64, PathBuf)>>;

struct RunName {
    run: RunKey,
    number: Option<u64>,
}

impl RunName {
    /// Takes a name apart: `scan_0042.dpx` is run `scan_`, number 42.
    fn of(path: &Path) -> Option<Self> {
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
fn runs_in(folder: &Path) -> Result<(Runs, usize), IntakeError> {
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

fn run_in_words(members: &[(u64, PathBuf)]) -> String {
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
