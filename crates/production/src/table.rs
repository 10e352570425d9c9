//! A CSV form as it comes in: header by name, every problem kept with its place.

use std::path::{Path, PathBuf};

use crate::{ImportProblem, ProductionError};

/// The most lines a form may have: a club's shelf has not a tenth of it.
const MOST_LINES: usize = 100_000;

/// A form that was read.
#[derive(Debug)]
pub(crate) struct Table {
    path: PathBuf,
    /// What each column is called here.
    header: Vec<String>,
    /// What stands over it in the file.
    written: Vec<String>,
    rows: Vec<(u64, csv::StringRecord)>,
    problems: Vec<ImportProblem>,
}

/// One line of it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Line<'a> {
    table: &'a Table,
    index: usize,
}

impl Table {
    /// Reads a form. Missing columns are problems; a file that is no text at
    /// all is an error.
    pub(crate) fn read(path: &Path, wanted: &[&str]) -> Result<Self, ProductionError> {
        let bytes = std::fs::read(path).map_err(crate::error::file("read", path))?;
        Self::wanting(path, bytes, wanted)
    }

    /// Reads a form that is at hand; the path is only its name. As [`Table::read`].
    pub(crate) fn wanting(
        path: &Path,
        bytes: Vec<u8>,
        wanted: &[&str],
    ) -> Result<Self, ProductionError> {
        let mut table = Self::of(path, bytes)?;
        if table.header.iter().all(String::is_empty) {
            let text = format!(
                "the file is empty: a header is wanted, {}",
                wanted.join(", ")
            );
            table.problem(1, "", &text);
            return Err(table.into_error());
        }
        for column in wanted.iter().copied() {
            if !table.has(column) {
                table.lacks(column, column);
            }
        }
        table.readable()
    }

    /// The rows of a file, whatever its columns are called.
    pub(crate) fn of(path: &Path, bytes: Vec<u8>) -> Result<Self, ProductionError> {
        let mut table = Self {
            path: path.to_owned(),
            header: Vec::new(),
            written: Vec::new(),
            rows: Vec::new(),
            problems: Vec::new(),
        };
        let Ok(text) = String::from_utf8(bytes) else {
            table.problem(1, "", "the file is not UTF-8 text: save it as CSV, UTF-8");
            return Err(table.into_error());
        };
        table.parse(text.trim_start_matches('\u{feff}'));
        Ok(table)
    }

    /// Whether there is a column of this name.
    pub(crate) fn has(&self, column: &str) -> bool {
        self.header.iter().any(|h| h == column)
    }

    /// What stands over the columns, and what they are called here.
    pub(crate) fn columns(&self) -> impl Iterator<Item = (&str, &str)> {
        let written = self.written.iter().map(String::as_str);
        written.zip(self.header.iter().map(String::as_str))
    }

    /// Calls the columns by other names, in their order.
    pub(crate) fn rename(&mut self, names: Vec<String>) {
        self.header = names;
    }

    /// A column is not there without which no line can be read.
    pub(crate) fn lacks(&mut self, column: &str, words: &str) {
        let found = self.written.join(", ");
        self.problem(
            1,
            column,
            &format!("no column named {words}; found: {found}"),
        );
    }

    /// The table, if its header can be read: without its columns no line can; a
    /// line that is wrong in itself is told together with whatever is wrong in
    /// the others.
    pub(crate) fn readable(self) -> Result<Self, ProductionError> {
        if self.header.is_empty() || self.problems.iter().any(|p| p.line == 1) {
            return Err(self.into_error());
        }
        Ok(self)
    }

    fn parse(&mut self, text: &str) {
        let mut reader = csv::ReaderBuilder::new()
            .trim(csv::Trim::All)
            .flexible(false)
            .delimiter(between_cells(text))
            .from_reader(text.as_bytes());
        match reader.headers() {
            Ok(header) => {
                self.written = header.iter().map(str::to_owned).collect();
                self.header = header.iter().map(str::to_ascii_lowercase).collect();
            }
            Err(found) => {
                self.problem(1, "", &found.to_string());
                return;
            }
        }
        for record in reader.records() {
            if self.rows.len() == MOST_LINES {
                self.problem(0, "", &format!("more than {MOST_LINES} lines"));
                return;
            }
            match record {
                Ok(record) => {
                    let line = record.position().map_or(0, csv::Position::line);
                    if !record.iter().all(str::is_empty) {
                        self.rows.push((line, record));
                    }
                }
                Err(found) => {
                    let line = found.position().map_or(0, csv::Position::line);
                    let message = length_in_words(&found, self.header.len());
                    self.problem(line, "", &message);
                }
            }
        }
    }

