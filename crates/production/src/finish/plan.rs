//! Which scans are wanted, and what stands at each place.

use std::collections::BTreeMap;
use std::fs::Metadata;
use std::path::{Path, PathBuf};

use onestrand_bench::{Film, Laid};
use onestrand_compose::MadeOf;
use onestrand_cut::{PieceKind, TrialCut};
use onestrand_film::{FrameName, FramePos, FrameRange, RollId};
use onestrand_finish::{FinishScan, Place};
use onestrand_intake::{Cancel, Ffmpeg, FrameIndex, IndexRow, PlaneHash, Ratio, Source};
use onestrand_store::{PartIndex, Production, RollRecord, ScanRecord, StoreError, Workprints};

use crate::ProductionError;
use crate::archive::{files_in, scan_among};
use crate::moved::whereabouts;

/// What a place shows, for people.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Said {
    /// This frame.
    Frame(FrameName),
    /// This frame, which no scan shows.
    Missing(FrameName),
    /// A frame of a title that is still to be photographed.
    Card(String),
    /// Leader.
    Leader,
}

/// A stretch of the finish.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Stretch {
    /// Frames of a roll, last first where the strip lies end for end.
    Frames(RollId, FrameRange, bool),
    /// So many frames of leader.
    Leader(u32),
    /// So many frames of a title that is still to be photographed.
    Card(String, u32),
}

/// The version piece by piece, as it was planned.
pub(super) fn planned(cut: &TrialCut) -> Vec<Stretch> {
    let one = |piece: &onestrand_cut::Piece| match &piece.kind {
        PieceKind::Shot(span) => Stretch::Frames(span.roll.clone(), span.range, false),
        PieceKind::Leader(frames) => Stretch::Leader(frames.count()),
        PieceKind::Card { frames, title } => Stretch::Card(title.clone(), frames.count()),
    };
    cut.pieces().iter().map(one).collect()
}

/// The version as it lies on the bench: what is on the reel, then what is to come.
/// Gives besides how many frames lie turned over or end for end.
pub(super) fn as_it_is(cut: &TrialCut, parts: Vec<(Film, Laid)>) -> (Vec<Stretch>, u64) {
    let mut turned = 0;
    let mut one = |(film, laid): (Film, Laid)| {
        if laid != Laid::Right {
            turned += u64::from(film.frames());
        }
        match film {
            Film::Roll { roll, begin, end } => {
                let range = FrameRange::of(begin, end).ok()?;
                Some(Stretch::Frames(roll, range, laid.is_tail_first()))
            }
            Film::Other { position, frames } => {
                let piece = position.checked_sub(1).and_then(|n| cut.pieces().get(n));
                Some(match piece.map(|p| &p.kind) {
                    Some(PieceKind::Card { title, .. }) => Stretch::Card(title.clone(), frames),
                    _ => Stretch::Leader(frames),
                })
            }
        }
    };
    let stretches = parts.into_iter().filter_map(&mut one).collect();
    (stretches, turned)
}

/// Which scans are wanted, and what stands at each place.
pub(super) struct Plan {
    wanted: BTreeMap<(String, u32), usize>,
    pub(super) places: Vec<Place>,
    /// What each place shows, for people.
    pub(super) said: Vec<Said>,
    prints: Workprints,
}

impl Plan {
    /// Lays the stretches one behind the other; `cards` says which card is drawn for a
    /// title, if any is.
    pub(super) fn of(
        production: &Production,
        stretches: &[Stretch],
        cards: &mut dyn FnMut(&str) -> Result<Option<usize>, ProductionError>,
    ) -> Result<Self, ProductionError> {
        let mut plan = Self {
            wanted: BTreeMap::new(),
            places: Vec::new(),
            said: Vec::new(),
            prints: Workprints::open(production.dir())?,
        };
        for stretch in stretches {
            match stretch {
                Stretch::Frames(roll, range, is_reversed) => {
                    let from = plan.places.len();
                    plan.shot(roll, *range)?;
                    if *is_reversed {
                        plan.places[from..].reverse();
                        plan.said[from..].reverse();
                    }
                }
                Stretch::Leader(frames) => {
                    for _ in 0..*frames {
                        plan.put(Place::Black, Said::Leader);
                    }
                }
                Stretch::Card(title, frames) => plan.card(title, *frames, cards(title)?),
            }
        }
        Ok(plan)
    }

    fn put(&mut self, place: Place, said: Said) {
        self.places.push(place);
        self.said.push(said);
    }

    fn card(&mut self, title: &str, frames: u32, card: Option<usize>) {
        for frame in 0..frames {
            let place = card.map_or(Place::Black, |card| Place::Card { card, frame });
            self.put(place, Said::Card(title.to_owned()));
        }
    }

