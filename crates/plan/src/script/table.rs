//! A table in CSV, or pasted with tabs, read whole: what is wrong is gathered by line.

use std::collections::BTreeMap;

use crate::found::Found;

/// Rows with their columns by name.
pub(crate) struct Table {
    columns: BTreeMap<String, usize>,
    rows: Vec<(u64, csv::StringRecord)>,
    /// Columns that nobody asked for, as written.
    pub(crate) strange: Vec<String>,
}

impl Table {
    /// Reads a table with a header. Columns may stand in any order.
    pub(crate) fn read(text: &str, known: &[&str], found: &mut Vec<Found>) -> Self {
        let text = text.strip_prefix('\u{FEFF}').unwrap_or(text);
        let first = text.lines().next().unwrap_or_default();
        let delimiter = if first.contains('\t') { b'\t' } else { b',' };
        let mut reader = csv::ReaderBuilder::new()
            .delimiter(delimiter)
            .flexible(true)
            .trim(csv::Trim::All)
            .from_reader(text.as_bytes());
        let header = reader.headers().cloned().unwrap_or_default();
        let named = |name: &str| name.to_lowercase();
        let columns: BTreeMap<String, usize> = header
            .iter()
            .enumerate()
            .map(|(at, name)| (named(name), at))
            .collect();
        let is_strange = |name: &&str| !known.contains(&&*named(name)) && !name.is_empty();
        let strange = header
            .iter()
            .filter(is_strange)
            .map(str::to_owned)
            .collect();
        let mut rows = Vec::new();
        for record in reader.records() {
            match record {
                Ok(record) if record.iter().all(str::is_empty) => {}
                Ok(record) => {
                    let line = record.position().map_or(0, csv::Position::line);
                    rows.push((line, record));
                }
                Err(error) => {
                    let line = error.position().map(csv::Position::line);
                    found.push(Found::new(line, "", format!("cannot be read: {error}")));
                }
            }
        }
        Self {
            columns,
            rows,
            strange,
        }
    }

    /// Tells which columns are missing.
    pub(crate) fn want(&self, wanted: &[&str], found: &mut Vec<Found>) {
        for name in wanted
            .iter()
            .filter(|name| !self.columns.contains_key(**name))
        {
            let said = format!("there is no column {name}; add it to the first line");
            found.push(Found::new(Some(1), "", said));
        }
    }

    pub(crate) fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        self.rows.iter().map(|(line, record)| Row {
            table: self,
            line: *line,
            record,
        })
    }
}

/// One row.
#[derive(Clone, Copy)]
pub(crate) struct Row<'t> {
    table: &'t Table,
    pub(crate) line: u64,
    record: &'t csv::StringRecord,
}

impl<'t> Row<'t> {
    /// What stands in a column; empty where there is none.
    pub(crate) fn text(&self, column: &str) -> &'t str {
        let at = self.table.columns.get(&column.to_lowercase());
        at.and_then(|at| self.record.get(*at)).unwrap_or_default()
    }

    /// A value, or its reason among what was found.
    pub(crate) fn value<T, E: std::fmt::Display>(
        &self,
        column: &str,
        found: &mut Vec<Found>,
        read: impl FnOnce(&str) -> Result<T, E>,
    ) -> Option<T> {
        read(self.text(column))
            .map_err(|why| {
                found.push(Found::new(
                    Some(self.line),
                    format!("column {column}"),
                    why.to_string(),
                ));
            })
            .ok()
    }

    /// What stands in the columns nobody asked for: `weather: fair`.
    pub(crate) fn strange(&self) -> String {
        let filled = self.table.strange.iter().filter_map(|name| {
            let text = self.text(name);
            (!text.is_empty()).then(|| format!("{name}: {text}"))
        });
        filled.collect::<Vec<_>>().join("; ")
    }
}
