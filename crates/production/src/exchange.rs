//! A version out and in as OpenTimelineIO.

use std::path::Path;

use onestrand_cut::JoinKind;
use onestrand_exchange::{
    ExchangeError, Film, FrameNote, PictureRun, ReadVersion, RollOnFile, ScanFile, Version, read,
    write,
};
use onestrand_film::{FrameName, FramePos, FrameRange, Frames, RollId};
use onestrand_store::{Act, CutRecord, NoteRecord, Production, RollRecord, Workprints};
use serde::Serialize;

use crate::change_acts::text_fits;
use crate::cut_sheet::{CutImported, fit_name, import_cut};
use crate::error::unfit;
use crate::print_sheets::write_whole;
use crate::shown_twice::shown_twice;
use crate::{ImportProblem, ProductionError};

/// How the name of a file of the standard ends.
const ENDING: &str = "otio";
/// The largest file that is read: a cut of an evening has a tenth of one. Unit: bytes.
const LARGEST: u64 = 64 << 20;

/// The answer of `exchange`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ExchangeWritten {
    /// The version.
    pub cut: String,
    /// The file.
    pub path: String,
    /// Its size. Unit: bytes.
    pub bytes: usize,
    /// Pieces in it.
    pub pieces: usize,
    /// Its length.
    pub frames: u32,
    /// Notes on frames that went along.
    pub notes: usize,
    /// The speed at which it counts.
    pub speed: String,
    /// Rolls that stand in it by their scan: it shows them frame for frame.
    pub by_scan: Vec<String>,
    /// Rolls that stand in it by their name: another program shows no pictures
    /// of them, but every frame is named.
    pub by_name: Vec<String>,
}

/// Writes a version as a file of the standard. Also one that the strand check
/// refuses: nothing is cut by it.
///
/// # Errors
/// [`ProductionError::Store`] when there is no such version,
/// [`ProductionError::Unfit`] when the file is not called `.otio`, so that
/// nothing else can be written over; [`ProductionError::File`].
pub fn write_exchange(
    production: &Production,
    name: &str,
    path: &Path,
) -> Result<ExchangeWritten, ProductionError> {
    let record = production.cut(name)?;
    if !is_exchange(path) {
        return Err(unfit(
            format!("the file would not be called .{ENDING}"),
            "give it a name such as v2.otio, so that no scan is ever written over",
        ));
    }
    let cut = record.to_model()?;
    let film = film(production)?;
    let version = Version {
        name: name.to_owned(),
        note: record.note,
        notes: notes(production)?,
        cut,
    };
    let text = write(&film, &version);
    write_whole(path, text.as_bytes())?;
    let used = crate::finish::rolls_of(&version.cut);
    let names = |by_scan: bool| {
        let rolls = film.rolls.iter().filter(|roll| used.contains(&roll.roll));
        rolls
            .filter(|roll| roll.stands_by_scan(film.speed) == by_scan)
            .map(|roll| roll.roll.to_string())
            .collect()
    };
    let shown = |note: &&FrameNote| {
        let pieces = version.cut.pieces().iter();
        pieces
            .filter_map(|p| p.span())
            .any(|span| span.roll == note.frame.roll && span.range.contains(note.frame.frame))
    };
    Ok(ExchangeWritten {
        cut: name.to_owned(),
        path: crate::film_frames::path_text(path),
        bytes: text.len(),
        pieces: version.cut.pieces().len(),
        frames: version.cut.frames().count(),
        notes: version.notes.iter().filter(shown).count(),
        speed: film.speed.to_string(),
        by_scan: names(true),
        by_name: names(false),
    })
}