    fn shot(&mut self, roll: &RollId, range: FrameRange) -> Result<(), ProductionError> {
        let name = |frame: u32| FrameName {
            roll: roll.clone(),
            frame: FramePos::new(frame).unwrap_or(FramePos::MAX),
        };
        let mut left = range.begin().index()..range.end().index();
        for row in self.prints.rows(roll.as_str(), range)? {
            let Some(at) = left.next() else { break };
            // Words of another version, if there were any, would be no reason to
            // show nothing.
            let put_together = row.made_of.as_deref().and_then(MadeOf::parse);
            match row.shown_by {
                Some((part, file_frame)) => {
                    let made_of = put_together.unwrap_or(MadeOf::One(file_frame));
                    let next = self.wanted.len();
                    let key = (roll.as_str().to_owned(), part);
                    let scan = *self.wanted.entry(key).or_insert(next);
                    self.put(Place::Shown { scan, made_of }, Said::Frame(name(at)));
                }
                None => self.put(Place::Black, Said::Missing(name(at))),
            }
        }
        // A roll on paper, or one whose workprint was thrown away.
        for at in left {
            self.put(Place::Black, Said::Missing(name(at)));
        }
        Ok(())
    }

    pub(super) fn open_scans(
        &mut self,
        production: &Production,
        ffmpeg: &Ffmpeg,
        cancel: &Cancel,
    ) -> Result<Vec<FinishScan>, ProductionError> {
        let mut by_number: Vec<(&(String, u32), &usize)> = self.wanted.iter().collect();
        by_number.sort_by_key(|entry| *entry.1);
        let keys: Vec<(String, u32)> = by_number.into_iter().map(|e| e.0.clone()).collect();
        let mut scans = Vec::new();
        for (name, part) in keys {
            let roll = production.roll(&name)?;
            let index = self.prints.part_index(&name, part)?;
            scans.push(FinishScan {
                source: reopen(production.dir(), &roll, part, ffmpeg, cancel)?,
                index: frame_index(&index),
            });
        }
        Ok(scans)
    }
}

/// Opens a scan again and sees that its size is still that which was read; the
/// planes of the fetched frames are compared with the index besides. One that is not
/// where it was is looked for by its BLAKE3.
pub(crate) fn reopen(
    dir: &Path,
    roll: &RollRecord,
    part: u32,
    ffmpeg: &Ffmpeg,
    cancel: &Cancel,
) -> Result<Source, ProductionError> {
    let scan = roll
        .scans
        .get(part as usize)
        .ok_or_else(|| StoreError::NotFound {
            what: "scan",
            name: format!("{} {part}", roll.name),
        })?;
    let mut paths = whereabouts(scan, dir);
    if bytes_of(&paths) != Some(scan.bytes) {
        paths = found_again(dir, roll, scan, &paths, cancel)?;
    }
    let (source, _warnings) = Source::open(ffmpeg, &paths)?;
    Ok(source)
}

/// All bytes of the files; none where one is not there.
fn bytes_of(paths: &[PathBuf]) -> Option<u64> {
    let one = |path: &PathBuf| {
        Some(
            std::fs::metadata(path)
                .ok()
                .filter(Metadata::is_file)?
                .len(),
        )
    };
    paths.iter().map(one).sum()
}

/// A scan that was moved or given another name, found by size and BLAKE3 in the folder in
/// which it was, or in one with the production, and in all folders in them.
fn found_again(
    dir: &Path,
    roll: &RollRecord,
    scan: &ScanRecord,
    paths: &[PathBuf],
    cancel: &Cancel,
) -> Result<Vec<PathBuf>, ProductionError> {
    let path = paths.first().cloned().unwrap_or_default();
    let folders = [path.parent(), Some(dir)];
    // A folder within another is looked through once; the root of a disk not at all.
    let mut looked: Vec<PathBuf> = Vec::new();
    for folder in folders
        .into_iter()
        .flatten()
        .filter(|f| f.parent().is_some())
    {
        if !looked.iter().any(|known| folder.starts_with(known)) {
            looked.push(folder.to_owned());
        }
    }
    if let Some(found) = scan_among(scan, &files_in(&looked, cancel), cancel)? {
        return Ok(found);
    }
    let looked: Vec<String> = looked.iter().map(|f| f.display().to_string()).collect();
    let found = match bytes_of(paths) {
        Some(bytes) => format!("{bytes} bytes, {} when it was read", scan.bytes),
        None => "it is not there".to_owned(),
    };
    Err(ProductionError::ScanChanged {
        roll: roll.name.clone(),
        found: format!(
            "{found}; no file of its size and BLAKE3 lies in {}",
            looked.join(", ")
        ),
        path,
    })
}

/// How the file frames of a scan are found.
pub(crate) fn frame_index(part: &PartIndex) -> FrameIndex {
    let row = |r: &onestrand_store::FileFrameRow| IndexRow {
        pts: r.pts,
        key: r.key,
        number: r.number,
        plane: PlaneHash::from_bits(r.plane),
    };
    let base = part.time_base.map(|(num, den)| Ratio { num, den });
    FrameIndex::new(part.rows.iter().map(row).collect(), base)
}
