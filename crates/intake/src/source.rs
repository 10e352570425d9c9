//! What the user pointed at.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use crate::container::{Sniffed, Wholeness, sniff, wholeness};
use crate::facts::{Probed, probe};
use crate::guard::{LinkFolder, film_input};
use crate::sequence::are_of_one_run;
use crate::stamp::Stamp;
use crate::{Container, Ffmpeg, IntakeError, Sequence, StreamFacts, Warning};

/// A film file or a run of pictures, opened, looked at and never written to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Source {
    path: PathBuf,
    kind: SourceKind,
    facts: StreamFacts,
    breaks_off: bool,
    /// Of each file, in order, before anything of it was looked at.
    stamps: Vec<Stamp>,
}

/// Film file or run of pictures.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SourceKind {
    /// One file with a picture track.
    Film(Container),
    /// One file a frame.
    Sequence(Sequence),
}

impl Source {
    /// Opens a film file, a folder with one run of pictures, one picture of a
    /// run (the whole run in its folder is taken, and a warning says so), or
    /// several pictures of one run (exactly those).
    ///
    /// # Errors
    /// Whatever is wrong with the file, as one of the cases of [`IntakeError`];
    /// nothing is written anywhere.
    pub fn open(ffmpeg: &Ffmpeg, paths: &[PathBuf]) -> Result<(Self, Vec<Warning>), IntakeError> {
        let Some(first) = paths.first() else {
            return Err(IntakeError::NothingNamed);
        };
        let absolute = paths
            .iter()
            .map(|p| absolute(p))
            .collect::<Result<Vec<_>, _>>()?;
        if let [only] = absolute.as_slice() {
            let failed = |source| IntakeError::from_io("looking for it", only.clone(), source);
            if std::fs::metadata(only).map_err(failed)?.is_dir() {
                return Self::from_sequence(ffmpeg, only, Sequence::from_folder(only)?);
            }
            return match sniff(only)? {
                Sniffed::Film(container) => Self::from_film(ffmpeg, only, container),
                Sniffed::Picture(_) => Self::from_sequence(ffmpeg, only, Sequence::around(only)?),
            };
        }
        for path in &absolute {
            let failed = |source| IntakeError::from_io("looking for it", path.clone(), source);
            if !std::fs::metadata(path).map_err(failed)?.is_file() {
                return Err(IntakeError::MixedFiles {
                    first: first.clone(),
                    odd: path.clone(),
                });
            }
        }
        let folder = absolute[0].parent().unwrap_or(Path::new("/"));
        Self::from_sequence(ffmpeg, folder, Sequence::from_files(&absolute)?)
    }

    /// Opens what was named together, in the order given: each film file and
    /// each folder is a source of its own; pictures of one run that follow each
    /// other in the list are one (exactly those; one alone stands for its run).
    ///
    /// # Errors
    /// As [`Source::open`], for the first that cannot be opened.
    pub fn open_each(
        ffmpeg: &Ffmpeg,
        paths: &[PathBuf],
    ) -> Result<(Vec<Self>, Vec<Warning>), IntakeError> {
        let (mut sources, mut warnings) = (Vec::new(), Vec::new());
        for together in paths.chunk_by(|a, b| are_of_one_run(a, b)) {
            let (source, told) = Self::open(ffmpeg, together)?;
            sources.push(source);
            warnings.extend(told);
        }
        if sources.is_empty() {
            Err(IntakeError::NothingNamed)
        } else {
            Ok((sources, warnings))
        }
    }

    fn from_film(
        ffmpeg: &Ffmpeg,
        path: &Path,
        container: Container,
    ) -> Result<(Self, Vec<Warning>), IntakeError> {
        let stamps = vec![Stamp::of(path)?];
        let whole = wholeness(path, container)?;
        if whole == Wholeness::NoFrameTable {
            return Err(IntakeError::NoFrameTable {
                path: path.to_owned(),
            });
        }
        let probed = probe(ffmpeg, film_input(path, container), path)?;
        let warnings = several_tracks(&probed);
        let breaks_off = whole == Wholeness::BreaksOff;
        let kind = SourceKind::Film(container);
        Ok((
            Self {
                path: path.to_owned(),
                kind,
                facts: probed.facts,
                breaks_off,
                stamps,
            },
            warnings,
        ))
    }

    fn from_sequence(
        ffmpeg: &Ffmpeg,
        path: &Path,
        (sequence, warnings): (Sequence, Vec<Warning>),
    ) -> Result<(Self, Vec<Warning>), IntakeError> {
        let pictures = sequence.pictures().iter();
        let stamps = pictures.map(|picture| Stamp::of(&picture.path));
        let stamps = stamps.collect::<Result<_, _>>()?;
        let facts = sequence_facts(ffmpeg, &sequence, path)?;
        let kind = SourceKind::Sequence(sequence);
        Ok((
            Self {
                path: path.to_owned(),
                kind,
                facts,
                breaks_off: false,
                stamps,
            },
            warnings,
        ))
    }

