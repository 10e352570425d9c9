//! The printed forms of a version.

use std::path::{Path, PathBuf};

use onestrand_cut::JoinKind;
use onestrand_film::RollId;
use onestrand_intake::Cancel;
use onestrand_store::Production;
use serde::Serialize;

use crate::on_the_bench::BenchPaper;
use crate::{ProductionError, Progress, RollSheet, gather_roll_sheet, gather_sheets, strand};

/// The sheets that can be printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SheetName {
    /// The cut, row by row.
    CuttingSheet,
    /// What to take from which roll, in the order of the cut.
    PullList,
    /// The cut, row by row, with lines to write on at a screening.
    LinedSheet,
    /// The bench work in the order in which it is done.
    WorkOrder,
    /// Pictures and counts by which every cut is found.
    FrameCards,
    /// Labels for the strips that hang.
    PinLabels,
    /// What is left of every roll, and where it goes.
    OutsList,
    /// Labels for the reel, its can and its leaders.
    ReelLabels,
    /// Every join, to be looked at.
    JoinsInspection,
}

impl SheetName {
    /// Every sheet.
    pub const ALL: [Self; 9] = [
        Self::CuttingSheet,
        Self::PullList,
        Self::LinedSheet,
        Self::WorkOrder,
        Self::FrameCards,
        Self::PinLabels,
        Self::OutsList,
        Self::ReelLabels,
        Self::JoinsInspection,
    ];

    /// Those that are printed where none is named: what one needs in the hand
    /// whatever the bench is like.
    pub const FOR_THE_BENCH: [Self; 2] = [Self::CuttingSheet, Self::PullList];

    /// Whether film is cut by it; only a version that can be made is printed so.
    #[must_use]
    pub const fn leads_the_hand(self) -> bool {
        !matches!(self, Self::LinedSheet)
    }

    /// The word in commands, and the name of the file.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::CuttingSheet => "cutting-sheet",
            Self::PullList => "pull-list",
            Self::LinedSheet => "lined-sheet",
            Self::WorkOrder => "work-order",
            Self::FrameCards => "frame-cards",
            Self::PinLabels => "pin-labels",
            Self::OutsList => "outs-list",
            Self::ReelLabels => "reel-labels",
            Self::JoinsInspection => "joins-inspection",
        }
    }
}

/// What is to be printed.
#[derive(Debug, Clone)]
pub struct SheetOptions {
    /// Only this one.
    pub only: Option<SheetName>,
    /// The paper.
    pub letter: bool,
    /// Another join than the cut's own usual one.
    pub join: Option<JoinKind>,
    /// How the bench is set up, for the sheets that follow its work.
    pub bench: BenchPaper,
}

/// The answer of `sheets`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SheetsDocument {
    /// The cut.
    pub cut: String,
    /// Whether every roll's scan is proved complete.
    pub proved: bool,
    /// The files.
    pub files: Vec<SheetFile>,
}

/// One printed form.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SheetFile {
    /// Its name.
    pub sheet: &'static str,
    /// Where it is.
    pub path: String,
    /// Its size. Unit: bytes.
    pub bytes: usize,
}

/// Prints the forms of a version into a folder.
///
/// # Errors
/// [`ProductionError::CutRefused`] when the strand check refuses the cut and a
/// form is wanted that leads the hand; [`ProductionError::Sheets`],
/// [`ProductionError::File`].
pub fn sheets(
    production: &Production,
    name: &str,
    out: &Path,
    options: &SheetOptions,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<SheetsDocument, ProductionError> {
    let rolls = crate::finish::rolls_of(&strand::cut(production, name)?);
    crate::workprint::ready_workprints(production, &rolls, cancel, progress)?;
    let mut gathered = gather_sheets(production, name, options)?;
    std::fs::create_dir_all(out).map_err(crate::error::file("make the folder", out))?;
    let mut files = Vec::new();
    for sheet in gathered.wanted() {
        progress.note(&format!("printing the {}", sheet.word().replace('-', " ")));
        let printed = gathered.print_one(sheet)?;
        let path = out.join(&printed.file_name);
        write_whole(&path, &printed.pdf)?;
        files.push(SheetFile {
            sheet: sheet.word(),
            path: crate::film_frames::path_text(&path),
            bytes: printed.pdf.len(),
        });
    }
    Ok(SheetsDocument {
        cut: name.to_owned(),
        proved: gathered.is_proved(),
        files,
    })
}

/// The answer of `sheets` without a version.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RollSheetsDocument {
    /// The roll, nothing for all of them.
    pub roll: Option<String>,
    /// Whether every roll's scan is proved complete.
    pub proved: bool,
    /// The files.
    pub files: Vec<SheetFile>,
}

/// As what a form about rolls is kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SheetForm {
    /// A PDF on A4.
    A4,
    /// A PDF on Letter.
    Letter,
    /// Rows with a header, comma between cells.
    Csv,
}

/// Which forms about rolls are to be printed, and where to.
#[derive(Debug, Clone, Copy)]
pub struct PrintRolls<'a> {
    /// The forms.
    pub wanted: &'a [RollSheet],
    /// Of this roll, or of all.
    pub roll: Option<&'a str>,
    /// The folder.
    pub out: &'a Path,
    /// As what.
    pub form: SheetForm,
}

/// Prints forms about rolls into a folder: of one roll, or of all.
///
/// # Errors
/// [`ProductionError::Store`] when there is no such roll,
/// [`ProductionError::Sheets`], [`ProductionError::File`].
pub fn roll_sheets(
    production: &Production,
    asked: &PrintRolls<'_>,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<RollSheetsDocument, ProductionError> {
    let PrintRolls { roll, out, .. } = *asked;
    let rolls: Vec<RollId> = production
        .rolls()?
        .iter()
        .filter(|one| roll.is_none_or(|name| name == one.name))
        .map(|one| RollId::new(&one.name))
        .collect::<Result<_, _>>()?;
    crate::workprint::ready_workprints(production, &rolls, cancel, progress)?;
    std::fs::create_dir_all(out).map_err(crate::error::file("make the folder", out))?;
    let (mut files, mut proved) = (Vec::new(), true);
    for sheet in asked.wanted {
        progress.note(&format!("printing the {}", sheet.word().replace('-', " ")));
        let letter = asked.form == SheetForm::Letter;
        let gathered = gather_roll_sheet(production, *sheet, roll, letter)?;
        let (name, bytes) = if asked.form == SheetForm::Csv {
            let rows = gathered.csv();
            (rows.file_name, rows.csv.into_bytes())
        } else {
            let printed = gathered.print()?;
            (printed.file_name, printed.pdf)
        };
        let path = out.join(name);
        write_whole(&path, &bytes)?;
        proved = proved && gathered.is_proved();
        files.push(SheetFile {
            sheet: sheet.word(),
            path: crate::film_frames::path_text(&path),
            bytes: bytes.len(),
        });
    }
    Ok(RollSheetsDocument {
        roll: roll.map(str::to_owned),
        proved,
        files,
    })
}

/// Under its name only once it is whole.
pub(crate) fn write_whole(path: &Path, bytes: &[u8]) -> Result<(), ProductionError> {
    let part: PathBuf = path.with_extension("part");
    std::fs::write(&part, bytes).map_err(crate::error::file("write the sheet", path))?;
    std::fs::rename(&part, path).map_err(crate::error::file("write the sheet", path))
}
