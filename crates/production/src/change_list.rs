//! The change list between two versions, on paper and in rows.

use std::path::Path;

use onestrand_cut::{ChangeLine, PieceKind, compare};
use onestrand_film::{FrameDelta, Frames};
use onestrand_intake::Cancel;
use onestrand_sheets::{ChangeList, ChangeRow, ChangedFilm, Printed, print_change_list};
use onestrand_store::Production;

use crate::finish::rolls_of;
use crate::gather_sheets::{PrintedSheet, SheetsToPrint, file_word, gather_sheets};
use crate::print_sheets::{SheetFile, SheetsDocument, write_whole};
use crate::sheet_csv::{SheetCsv, feet, written};
use crate::{ProductionError, Progress, SheetForm, SheetOptions, strand};

/// The word of the form in commands.
pub const CHANGE_LIST: &str = "change-list";

/// What is done is the word of the model, so that a program can read it: a longer
/// piece is an insertion.
const COLUMNS: [&str; 13] = [
    "no",
    "at",
    "at_frame",
    "act",
    "frames",
    "roll",
    "in",
    "out",
    "slate",
    "to",
    "to_frame",
    "offset_after",
    "title",
];

/// All that a change list needs, apart from the production.
#[derive(Debug)]
pub struct ChangesToPrint {
    sheets: SheetsToPrint,
    old: String,
    old_frames: Frames,
    new_frames: Frames,
    changes: Vec<ChangeLine>,
}

/// Gathers what the list of changes that make `new` of `old` needs. Quick; the
/// setting is slow.
///
/// # Errors
/// [`ProductionError::CutRefused`] when the strand check refuses the new version,
/// [`ProductionError::Store`] when there is no such version.
pub fn gather_changes(
    production: &Production,
    (old, new): (&str, &str),
    letter: bool,
) -> Result<ChangesToPrint, ProductionError> {
    let before = strand::cut(production, old)?;
    let after = strand::cut(production, new)?;
    let options = SheetOptions {
        only: None,
        letter,
        join: None,
        bench: crate::BenchPaper::USUAL,
    };
    let mut sheets = gather_sheets(production, new, &options)?;
    // What is lifted may be the last that the cut had of a roll.
    sheets.also_of(production, rolls_of(&before))?;
    Ok(ChangesToPrint {
        sheets,
        old: old.to_owned(),
        old_frames: before.frames(),
        new_frames: after.frames(),
        changes: compare(&before, &after).changes().to_vec(),
    })
}

impl ChangesToPrint {
    /// Whether every roll's scan is proved complete.
    #[must_use]
    pub fn is_proved(&self) -> bool {
        self.sheets.is_proved()
    }

    /// Rolls that have a scan but no workprint, so that their frames are empty
    /// on the list.
    #[must_use]
    pub fn without_pictures(&self) -> &[String] {
        self.sheets.without_pictures()
    }

    /// Sets the list.
    ///
    /// # Errors
    /// [`ProductionError::Sheets`], [`ProductionError::Store`] when a picture
    /// cannot be fetched.
    pub fn print(&mut self) -> Result<PrintedSheet, ProductionError> {
        let Printed { pdf, pages, .. } = print_change_list(&self.list()?)?;
        Ok(PrintedSheet {
            sheet: CHANGE_LIST,
            file_name: self.file_name("pdf"),
            pdf,
            pages,
        })
    }

    /// The list as rows.
    ///
    /// # Errors
    /// [`ProductionError::Store`] when a picture cannot be fetched.
    pub fn csv(&mut self) -> Result<SheetCsv, ProductionError> {
        Ok(SheetCsv {
            sheet: CHANGE_LIST,
            file_name: self.file_name("csv"),
            csv: rows_of(&self.list()?, &self.changes),
        })
    }

    fn list(&mut self) -> Result<ChangeList, ProductionError> {
        let sheets = &mut self.sheets;
        let rows = self.changes.iter().map(|change| row(sheets, change));
        let rows = rows.collect::<Result<_, _>>()?;
        Ok(ChangeList {
            head: sheets.head().clone(),
            old: self.old.clone(),
            old_frames: self.old_frames,
            new_frames: self.new_frames,
            rows,
        })
    }

