//! The change list between two versions, on paper and in rows.

use std::path::Path;

use onestrand_cut::{PieceKind, compare};
use onestrand_film::{FrameDelta, Frames};
use onestrand_intake::Cancel;
use onestrand_sheets::{ChangeList, ChangeRow, ChangedFilm, print_change_list};
use onestrand_store::Production;

use crate::gather_sheets::{SheetsToPrint, file_word, gather_sheets};
use crate::print_sheets::{SheetFile, SheetsDocument, write_whole};
use crate::sheet_csv::{feet, written};
use crate::{ProductionError, Progress, SheetForm, SheetOptions, strand};

/// The word of the form in commands.
const WORD: &str = "change-list";

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

/// Prints the list of changes that make `new` of `old` into a folder.
///
/// # Errors
/// [`ProductionError::CutRefused`] when the strand check refuses the new version,
/// [`ProductionError::Store`] when there is no such version,
/// [`ProductionError::Sheets`], [`ProductionError::File`].
pub fn change_list(
    production: &Production,
    (old, new): (&str, &str),
    out: &Path,
    form: SheetForm,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<SheetsDocument, ProductionError> {
    let before = strand::cut(production, old)?;
    let after = strand::cut(production, new)?;
    let options = SheetOptions {
        only: None,
        letter: form == SheetForm::Letter,
        join: None,
    };
    if form != SheetForm::Csv {
        let mut rolls = crate::make_finish::rolls_of(&before);
        rolls.extend(crate::make_finish::rolls_of(&after));
        rolls.sort();
        rolls.dedup();
        crate::workprint::ready_workprints(production, &rolls, cancel, progress)?;
    }
    let mut gathered = gather_sheets(production, new, &options)?;
    progress.note("printing the change list");
    let found = compare(&before, &after);
    let mut rows = Vec::with_capacity(found.changes().len());
    let mut words = Vec::with_capacity(found.changes().len());
    for change in found.changes() {
        rows.push(row(&mut gathered, change)?);
        words.push(change.act.code());
    }
    let list = ChangeList {
        head: gathered.head().clone(),
        old: old.to_owned(),
        old_frames: before.frames(),
        new_frames: after.frames(),
        rows,
    };
    let (ending, bytes) = match form {
        SheetForm::Csv => ("csv", rows_of(&list, &words).into_bytes()),
        SheetForm::A4 | SheetForm::Letter => ("pdf", print_change_list(&list)?.pdf),
    };
    std::fs::create_dir_all(out).map_err(crate::error::file("make the folder", out))?;
    let name = format!("{}-to-{}-{WORD}.{ending}", file_word(old), file_word(new));
    let path = out.join(name);
    write_whole(&path, &bytes)?;
    Ok(SheetsDocument {
        cut: new.to_owned(),
        proved: gathered.is_proved(),
        files: vec![SheetFile {
            sheet: WORD,
            path: crate::film_frames::path_text(&path),
            bytes: bytes.len(),
        }],
    })
}

fn row(
    gathered: &mut SheetsToPrint,
    change: &onestrand_cut::ChangeLine,
) -> Result<ChangeRow, ProductionError> {
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

fn rows_of(list: &ChangeList, acts: &[&str]) -> String {
    let gauge = list.head.gauge;
    let place = |at: Option<Frames>| match at {
        Some(at) => (feet(gauge, at.count()), at.count().to_string()),
        None => (String::new(), String::new()),
    };
    let row = |(number, (row, act)): (usize, (&ChangeRow, &&str))| {
        let (at, at_frame) = place(Some(row.at));
        let (to, to_frame) = place(row.to);
        let [roll, begin, end, slate, title] = film_cells(&row.film);
        [
            (number + 1).to_string(),
            at,
            at_frame,
            (*act).to_owned(),
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
    let rows = list.rows.iter().zip(acts).enumerate().map(row).collect();
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
