//! Papers of several parts as forms.

use onestrand_typeset::Printed;
use serde::Serialize;

use super::Press;
use super::proof::TITLE_MOST;
use super::record::{Figure, FormRecord, missing_words, paper_word};
use crate::cautions::cautions;
use crate::part_sheet::{PartForm, PartSheet, SheetPart};
use crate::{SheetError, words};

/// Prints a paper of parts, with its pages to look at.
///
/// # Errors
/// [`SheetError::Form`] when the form cannot be set.
pub fn print_part_sheet(sheet: &PartSheet) -> Result<Printed, SheetError> {
    let (name, ..) = sheet.form.words();
    let press = Press::new(name, "part_sheet.typ", include_str!("part_sheet.typ"));
    press.ready(&record(sheet))?.print()
}

impl PartForm {
    /// What it calls itself, what kind of sheet it is, who fills it in, and how it is held.
    const fn words(self) -> (&'static str, &'static str, &'static str, &'static str) {
        match self {
            Self::AccessionSheet => (
                "Accession sheet",
                "what is known, and how",
                "by",
                "keep one copy in the box, one outside of the can",
            ),
            Self::ProgrammeNote => (
                "Programme",
                "what is shown, in its order",
                "shown by",
                "one copy for whoever shows it",
            ),
        }
    }

    const fn cautions(self) -> &'static [&'static str] {
        match self {
            Self::AccessionSheet => &["vinegar", "nitrate", "people"],
            Self::ProgrammeNote => &["hot_lamp", "mains", "dark", "people"],
        }
    }
}

#[derive(Serialize)]
struct PartSheetRecord {
    form: FormRecord,
    parts: Vec<PartRecord>,
}

#[derive(Serialize)]
struct PartRecord {
    heading: String,
    before: Vec<String>,
    columns: Vec<ColumnRecord>,
    rows: Vec<Vec<String>>,
    small: bool,
}

#[derive(Serialize)]
struct ColumnRecord {
    head: String,
    wide: f64,
}

fn record(sheet: &PartSheet) -> PartSheetRecord {
    PartSheetRecord {
        form: furniture(sheet),
        parts: sheet.parts.iter().map(part).collect(),
    }
}

fn part(part: &SheetPart) -> PartRecord {
    let plain = |text: &String| words::plain(text);
    PartRecord {
        heading: words::plain(&part.heading),
        before: part.before.iter().map(plain).collect(),
        columns: part
            .columns
            .iter()
            .map(|(head, wide)| ColumnRecord {
                head: words::plain(head),
                wide: *wide,
            })
            .collect(),
        rows: part
            .rows
            .iter()
            .map(|row| row.iter().map(plain).collect())
            .collect(),
        small: part.small,
    }
}

fn furniture(sheet: &PartSheet) -> FormRecord {
    let (form, kind, hand, manner) = sheet.form.words();
    let title = words::plain(&sheet.title);
    let in_full = match title.chars().count() > TITLE_MOST {
        true => vec![format!("The title in full: {title}")],
        false => Vec::new(),
    };
    let cells = sheet
        .parts
        .iter()
        .flat_map(|part| part.rows.iter().flatten());
    let said: Vec<&str> = cells.map(String::as_str).chain([&*sheet.title]).collect();
    let mut assumptions = sheet.assumptions.clone();
    assumptions.extend(missing_words(&said.join("\n")));
    FormRecord {
        form,
        kind: kind.to_owned(),
        title: words::short(&title, TITLE_MOST),
        version: String::new(),
        facts: words::plain(&sheet.facts),
        day: String::new(),
        hand,
        manner,
        got: "Where this is from",
        paper: paper_word(sheet.paper),
        figures: sheet
            .figures
            .iter()
            .map(|(value, label)| Figure::new(value.as_str(), label.as_str()))
            .collect(),
        not_cuttable: Vec::new(),
        not_proved: Vec::new(),
        foot: Vec::new(),
        totals: Vec::new(),
        assumptions,
        in_full,
        cautions: cautions(sheet.form.cautions()),
    }
}
