//! Runs of numbered pictures.

mod names;

use std::fs::File;
use std::path::{Path, PathBuf};

pub(crate) use self::names::are_of_one_run;
use self::names::{RunName, holds_cineon, run_in_words, runs_in};

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