    /// The file; for a run of pictures the folder or picture that was named.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// The files it consists of, in order.
    pub(crate) fn files(&self) -> Box<dyn Iterator<Item = &Path> + '_> {
        match &self.kind {
            SourceKind::Film(_) => Box::new(std::iter::once(self.path.as_path())),
            SourceKind::Sequence(run) => Box::new(run.pictures().iter().map(|p| p.path.as_path())),
        }
    }

    pub(crate) fn stamps(&self) -> &[Stamp] {
        &self.stamps
    }

    /// Film file or run of pictures.
    #[must_use]
    pub fn kind(&self) -> &SourceKind {
        &self.kind
    }

    /// The run of pictures, if it is one.
    #[must_use]
    pub fn sequence(&self) -> Option<&Sequence> {
        match &self.kind {
            SourceKind::Sequence(sequence) => Some(sequence),
            SourceKind::Film(_) => None,
        }
    }

    /// What is known of the pictures.
    #[must_use]
    pub fn facts(&self) -> &StreamFacts {
        &self.facts
    }

    /// Whether the file's own structure says that its end is missing.
    #[must_use]
    pub fn breaks_off(&self) -> bool {
        self.breaks_off
    }

    /// File frames that the source promises, where it says so; for a run, the
    /// pictures that can be read.
    #[must_use]
    pub fn frames_promised(&self) -> Option<u64> {
        match &self.kind {
            SourceKind::Film(_) => self.facts.frames_promised,
            SourceKind::Sequence(sequence) => Some(sequence.readable().count() as u64),
        }
    }

    /// Places that the source counts: for a run, first to last number with
    /// those of missing pictures; for a film file the promised frames.
    #[must_use]
    pub fn expected_places(&self) -> Option<u64> {
        match &self.kind {
            SourceKind::Film(_) => self.facts.frames_promised,
            SourceKind::Sequence(sequence) => Some(sequence.expected_places()),
        }
    }

    /// The source in one line of words.
    #[must_use]
    pub fn describe(&self) -> String {
        let facts = &self.facts;
        let mut words = match &self.kind {
            SourceKind::Film(container) => format!("{} file, {}", container.words(), facts.codec),
            SourceKind::Sequence(s) => format!("{} {} pictures", s.pictures().len(), s.kind()),
        };
        // Writing to a string cannot fail.
        let _ = write!(
            words,
            ", {}×{} pixels, {}",
            facts.width, facts.height, facts.pix_fmt
        );
        if let Some(rate) = facts.rate.and_then(crate::Ratio::as_fps) {
            let _ = write!(words, ", {rate} frames a second");
        }
        if let (SourceKind::Film(_), Some(frames)) = (&self.kind, facts.frames_promised) {
            let _ = write!(words, ", about {frames} frames");
        }
        words
    }
}

/// Absolute without following links, so that the user finds the name again.
fn absolute(path: &Path) -> Result<PathBuf, IntakeError> {
    std::path::absolute(path)
        .map_err(|source| IntakeError::from_io("looking for it", path.to_owned(), source))
}

fn several_tracks(probed: &Probed) -> Vec<Warning> {
    let (tracks, taken) = (probed.picture_tracks, probed.facts.stream);
    if tracks > 1 {
        vec![Warning::SeveralPictureTracks { tracks, taken }]
    } else {
        Vec::new()
    }
}

/// How many pictures of a run are tried before it is given up.
const TRIES: usize = 8;

/// Asks about the first picture that FFmpeg can make out; a broken first one
/// must not spoil a run.
fn sequence_facts(
    ffmpeg: &Ffmpeg,
    sequence: &Sequence,
    path: &Path,
) -> Result<StreamFacts, IntakeError> {
    let nothing = IntakeError::NoFrames {
        said: String::new(),
        path: path.to_owned(),
    };
    let mut refusal = Err(nothing);
    for picture in sequence
        .readable()
        .take(TRIES)
        .map(|picture| picture.path.as_path())
    {
        let links = LinkFolder::of(sequence, std::iter::once(picture))?;
        match probe(ffmpeg, links.input(), picture) {
            // A picture has no rate; FFmpeg's 25 would only be its habit.
            Ok(Probed { facts, .. }) => {
                return Ok(StreamFacts {
                    rate: None,
                    base_rate: None,
                    time_base: None,
                    start_pts: None,
                    frames_promised: None,
                    ..facts
                });
            }
            Err(error) => refusal = Err(error),
        }
    }
    refusal
}
