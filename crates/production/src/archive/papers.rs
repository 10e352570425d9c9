//! All sheets of a film, printed for its box.

use onestrand_store::Production;

use super::stopped_if;
use crate::documents::LeftOutDocument;
use crate::gather_sheets::file_word;
use crate::{
    BenchPaper, Cancel, DubSheetName, DubSheetsAsked, DubSheetsToPrint, GRADING_CARD,
    GradingToPrint, PrintedSheet, ProductionError, RollSheet, RollSheetToPrint, ScriptSheet,
    ScriptSheetsAsked, ScriptSheetsToPrint, SheetName, SheetOptions, SheetsToPrint, TitleSheetName,
    TitleSheetsAsked, TitleSheetsToPrint, gather_dub_sheets, gather_grading, gather_roll_sheet,
    gather_script_sheets, gather_sheets, gather_title_sheets, grading_card, script_document,
};

/// Sheets that are gathered together, and the folder they go into.
pub(super) enum Paper {
    Cut(String, Box<SheetsToPrint>, Vec<SheetName>),
    Grading(String, Box<GradingToPrint>),
    Roll(Box<RollSheetToPrint>),
    Dub(String, Box<DubSheetsToPrint>),
    Titles(Box<TitleSheetsToPrint>),
    Script(Box<ScriptSheetsToPrint>),
}

/// Where a paper goes: its place in the box, and its bytes.
type PutPaper<'a> = dyn FnMut(&str, &[u8]) -> Result<(), ProductionError> + 'a;

/// Gathers the sheets that this film has.
pub(super) fn papers(
    production: &Production,
    left_out: &mut Vec<LeftOutDocument>,
) -> Result<Vec<Paper>, ProductionError> {
    let mut all = Vec::new();
    if !production.rolls()?.is_empty() {
        for sheet in RollSheet::ALL {
            let gathered = gather_roll_sheet(production, sheet, None, false)?;
            all.push(Paper::Roll(Box::new(gathered)));
        }
    }
    let is_graded = !grading_card(production)?.shots.is_empty();
    for cut in production.cut_names()? {
        all.extend(of_cut(production, &cut, left_out)?);
        if is_graded {
            let card = gather_grading(production, &cut, false)?;
            all.push(Paper::Grading(file_word(&cut), Box::new(card)));
        }
        let asked = DubSheetsAsked::default();
        let dub = gather_dub_sheets(production, &cut, &asked)?;
        if !crate::dub_document(production, &cut)?.cues.is_empty() {
            all.push(Paper::Dub(file_word(&cut), Box::new(dub)));
        }
    }
    if !crate::titles_document(production)?.titles.is_empty() {
        match gather_title_sheets(production, &TitleSheetsAsked::default()) {
            Ok(titles) => all.push(Paper::Titles(Box::new(titles))),
            Err(problem) => left_out.push(LeftOutDocument {
                what: "the sheets of the titles".to_owned(),
                why: problem.to_string(),
            }),
        }
    }
    if !script_document(production)?.scenes.is_empty() {
        let script = gather_script_sheets(production, &ScriptSheetsAsked::default())?;
        all.push(Paper::Script(Box::new(script)));
    }
    Ok(all)
}

/// The sheets of a version; of one that the strand check refuses, the one for notes.
fn of_cut(
    production: &Production,
    cut: &str,
    left_out: &mut Vec<LeftOutDocument>,
) -> Result<Option<Paper>, ProductionError> {
    let asked = |only| SheetOptions {
        only,
        letter: false,
        join: None,
        bench: BenchPaper::USUAL,
    };
    let (gathered, wanted) = match gather_sheets(production, cut, &asked(None)) {
        Ok(gathered) => (gathered, SheetName::ALL.to_vec()),
        Err(problem @ ProductionError::CutRefused { .. }) => {
            left_out.push(LeftOutDocument {
                what: format!("the sheets of {cut} that lead the hand"),
                why: problem.to_string(),
            });
            let notes = gather_sheets(production, cut, &asked(Some(SheetName::LinedSheet)))?;
            (notes, vec![SheetName::LinedSheet])
        }
        Err(problem) => return Err(problem),
    };
    Ok(Some(Paper::Cut(file_word(cut), Box::new(gathered), wanted)))
}

impl Paper {
    /// How many sheets it is at most.
    pub(super) fn count(&self) -> u64 {
        let count = match self {
            Self::Cut(_, _, wanted) => wanted.len(),
            Self::Roll(_) | Self::Grading(..) => 1,
            Self::Dub(..) => DubSheetName::ALL.len(),
            Self::Titles(_) => TitleSheetName::ALL.len(),
            Self::Script(_) => ScriptSheet::ALL.len(),
        };
        count as u64
    }

    /// Sets its sheets and hands each on with its path in the payload. One that has
    /// nothing to say is left out, with the reason.
    pub(super) fn print(
        &mut self,
        cancel: &Cancel,
        left_out: &mut Vec<LeftOutDocument>,
        put: &mut PutPaper<'_>,
    ) -> Result<(), ProductionError> {
        let mut each =
            |folder: &str, name: &str, printed: Result<PrintedSheet, ProductionError>| {
                stopped_if(cancel)?;
                match printed {
                    Ok(sheet) => put(&format!("sheets/{folder}/{}", sheet.file_name), &sheet.pdf),
                    Err(problem) if has_nothing_to_say(&problem) => {
                        left_out.push(LeftOutDocument {
                            what: format!("{folder}: the sheet {name}"),
                            why: problem.to_string(),
                        });
                        Ok(())
                    }
                    Err(problem) => Err(problem),
                }
            };
        match self {
            Self::Cut(cut, gathered, wanted) => {
                for sheet in wanted.clone() {
                    each(cut, sheet.word(), gathered.print_one(sheet))?;
                }
            }
            Self::Roll(gathered) => each("rolls", "of rolls", gathered.print())?,
            Self::Grading(cut, gathered) => each(cut, GRADING_CARD, gathered.print())?,
            Self::Dub(cut, gathered) => {
                for sheet in DubSheetName::ALL {
                    let folder = format!("{cut}-sound");
                    each(&folder, sheet.word(), gathered.print_one(sheet))?;
                }
            }
            Self::Titles(gathered) => {
                for sheet in TitleSheetName::ALL {
                    each("titles", sheet.word(), gathered.print_one(sheet))?;
                }
            }
            Self::Script(gathered) => {
                for sheet in ScriptSheet::ALL {
                    each("script", sheet.word(), gathered.print_one(sheet))?;
                }
            }
        }
        Ok(())
    }
}

/// Whether a sheet was not printed because there is nothing to put on it.
const fn has_nothing_to_say(problem: &ProductionError) -> bool {
    matches!(
        problem,
        ProductionError::Unfit { .. }
            | ProductionError::NoWorkOrder(_)
            | ProductionError::CutRefused { .. }
            | ProductionError::Plan { .. }
            | ProductionError::Title(_)
            | ProductionError::Lettering(_)
    )
}
