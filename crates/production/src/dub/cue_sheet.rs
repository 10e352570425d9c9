//! Cues as a CSV form, in and out.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use onestrand_store::{Act, Production};
use serde::Serialize;
use utoipa::ToSchema;

use super::cue_line::{Read, Reader};
use super::cue_table::{Form, compared};
use super::kept::Kept;
use super::laid::Laying;
use super::mix_kept::{mix_of, speed_of};
use super::version::Version;
use crate::ProductionError;
use crate::documents::{ColumnWords, CueWords, SoundWords};
use crate::list_places::{STEP, anew};
use crate::table::Table;

pub(super) const COLUMNS: [&str; 10] = [
    "column", "sound", "anchor", "at", "in", "out", "gain_db", "fade_in", "fade_out", "note",
];
const WANTED: [&str; 4] = ["column", "sound", "anchor", "at"];

/// A cue that an import brings in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct CueComing {
    /// Its line in the form.
    pub line: u64,
    /// The column it is laid in.
    pub column: String,
    /// What is heard.
    pub sound: String,
    /// The running frame at which it begins in the version; nothing where it has no place
    /// there.
    pub at: Option<i64>,
    /// How long it is. Unit: frames; nothing where it has no place.
    pub frames: Option<u32>,
}

/// What an import of cues did, or would do.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct CuesImported {
    /// The version they were laid to.
    pub cut: String,
    /// Cues that came in.
    pub cues: usize,
    /// They, in the order of the form.
    pub coming: Vec<CueComing>,
    /// Lines that say what a cue says already; none of them is laid twice.
    pub already: usize,
    /// Columns that were not there before.
    pub new_columns: Vec<String>,
    /// Sounds that are named and not brought in yet: their cues wait for them.
    pub sounds_missing: Vec<String>,
    /// Columns of the file that were put into the note.
    pub unknown_columns: Vec<String>,
}

/// Brings cues in, laid to a version, the newest when none is said. Columns that are not
/// there are made; cues of sounds that are not there wait for them; what is there already to
/// the letter is not laid twice.
///
/// # Errors
/// [`ProductionError::Import`] with every problem; nothing is changed then.
pub fn import_cues(
    production: &mut Production,
    path: &Path,
    cut: Option<&str>,
) -> Result<CuesImported, ProductionError> {
    let bytes = std::fs::read(path).map_err(crate::error::file("read", path))?;
    import_cues_text(production, path, bytes, cut)
}

/// The same with the bytes at hand; `path` names them in what is said of problems.
///
/// # Errors
/// As [`import_cues`].
pub fn import_cues_text(
    production: &mut Production,
    path: &Path,
    bytes: Vec<u8>,
    cut: Option<&str>,
) -> Result<CuesImported, ProductionError> {
    let (words, act, imported) = read_cues(production, path, bytes, cut)?;
    if imported.cues > 0 {
        production.act(&words, &act)?;
    }
    Ok(imported)
}

