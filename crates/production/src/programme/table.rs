//! A programme as a table, in and out.

use std::path::Path;

use crate::ProductionError;
use crate::documents::{ProgrammeDocument, ProgrammeRow, ProgrammeRowDocument};
use crate::table::Table;

const COLUMNS: [&str; 10] = [
    "what", "film", "cut", "title", "maker", "year", "sound", "speed", "remark", "minutes",
];

/// Reads the rows of a programme out of a table; `what` and `film` are wanted, the other
/// columns may be missing.
///
/// # Errors
/// [`ProductionError::Import`] with every problem.
pub fn programme_of_table(path: &Path) -> Result<Vec<ProgrammeRow>, ProductionError> {
    let mut table = Table::read(path, &COLUMNS[..2])?;
    let mut problems: Vec<(u64, &str, String)> = Vec::new();
    let mut rows = Vec::new();
    for line in table.lines() {
        let cell = |column: &str| line.text(column).trim().to_owned();
        let what = match cell("what").as_str() {
            "" => "film".to_owned(),
            what => what.to_lowercase(),
        };
        let minutes = cell("minutes");
        let minutes = match (minutes.is_empty(), minutes.parse::<u32>()) {
            (true, _) => 0,
            (false, Ok(minutes)) => minutes,
            (false, Err(_)) => {
                problems.push((
                    line.number(),
                    "minutes",
                    format!("{minutes:?} is no whole number"),
                ));
                0
            }
        };
        if !["film", "interval"].contains(&what.as_str()) {
            problems.push((line.number(), "what", format!("{what:?}: film or interval")));
        }
        if what == "film" && cell("film").is_empty() {
            problems.push((line.number(), "film", "no film is named".to_owned()));
        }
        rows.push(ProgrammeRow {
            what,
            film: cell("film"),
            cut: cell("cut"),
            title: cell("title"),
            maker: cell("maker"),
            year: cell("year"),
            sound: cell("sound"),
            speed: cell("speed"),
            remark: cell("remark"),
            minutes,
        });
    }
    for (line, column, text) in problems {
        table.problem(line, column, &text);
    }
    table.sound()?;
    Ok(rows)
}

/// A programme as CSV, a row each: what was asked, and what came of it.
#[must_use]
pub fn programme_table(plan: &ProgrammeDocument) -> String {
    let mut table = csv::Writer::from_writer(Vec::new());
    let header = COLUMNS.iter().copied().chain([
        "gauge", "frames", "footage", "time", "begins", "reel", "before", "problem",
    ]);
    // Written into memory, which does not fail.
    let _whole = table.write_record(header);
    for one in &plan.rows {
        let _whole = table.write_record(row(one));
    }
    let bytes = table.into_inner().unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}

fn row(row: &ProgrammeRowDocument) -> Vec<String> {
    let asked = &row.asked;
    let minutes = match asked.what.as_str() {
        "interval" => asked.minutes.to_string(),
        _ => String::new(),
    };
    let footage = row.footage.as_ref();
    vec![
        asked.what.clone(),
        asked.film.clone(),
        row.cut.clone(),
        row.title.clone(),
        asked.maker.clone(),
        asked.year.clone(),
        asked.sound.clone(),
        row.speed.clone(),
        asked.remark.clone(),
        minutes,
        row.gauge.clone(),
        row.frames.to_string(),
        footage.map_or_else(String::new, |at| format!("{}+{}", at.feet, at.frames)),
        row.clock.clone(),
        row.begins.clone(),
        row.reel.map_or_else(String::new, |reel| reel.to_string()),
        row.before.clone(),
        row.problem.clone(),
    ]
}