    pub(crate) fn lines(&self) -> impl Iterator<Item = Line<'_>> {
        (0..self.rows.len()).map(|index| Line { table: self, index })
    }

    pub(crate) fn problem(&mut self, line: u64, column: &str, message: &str) {
        self.problems.push(ImportProblem {
            line,
            column: column.to_owned(),
            message: message.to_owned(),
        });
    }

    pub(crate) fn add_problems(&mut self, more: Vec<ImportProblem>) {
        self.problems.extend(more);
    }

    /// The columns nobody asked for.
    pub(crate) fn unknown_columns(&self, known: &[&str]) -> Vec<String> {
        let unknown = |h: &&String| !h.is_empty() && !known.contains(&h.as_str());
        self.header.iter().filter(unknown).cloned().collect()
    }

    /// The table, if nothing is wrong with it.
    pub(crate) fn sound(self) -> Result<Self, ProductionError> {
        if self.problems.is_empty() {
            return Ok(self);
        }
        Err(self.into_error())
    }

    fn into_error(mut self) -> ProductionError {
        self.problems.sort_by_key(|p| p.line);
        ProductionError::Import {
            path: self.path,
            problems: self.problems,
        }
    }
}

/// What stands between the cells, by the header: a comma, or the semicolon of
/// places where the comma is the decimal sign, or a tab.
fn between_cells(text: &str) -> u8 {
    let header = text.lines().next().unwrap_or_default();
    let count = |sign: char| header.matches(sign).count();
    let mut best = (count(','), b',');
    for (sign, byte) in [(';', b';'), ('\t', b'\t')] {
        if count(sign) > best.0 {
            best = (count(sign), byte);
        }
    }
    best.1
}

fn length_in_words(found: &csv::Error, columns: usize) -> String {
    match found.kind() {
        csv::ErrorKind::UnequalLengths { len, .. } => {
            format!(
                "{len} cells in a line, {columns} in the header (a comma inside a cell needs quotes about it)"
            )
        }
        _ => found.to_string(),
    }
}

impl<'a> Line<'a> {
    /// Its number in the file.
    pub(crate) fn number(self) -> u64 {
        self.table.rows[self.index].0
    }

    /// The text of a cell; empty when there is no such column.
    pub(crate) fn text(self, column: &str) -> &'a str {
        let at = self.table.header.iter().position(|h| h == column);
        at.and_then(|i| self.table.rows[self.index].1.get(i))
            .unwrap_or("")
    }

    /// The note, with whatever stands in columns nobody asked for.
    pub(crate) fn note(self, unknown: &[String]) -> String {
        let mut note = self.text("note").to_owned();
        for column in unknown {
            let value = self.text(column);
            if !value.is_empty() {
                let gap = if note.is_empty() { "" } else { "; " };
                note.push_str(&format!("{gap}{column}: {value}"));
            }
        }
        note
    }

    /// Reads a cell, or keeps the problem and gives nothing.
    pub(crate) fn parse<T, E: std::fmt::Display>(
        self,
        column: &str,
        problems: &mut Vec<ImportProblem>,
        read: impl FnOnce(&str) -> Result<T, E>,
    ) -> Option<T> {
        match read(self.text(column)) {
            Ok(value) => Some(value),
            Err(found) => {
                problems.push(self.wrong(column, &found.to_string()));
                None
            }
        }
    }

    /// A problem at a cell of this line.
    pub(crate) fn wrong(self, column: &str, message: &str) -> ImportProblem {
        let at = self.table.header.iter().position(|h| h == column);
        let written = at.and_then(|at| self.table.written.get(at));
        ImportProblem {
            line: self.number(),
            column: written.map_or_else(|| column.to_owned(), |w| w.to_ascii_lowercase()),
            message: message.to_owned(),
        }
    }
}
