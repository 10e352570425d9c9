//! The sheets of a version as tables.

use std::path::Path;

use onestrand_cut::JoinKind;
use onestrand_store::Production;

use crate::error::unfit;
use crate::gather_sheets::{file_word, gather_sheets};
use crate::lined_sheet::lined_csv;
use crate::print_sheets::{SheetFile, SheetsDocument, write_whole};
use crate::sheet_csv::SheetCsv;
use crate::work_order_csv::{order_csv, outs_csv};
use crate::{BenchPaper, ProductionError, SheetName, SheetOptions};

/// A sheet of a version as a table: the cutting sheet as it comes in again, the
/// lined sheet with the notes below each row, the work order act by act, the outs.
///
/// # Errors
/// [`ProductionError::Store`] when there is no such version,
/// [`ProductionError::Unfit`] for what is for paper only.
pub fn cut_table(
    production: &Production,
    name: &str,
    sheet: SheetName,
    (join, bench): (Option<JoinKind>, &BenchPaper),
) -> Result<SheetCsv, ProductionError> {
    let options = SheetOptions {
        only: Some(sheet),
        letter: false,
        join,
        bench: bench.clone(),
    };
    let gathered = || gather_sheets(production, name, &options);
    let csv = match sheet {
        SheetName::CuttingSheet => crate::export_cut(production, name)?,
        SheetName::LinedSheet => lined_csv(&gathered()?.lined_sheet()?),
        SheetName::WorkOrder => order_csv(&gathered()?.work_order()?),
        SheetName::OutsList => outs_csv(&gathered()?.outs_list()?),
        paper => {
            return Err(unfit(
                format!("the {} is for paper only", paper.word().replace('-', " ")),
                "print it; the work order and the outs list are tables too",
            ));
        }
    };
    Ok(SheetCsv {
        sheet: sheet.word(),
        file_name: format!("{}-{}.csv", file_word(name), sheet.word()),
        csv,
    })
}

/// The same into a folder.
///
/// # Errors
/// As [`cut_table`], and [`ProductionError::File`].
pub fn write_cut_table(
    production: &Production,
    name: &str,
    sheet: SheetName,
    out: &Path,
    (join, bench): (Option<JoinKind>, &BenchPaper),
) -> Result<SheetsDocument, ProductionError> {
    let table = cut_table(production, name, sheet, (join, bench))?;
    let answer = crate::check_cut(production, name, None)?;
    std::fs::create_dir_all(out).map_err(crate::error::file("make the folder", out))?;
    let path = out.join(&table.file_name);
    write_whole(&path, table.csv.as_bytes())?;
    Ok(SheetsDocument {
        cut: name.to_owned(),
        proved: answer.rolls.iter().all(|roll| roll.proved),
        files: vec![SheetFile {
            sheet: sheet.word(),
            path: crate::film_frames::path_text(&path),
            bytes: table.csv.len(),
        }],
    })
}
