//! A paper of several parts, each a table under a heading: the accession sheet of a film and
//! the note of a programme.

use crate::head::Paper;

/// Which paper it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PartForm {
    /// What is known of a film, how, and what was done to it.
    AccessionSheet,
    /// What is shown in which order, for the audience and for whoever shows it.
    ProgrammeNote,
}

/// A paper of parts to print.
#[derive(Clone, Debug)]
pub struct PartSheet {
    /// Which.
    pub form: PartForm,
    /// The film, or the programme.
    pub title: String,
    /// Gauge and speed, or place and day, in words.
    pub facts: String,
    /// The framed figures: a value and what it is.
    pub figures: Vec<(String, String)>,
    /// Its parts.
    pub parts: Vec<SheetPart>,
    /// Where the figures come from, a paragraph each.
    pub assumptions: Vec<String>,
    /// The paper.
    pub paper: Paper,
}

/// A part of a paper.
#[derive(Clone, Debug, Default)]
pub struct SheetPart {
    /// What stands over it.
    pub heading: String,
    /// Paragraphs before the rows.
    pub before: Vec<String>,
    /// What stands over each column, and how wide it is. Unit: mm; 0 shares what is left.
    pub columns: Vec<(String, f64)>,
    /// Its rows, as many cells as there are columns. The first cell is set heavier.
    pub rows: Vec<Vec<String>>,
    /// Whether it is set small: checksums.
    pub small: bool,
}