    fn file_name(&self, ending: &str) -> String {
        let (old, new) = (file_word(&self.old), file_word(&self.sheets.head().version));
        format!("{old}-to-{new}-{CHANGE_LIST}.{ending}")
    }
}

/// Prints the list of changes that make `new` of `old` into a folder.
///
/// # Errors
/// As [`gather_changes`] and [`ChangesToPrint::print`]; [`ProductionError::File`].
pub fn change_list(
    production: &Production,
    (old, new): (&str, &str),
    out: &Path,
    form: SheetForm,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<SheetsDocument, ProductionError> {
    if form != SheetForm::Csv {
        let mut rolls = rolls_of(&strand::cut(production, old)?);
        rolls.extend(rolls_of(&strand::cut(production, new)?));
        rolls.sort();
        rolls.dedup();
        crate::workprint::ready_workprints(production, &rolls, cancel, progress)?;
    }
    let mut gathered = gather_changes(production, (old, new), form == SheetForm::Letter)?;
    progress.note("printing the change list");
    let (name, bytes) = if form == SheetForm::Csv {
        let rows = gathered.csv()?;
        (rows.file_name, rows.csv.into_bytes())
    } else {
        let printed = gathered.print()?;
        (printed.file_name, printed.pdf)
    };
    std::fs::create_dir_all(out).map_err(crate::error::file("make the folder", out))?;
    let path = out.join(name);
    write_whole(&path, &bytes)?;
    Ok(SheetsDocument {
        cut: new.to_owned(),
        proved: gathered.is_proved(),
        files: vec![SheetFile {
            sheet: CHANGE_LIST,
            path: crate::film_frames::path_text(&path),
            bytes: bytes.len(),
        }],
    })
}

fn row(gathered: &mut SheetsToPrint, change: &ChangeLine) -> Result<ChangeRow, ProductionError> {
    let (film, picture) = match &change.film {
        PieceKind::Shot(span) => {
            let slate = gathered.slate_of(span, change.slate.as_ref());
            let film = ChangedFilm::Piece {
                span: span.clone(),
                slate,
            };
            (film, gathered.picture(&span.first())?)
        }
        PieceKind::Leader(_) => (ChangedFilm::Leader, None),
        PieceKind::Card { title, .. } => {
            let title = title.clone();
            (ChangedFilm::Card { title }, None)
        }
    };
    Ok(ChangeRow {
        at: change.at,
        act: change.act.word().to_owned(),
        frames: change.frames,
        film,
        to: change.to,
        offset_after: change.offset_after,
        picture,
    })
}

fn rows_of(list: &ChangeList, changes: &[ChangeLine]) -> String {
    let gauge = list.head.gauge;
    let place = |at: Option<Frames>| match at {
        Some(at) => (feet(gauge, at.count()), at.count().to_string()),
        None => (String::new(), String::new()),
    };
    let row = |(number, (row, change)): (usize, (&ChangeRow, &ChangeLine))| {
        let (at, at_frame) = place(Some(row.at));
        let (to, to_frame) = place(row.to);
        let [roll, begin, end, slate, title] = film_cells(&row.film);
        [
            (number + 1).to_string(),
            at,
            at_frame,
            change.act.code().to_owned(),
            row.frames.count().to_string(),
            roll,
            begin,
            end,
            slate,
            to,
            to_frame,
            signed(row.offset_after),
            title,
        ]
    };
    let rows = list.rows.iter().zip(changes).enumerate().map(row).collect();
    written(&COLUMNS, rows)
}

fn film_cells(film: &ChangedFilm) -> [String; 5] {
    let none = String::new;
    match film {
        ChangedFilm::Piece { span, slate } => [
            span.roll.to_string(),
            span.range.begin().to_string(),
            span.range.end().to_string(),
            slate.clone(),
            none(),
        ],
        ChangedFilm::Leader => ["leader".to_owned(), none(), none(), none(), none()],
        ChangedFilm::Card { title } => ["card".to_owned(), none(), none(), none(), title.clone()],
    }
}

fn signed(delta: FrameDelta) -> String {
    delta.frames().to_string()
}
