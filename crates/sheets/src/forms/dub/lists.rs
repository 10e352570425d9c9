//! Lists of the dub: rows of cells under heads, and blank rows to write into.

use onestrand_typeset::Printed;
use serde::Serialize;

use crate::SheetError;
use crate::forms::Press;
use crate::forms::record::FormRecord;

/// A list on paper.
#[derive(Serialize)]
pub(super) struct ListRecord {
    pub(super) form: FormRecord,
    /// What stands over the rows, a paragraph each.
    pub(super) before: Vec<String>,
    pub(super) columns: Vec<ColumnRecord>,
    pub(super) rows: Vec<Vec<Cell>>,
    /// Said where there is neither a row nor a blank one.
    pub(super) none: &'static str,
    /// Blank rows.
    pub(super) blank: u32,
    /// Boxes in a blank row, by the column.
    pub(super) boxes: Vec<usize>,
}

/// A column of a list.
#[derive(Serialize)]
pub(super) struct ColumnRecord {
    head: &'static str,
    /// Unit: mm; 0 shares what is left.
    wide: f64,
    right: bool,
}

impl ColumnRecord {
    /// Words from the left.
    pub(super) const fn words(head: &'static str, wide: f64) -> Self {
        Self {
            head,
            wide,
            right: false,
        }
    }

    /// Figures to the right.
    pub(super) const fn figures(head: &'static str, wide: f64) -> Self {
        Self {
            head,
            wide,
            right: true,
        }
    }
}

/// A cell of a list.
#[derive(Serialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub(super) enum Cell {
    /// A person's words, a line each.
    Words { lines: Vec<String> },
    /// Figures under each other, to be read across with those of the next column.
    Figures { lines: Vec<String> },
    /// A figure; the large one is what is sought.
    Figure { words: String, large: bool },
    /// Boxes, each with its word; the one that is ticked, from 0.
    /// What stands over them may be nothing.
    Boxes {
        lines: Vec<String>,
        words: Vec<&'static str>,
        ticked: Option<usize>,
    },
}

impl Cell {
    pub(super) fn words(line: impl Into<String>) -> Self {
        Self::Words {
            lines: vec![line.into()],
        }
    }

    pub(super) fn figure(words: impl Into<String>) -> Self {
        let words = words.into();
        Self::Figure {
            words,
            large: false,
        }
    }

    pub(super) fn large(words: impl Into<String>) -> Self {
        let words = words.into();
        Self::Figure { words, large: true }
    }
}

/// Prints a list.
pub(super) fn print(name: &'static str, list: &ListRecord) -> Result<Printed, SheetError> {
    let press = Press::new(name, "lists.typ", include_str!("lists.typ"));
    press.ready(list)?.print()
}
