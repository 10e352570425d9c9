//! Bringing in a log, or a camera report that others have written.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use onestrand_store::{Act, Production, TakeRecord};
use serde::Serialize;
use utoipa::ToSchema;

use crate::log_columns::Columns;
use crate::log_headings::CountedIn;
use crate::log_lines::LogReader;
use crate::table::Table;
use crate::{ImportProblem, ProductionError};

/// What an import of a log did.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct LogImported {
    /// Takes brought in.
    pub takes: usize,
    /// Rolls they are on; their earlier takes were replaced.
    pub rolls: Vec<String>,
    /// Columns that were put into the note.
    pub unknown_columns: Vec<String>,
    /// How it was read where it could be read otherwise.
    pub assumptions: Vec<String>,
}

/// What is known of a log beside what stands in it.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct LogReading {
    /// The roll, for a log that names none.
    pub roll: Option<String>,
    /// In what figures without a unit count, where no heading says so.
    pub counted: Option<CountedIn>,
}

/// Brings a log in. The takes of each roll it names take the place of those
/// the roll had.
///
/// # Errors
/// [`ProductionError::Import`] with every problem; nothing is changed then.
pub fn import_log(
    production: &mut Production,
    path: &Path,
    reading: &LogReading,
) -> Result<LogImported, ProductionError> {
    let bytes = std::fs::read(path).map_err(crate::error::file("read", path))?;
    import_log_text(production, path, bytes, reading)
}

/// The same with the bytes at hand; `path` names them in what is said of problems.
///
/// # Errors
/// As [`import_log`].
pub fn import_log_text(
    production: &mut Production,
    path: &Path,
    bytes: Vec<u8>,
    reading: &LogReading,
) -> Result<LogImported, ProductionError> {
    let (words, act, done) = read_log(production, path, bytes, reading)?;
    production.act(&words, &act)?;
    Ok(done)
}

/// Reads a log without bringing it in: what it says in the journal, the act that
/// brings it in, and what that does.
///
/// # Errors
/// As [`import_log`].
pub fn read_log(
    production: &Production,
    path: &Path,
    bytes: Vec<u8>,
    reading: &LogReading,
) -> Result<(String, Act, LogImported), ProductionError> {
    let mut table = Table::of(path, bytes)?;
    let columns = Columns::of(&mut table, reading);
    let mut table = table.readable()?;
    let mut log = LogReader::of(production, &table, columns, reading)?;
    let mut problems = Vec::new();
    let mut takes: Vec<(u64, TakeRecord)> = Vec::new();
    for line in table.lines() {
        if let Some(take) = log.take(line, &mut problems) {
            takes.push((line.number(), take));
        }
    }
    overlaps(&mut takes, &mut problems);
    pins(production, &takes, &mut problems)?;
    if table.lines().next().is_none() {
        table.problem(1, "", "the form has a header and no line");
    }
    table.add_problems(problems);
    table.sound()?;
    let count = takes.len();
    let by_roll = by_roll(production, takes)?;
    let names: Vec<String> = by_roll.keys().cloned().collect();
    let acts = by_roll
        .into_iter()
        .map(|(roll, takes)| Act::PutTakes { roll, takes })
        .collect();
    let words = format!("bring in the log of {}", names.join(", "));
    let done = LogImported {
        takes: count,
        rolls: names,
        unknown_columns: log.columns.unknown,
        assumptions: log.assumptions,
    };
    Ok((words, Act::All { acts }, done))
}

/// A frame belongs to one take, and a slate to one take.
fn overlaps(takes: &mut [(u64, TakeRecord)], problems: &mut Vec<ImportProblem>) {
    takes.sort_by(|a, b| (&a.1.roll, a.1.first).cmp(&(&b.1.roll, b.1.first)));
    for pair in takes.windows(2) {
        let (before, after) = (&pair[0].1, &pair[1]);
        if before.roll == after.1.roll && before.thrown > after.1.first {
            problems.push(ImportProblem {
                line: after.0,
                column: "in".to_owned(),
                message: format!(
                    "begins at {}, inside the take that ends at {} (line {})",
                    after.1.first, before.thrown, pair[0].0
                ),
            });
        }
    }
    let mut slates = BTreeSet::new();
    for (line, take) in takes.iter() {
        let Some(setup) = &take.setup else { continue };
        if !slates.insert((setup.clone(), take.take)) {
            problems.push(ImportProblem {
                line: *line,
                column: "take".to_owned(),
                message: format!("{setup}-T{} stands twice", take.take.unwrap_or(0)),
            });
        }
    }
}

/// A pin holds one take: no two of the log, and none of a roll it leaves alone.
fn pins(
    production: &Production,
    takes: &[(u64, TakeRecord)],
    problems: &mut Vec<ImportProblem>,
) -> Result<(), ProductionError> {
    let touched: BTreeSet<&str> = takes.iter().map(|(_, t)| t.roll.as_str()).collect();
    let mut held: BTreeMap<u32, String> = production
        .pins()?
        .into_iter()
        .filter(|hung| !touched.contains(hung.roll.as_str()))
        .map(|hung| (hung.pin, format!("{}\u{b7}{}", hung.roll, hung.first)))
        .collect();
    for (line, take) in takes {
        let Some(pin) = take.pin else { continue };
        let name = format!("{}\u{b7}{}", take.roll, take.first);
        if let Some(there) = held.insert(pin, name) {
            problems.push(ImportProblem {
                line: *line,
                column: "pin".to_owned(),
                message: format!("{there} hangs on pin {pin}"),
            });
        }
    }
    Ok(())
}

/// Groups takes, keeping what a reading saw at the same first frame, and the pin
/// of the take that begins there or has the same slate.
fn by_roll(
    production: &Production,
    takes: Vec<(u64, TakeRecord)>,
) -> Result<BTreeMap<String, Vec<TakeRecord>>, ProductionError> {
    let mut all: BTreeMap<String, Vec<TakeRecord>> = BTreeMap::new();
    for (_, mut take) in takes {
        let seen = production.takes_of(&take.roll)?;
        let there = seen.iter().find(|s| s.first == take.first);
        if let Some(before) = there {
            take.begins.clone_from(&before.begins);
            take.flash_frames = before.flash_frames;
            take.flash_stops = before.flash_stops;
        }
        if take.pin.is_none() && take.setup.is_some() {
            let named = seen
                .iter()
                .find(|s| (&s.setup, s.take) == (&take.setup, take.take));
            take.pin = named.and_then(|s| s.pin);
        }
        all.entry(take.roll.clone()).or_default().push(take);
    }
    Ok(all)
}