/// Brings a version in: a cutting sheet as CSV, or a file of the standard,
/// which is called `.otio`.
///
/// # Errors
/// [`ProductionError::Import`] with every problem; nothing is changed then.
/// [`ProductionError::Unfit`] when there is a version of that name.
pub fn import_version(
    production: &mut Production,
    path: &Path,
    name: &str,
    join: Option<JoinKind>,
) -> Result<CutImported, ProductionError> {
    if !is_exchange(path) {
        return import_cut(production, path, name, join.unwrap_or(JoinKind::Tape));
    }
    let name = fit_name(production, name)?;
    let text = text_of(path)?;
    let found = read(&text, &film(production)?).map_err(|refused| as_import(path, refused))?;
    let ReadVersion {
        version,
        places,
        remarks,
        ..
    } = found;
    let cut = match join {
        Some(join) => version.cut.joined_by(join),
        None => version.cut,
    };
    long_words(path, &cut, &places)?;
    text_fits("note of the version", &version.note)?;
    let mut remarks: Vec<ImportProblem> = remarks.into_iter().map(as_problem).collect();
    remarks.extend(shown_twice(&cut, &places));
    remarks.sort_by_key(|remark| remark.line);
    let mut acts = vec![Act::PutCut {
        name: name.clone(),
        cut: Some(CutRecord::new(&cut, &version.note)),
    }];
    let notes = new_notes(production, version.notes)?;
    let noted = notes.len();
    acts.extend(notes);
    production.act(&format!("bring in cut {name}"), &Act::All { acts })?;
    Ok(CutImported {
        cut: name,
        pieces: cut.pieces().len(),
        frames: cut.frames().count(),
        unknown_columns: Vec::new(),
        notes: noted,
        remarks,
    })
}

fn is_exchange(path: &Path) -> bool {
    let ending = path.extension().and_then(|e| e.to_str());
    ending.is_some_and(|e| e.eq_ignore_ascii_case(ENDING))
}

fn text_of(path: &Path) -> Result<String, ProductionError> {
    let one = |message: String| ProductionError::Import {
        path: path.to_owned(),
        problems: vec![ImportProblem {
            line: 1,
            column: String::new(),
            message,
        }],
    };
    let failed = || crate::error::file("read", path);
    let size = std::fs::metadata(path).map_err(failed())?.len();
    if size > LARGEST {
        let most = LARGEST >> 20;
        return Err(one(format!(
            "the file is larger than {most} MiB: no cut is"
        )));
    }
    let bytes = std::fs::read(path).map_err(failed())?;
    if bytes.iter().all(u8::is_ascii_whitespace) {
        return Err(one(
            "the file is empty: write the cut out once more".to_owned()
        ));
    }
    String::from_utf8(bytes).map_err(|_| one("the file is no text in UTF-8".to_owned()))
}

fn as_import(path: &Path, refused: ExchangeError) -> ProductionError {
    let problems = match refused {
        ExchangeError::Problems { problems } => problems.into_iter().map(as_problem).collect(),
        other => vec![ImportProblem {
            line: 1,
            column: String::new(),
            message: other.to_string(),
        }],
    };
    ProductionError::Import {
        path: path.to_owned(),
        problems,
    }
}

fn as_problem(found: onestrand_exchange::Found) -> ImportProblem {
    ImportProblem {
        line: found.line,
        column: found.place,
        message: found.message,
    }
}

/// Words that are longer than the program keeps.
fn long_words(
    path: &Path,
    cut: &onestrand_cut::TrialCut,
    places: &[(u64, String)],
) -> Result<(), ProductionError> {
    let pieces = cut.pieces().iter().zip(places);
    let long = pieces.filter_map(|(piece, (line, place))| {
        let refused = text_fits("note", &piece.note).err()?;
        Some(ImportProblem {
            line: *line,
            column: place.clone(),
            message: refused.to_string(),
        })
    });
    let problems: Vec<ImportProblem> = long.collect();
    if problems.is_empty() {
        return Ok(());
    }
    Err(ProductionError::Import {
        path: path.to_owned(),
        problems,
    })
}