/// Reads cues without bringing them in: what it says in the journal, the act that brings
/// them in, and what that does.
///
/// # Errors
/// As [`import_cues`].
pub fn read_cues(
    production: &Production,
    path: &Path,
    bytes: Vec<u8>,
    cut: Option<&str>,
) -> Result<(String, Act, CuesImported), ProductionError> {
    let version = Version::of(production, &version_for_sound(production, cut)?)?;
    let mut table = Table::wanting(path, bytes, &WANTED)?;
    let unknown = table.unknown_columns(&COLUMNS);
    let sounds = Kept::<SoundWords>::all(production)?;
    let columns = Kept::<ColumnWords>::all(production)?;
    let speed = speed_of(production, &mix_of(production)?)?;
    let laying = Laying {
        version: &version,
        sounds: &sounds,
        speed,
        lead: None,
        joins: Vec::new(),
        marks: Vec::new(),
    };
    let reader = Reader {
        laying: &laying,
        rolls: production
            .rolls()?
            .into_iter()
            .map(|roll| roll.name)
            .collect(),
        unknown: &unknown,
    };
    let mut problems = Vec::new();
    let mut read: Vec<Read> = table
        .lines()
        .filter_map(|line| reader.read(line, &mut problems))
        .collect();
    if table.lines().next().is_none() {
        table.problem(1, "", "the form has a header and no line");
    }
    table.add_problems(problems);
    table.sound()?;
    let (form, lines) = (Form::of(production)?, read.len());
    let there = form.rows(production, &version)?;
    read.retain(|one| !there.contains(&compared(form.row_in(&one.column, &one.cue, &version))));
    let (acts, new_columns) = acts(production, columns, &read)?;
    let missing: BTreeSet<&str> = read
        .iter()
        .filter(|one| one.cue.sound.is_none() && !one.cue.name.is_empty())
        .map(|one| one.cue.name.as_str())
        .collect();
    let imported = CuesImported {
        cut: version.name.clone(),
        cues: read.len(),
        coming: read.iter().map(|one| coming(one, &sounds)).collect(),
        already: lines - read.len(),
        new_columns,
        sounds_missing: missing.into_iter().map(str::to_owned).collect(),
        unknown_columns: unknown.clone(),
    };
    let words = match read.len() {
        1 => "bring in 1 cue".to_owned(),
        count => format!("bring in {count} cues"),
    };
    Ok((words, Act::All { acts }, imported))
}

fn coming(one: &Read, sounds: &[Kept<SoundWords>]) -> CueComing {
    let sound = sounds.iter().find(|kept| Some(kept.id) == one.cue.sound);
    let laid = one.cue.laid.as_ref();
    CueComing {
        line: one.line,
        column: one.column.clone(),
        sound: sound.map_or_else(|| one.cue.name.clone(), |kept| kept.words.name.clone()),
        at: laid.map(|laid| laid.at),
        frames: laid.map(|laid| laid.frames),
    }
}

/// The version that is meant: the one that is said, else the newest.
///
/// # Errors
/// [`ProductionError::Unfit`] when there is none.
pub fn version_for_sound(
    production: &Production,
    said: Option<&str>,
) -> Result<String, ProductionError> {
    if let Some(said) = said {
        return Ok(said.to_owned());
    }
    production.cut_names()?.pop().ok_or_else(|| {
        crate::error::unfit(
            "there is no version that sound could be laid to".to_owned(),
            "cut the film first",
        )
    })
}

/// The acts that keep the cues, and the columns they make.
fn acts(
    production: &Production,
    columns: Vec<Kept<ColumnWords>>,
    read: &[Read],
) -> Result<(Vec<Act>, Vec<String>), ProductionError> {
    let mut next = production.next_dub_id()?;
    let mut place = columns.last().map_or(anew(0), |last| last.place + STEP);
    let lower = |name: &str| name.trim().to_lowercase();
    let mut ids: BTreeMap<String, i64> = columns
        .iter()
        .map(|kept| (lower(&kept.words.name), kept.id))
        .collect();
    let (mut acts, mut made) = (Vec::new(), Vec::new());
    for Read { column, cue, .. } in read {
        let column_id = match ids.get(&lower(column)) {
            Some(id) => *id,
            None => {
                let words = ColumnWords {
                    name: column.trim().to_owned(),
                    ..ColumnWords::default()
                };
                acts.push(
                    Kept {
                        id: next,
                        place,
                        words,
                    }
                    .put()?,
                );
                ids.insert(lower(column), next);
                made.push(column.trim().to_owned());
                (next, place) = (next + 1, place + STEP);
                next - 1
            }
        };
        let words = CueWords {
            column: column_id,
            ..cue.clone()
        };
        let id = next;
        acts.push(
            Kept {
                id,
                place: 0,
                words,
            }
            .put()?,
        );
        next += 1;
    }
    Ok((acts, made))
}
