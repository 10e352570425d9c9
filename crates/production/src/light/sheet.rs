//! The grading card on paper.

use std::path::Path;

use onestrand_cut::PieceKind;
use onestrand_film::{FrameName, FramePos, Span};
use onestrand_intake::Cancel;
use onestrand_sheets::{GradingRow, GradingSheet, Printed, print_grading_card};
use onestrand_store::Production;

use super::card::{grading_card, light_of_frame, points_of};
use crate::documents::{GradedShot, GradingCard};
use crate::finish::rolls_of;
use crate::gather_sheets::{PrintedSheet, SheetsToPrint, file_word, gather_sheets};
use crate::print_sheets::{SheetFile, SheetName, SheetsDocument, write_whole};
use crate::{ProductionError, Progress, SheetOptions, strand};

/// The word of the form in commands.
pub const GRADING_CARD: &str = "grading-card";

/// All that a grading card needs, apart from the production.
#[derive(Debug)]
pub struct GradingToPrint {
    sheets: SheetsToPrint,
    /// Where each row comes: position, running frame, first frame, its light.
    rows: Vec<Row>,
}

#[derive(Debug)]
struct Row {
    position: u32,
    running: u32,
    from: FrameName,
    slate: String,
    shot: Option<GradedShot>,
}

/// Gathers what the grading card of a version needs.
///
/// # Errors
/// [`ProductionError::Store`] when there is no such version.
pub fn gather_grading(
    production: &Production,
    cut: &str,
    letter: bool,
) -> Result<GradingToPrint, ProductionError> {
    let options = SheetOptions {
        // A sheet to look at: a cut that cannot be made yet has light too.
        only: Some(SheetName::LinedSheet),
        letter,
        join: None,
        bench: crate::BenchPaper::USUAL,
    };
    let sheets = gather_sheets(production, cut, &options)?;
    let card = grading_card(production)?;
    let version = strand::cut(production, cut)?;
    let mut rows = Vec::new();
    let mut running = 0;
    for (at, piece) in version.pieces().iter().enumerate() {
        let position = u32::try_from(at + 1).unwrap_or(u32::MAX);
        match &piece.kind {
            PieceKind::Shot(span) => {
                let slate = sheets.slate_of(span, piece.slate.as_ref());
                for (from, shot) in lights(&card, span)? {
                    let into = from.frame.index() - span.range.begin().index();
                    rows.push(Row {
                        position,
                        running: running + into,
                        from,
                        slate: slate.clone(),
                        shot,
                    });
                }
                running += span.range.len().count();
            }
            PieceKind::Leader(frames) | PieceKind::Card { frames, .. } => running += frames.count(),
        }
    }
    Ok(GradingToPrint { sheets, rows })
}

/// The lights of a piece: where each begins, and which it is.
fn lights(
    card: &GradingCard,
    span: &Span,
) -> Result<Vec<(FrameName, Option<GradedShot>)>, ProductionError> {
    let mut all: Vec<(FrameName, Option<GradedShot>)> = Vec::new();
    for frame in span.range.begin().index()..span.range.end().index() {
        let shot = light_of_frame(card, span.roll.as_str(), frame);
        if all.last().is_none_or(|(_, last)| last.as_ref() != shot) {
            let name = FrameName {
                roll: span.roll.clone(),
                frame: FramePos::new(frame)?,
            };
            all.push((name, shot.cloned()));
        }
    }
    Ok(all)
}

impl GradingToPrint {
    /// Sets the card.
    ///
    /// # Errors
    /// [`ProductionError::Sheets`], [`ProductionError::Store`] when a picture cannot be
    /// fetched.
    pub fn print(&mut self) -> Result<PrintedSheet, ProductionError> {
        let sheets = &mut self.sheets;
        let rows = self.rows.iter().map(|row| printed_row(sheets, row));
        let sheet = GradingSheet {
            rows: rows.collect::<Result<_, _>>()?,
            head: sheets.head().clone(),
        };
        let version = file_word(&sheet.head.version);
        let Printed { pdf, pages, .. } = print_grading_card(&sheet)?;
        Ok(PrintedSheet {
            sheet: GRADING_CARD,
            file_name: format!("{version}-{GRADING_CARD}.pdf"),
            pdf,
            pages,
        })
    }
}

fn printed_row(sheets: &mut SheetsToPrint, row: &Row) -> Result<GradingRow, ProductionError> {
    let points = row.shot.as_ref().map(points_of).transpose()?;
    Ok(GradingRow {
        position: row.position,
        slate: row.slate.clone(),
        from: row.from.clone(),
        running: row.running,
        picture: sheets.picture(&row.from)?,
        points: points.map(onestrand_light::Points::rgb),
        slopes: points.unwrap_or_default().slopes(),
        reason: row
            .shot
            .as_ref()
            .map(|s| s.reason.clone())
            .unwrap_or_default(),
    })
}

/// Prints the grading card of a version into a folder.
///
/// # Errors
/// As [`gather_grading`] and [`GradingToPrint::print`]; [`ProductionError::File`].
pub fn print_grading(
    production: &Production,
    cut: &str,
    out: &Path,
    letter: bool,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<SheetsDocument, ProductionError> {
    let rolls = rolls_of(&strand::cut(production, cut)?);
    crate::workprint::ready_workprints(production, &rolls, cancel, progress)?;
    let mut gathered = gather_grading(production, cut, letter)?;
    progress.note("printing the grading card");
    let printed = gathered.print()?;
    std::fs::create_dir_all(out).map_err(crate::error::file("make the folder", out))?;
    let path = out.join(&printed.file_name);
    write_whole(&path, &printed.pdf)?;
    Ok(SheetsDocument {
        cut: cut.to_owned(),
        proved: gathered.sheets.is_proved(),
        files: vec![SheetFile {
            sheet: GRADING_CARD,
            path: crate::film_frames::path_text(&path),
            bytes: printed.pdf.len(),
        }],
    })
}