/// The film as the standard needs it.
fn film(production: &Production) -> Result<Film, ProductionError> {
    let meta = production.meta();
    let mut prints = Workprints::open(production.dir())?;
    let mut rolls = Vec::new();
    for record in production.rolls()? {
        rolls.push(roll_on_file(&mut prints, &record)?);
    }
    Ok(Film {
        title: meta.title.clone(),
        gauge: meta.gauge,
        speed: meta.speed,
        rolls,
    })
}

fn roll_on_file(
    prints: &mut Workprints,
    record: &RollRecord,
) -> Result<RollOnFile, ProductionError> {
    let frame_for_frame = is_frame_for_frame(prints, record)?;
    let scan = |scan: &onestrand_store::ScanRecord| ScanFile {
        name: scan
            .paths
            .first()
            .map(|path| file_name(path))
            .unwrap_or_default(),
        pictures: scan.paths.len(),
        run: run_of(&scan.paths),
        rate: scan.facts.rate.parse().ok(),
        frame_for_frame,
    };
    Ok(RollOnFile {
        roll: RollId::new(&record.name)?,
        frames: Frames::new(record.frames)?,
        scans: record.scans.iter().map(scan).collect(),
    })
}

/// Whether the one scan of a roll shows film frame n by its frame n, for every n.
/// Without a workprint nobody knows, and the answer is no.
fn is_frame_for_frame(
    prints: &mut Workprints,
    record: &RollRecord,
) -> Result<bool, ProductionError> {
    let [scan] = record.scans.as_slice() else {
        return Ok(false);
    };
    if record.frames == 0 || scan.facts.frames != u64::from(record.frames) {
        return Ok(false);
    }
    let whole = FrameRange::of(0, record.frames)?;
    let rows = prints.rows(&record.name, whole)?;
    let all_there = rows.len() == record.frames as usize;
    Ok(all_there
        && rows
            .iter()
            .all(|row| row.shown_by == Some((0, u64::from(row.frame))) && row.made_of.is_none()))
}

/// How the pictures of a scan are numbered, where they are a whole run in one folder.
fn run_of(paths: &[String]) -> Option<PictureRun> {
    let folder = |path: &String| Path::new(path).parent().map(Path::to_owned);
    let first = folder(paths.first()?)?;
    if paths
        .iter()
        .any(|path| folder(path).as_ref() != Some(&first))
    {
        return None;
    }
    let names: Vec<String> = paths.iter().map(|path| file_name(path)).collect();
    let names: Vec<&str> = names.iter().map(String::as_str).collect();
    PictureRun::of(&file_name(&first.to_string_lossy()), &names)
}

fn file_name(path: &str) -> String {
    let name = Path::new(path).file_name();
    name.map(|name| name.to_string_lossy().into_owned())
        .unwrap_or_default()
}

fn notes(production: &Production) -> Result<Vec<FrameNote>, ProductionError> {
    let one = |(_, note): (i64, NoteRecord)| {
        Ok(FrameNote {
            frame: FrameName {
                roll: RollId::new(&note.roll)?,
                frame: FramePos::new(note.frame)?,
            },
            words: note.words,
            writer: note.writer,
        })
    };
    production.notes()?.into_iter().map(one).collect()
}

/// Acts that put the notes which are not there yet.
fn new_notes(production: &Production, found: Vec<FrameNote>) -> Result<Vec<Act>, ProductionError> {
    let there = notes(production)?;
    let first = production.next_note_id()?;
    let fresh = found.into_iter().filter(|note| !there.contains(note));
    (first..)
        .zip(fresh)
        .map(|(id, note)| {
            text_fits("note on a frame", &note.words)?;
            text_fits("name of a writer", &note.writer)?;
            let (roll, frame) = (note.frame.roll, note.frame.frame.index());
            let record = NoteRecord::new(roll.as_str(), frame, &note.words, &note.writer);
            Ok(Act::PutNote {
                id,
                note: Some(record),
            })
        })
        .collect()
}
