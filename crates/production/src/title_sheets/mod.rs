//! The paper of the titles: what their sheets need, gathered from the film so that they
//! can be set without it.

mod exposed;
mod listed;
mod stand;
mod true_size;

use std::path::Path;

use onestrand_film::{Fps, Gauge};
use onestrand_sheets as forms;
use onestrand_sheets::{Paper, PlanHead, Printed};
use onestrand_store::Production;
use serde::Serialize;

use crate::documents::{
    TitleCardDocument, TitleDocument, TitleFieldDocument, TitleStandDocument, TitlesDocument,
};
use crate::error::unfit;
use crate::print_sheets::{SheetFile, write_whole};
use crate::titles::{TitleOutlines, title_card, title_outlines, title_stand, titles_document};
use crate::{Cancel, PrintedSheet, ProductionError, Progress};

/// A sheet of the titles.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TitleSheetName {
    /// All titles, a row each.
    TitleList,
    /// One title, frame by frame.
    ExposureSheet,
    /// The copy stand from the front and from the side, to scale.
    StandDrawing,
    /// What the camera sees, true to size.
    FieldChart,
    /// The lettering of one title, true to size.
    Cel,
}

impl TitleSheetName {
    /// Every sheet.
    pub const ALL: [Self; 5] = [
        Self::TitleList,
        Self::ExposureSheet,
        Self::StandDrawing,
        Self::FieldChart,
        Self::Cel,
    ];

    /// The word in commands, and the name of the file.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::TitleList => "title-list",
            Self::ExposureSheet => "exposure-sheet",
            Self::StandDrawing => "stand-drawing",
            Self::FieldChart => "field-chart",
            Self::Cel => "cel",
        }
    }

    /// The sheet of this word.
    #[must_use]
    pub fn of(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|sheet| sheet.word() == word)
    }

    /// Whether it is about one title.
    #[must_use]
    pub const fn is_of_one(self) -> bool {
        matches!(self, Self::ExposureSheet | Self::Cel)
    }
}

/// How the sheets of the titles are wanted.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct TitleSheetsAsked {
    /// On Letter in place of A4.
    pub letter: bool,
    /// Only this title, by its name; every one when not said.
    pub title: Option<String>,
    /// White letters on black, for a second exposure; as the title is shot when not said.
    pub reversed: Option<bool>,
    /// Mirrored, to be printed on the back of clear film.
    pub mirrored: bool,
}

/// A title with all that its sheets need.
#[derive(Debug)]
struct TitleToPrint {
    title: TitleDocument,
    card: TitleCardDocument,
    /// Why there are none is told on the card.
    outlines: Option<TitleOutlines>,
}

/// All that the sheets of the titles need.
#[derive(Debug)]
pub struct TitleSheetsToPrint {
    head: PlanHead,
    titles: Vec<TitleToPrint>,
    stand: TitleStandDocument,
    rule: String,
    asked: TitleSheetsAsked,
}

/// Gathers what the sheets of the titles need.
///
/// # Errors
/// [`ProductionError::Unfit`] for a title that is not there, and for a stand that cannot be
/// read; [`ProductionError::Store`].
pub fn gather_title_sheets(
    production: &Production,
    asked: &TitleSheetsAsked,
) -> Result<TitleSheetsToPrint, ProductionError> {
    let document = titles_document(production)?;
    let wanted = |name: &str| {
        let only = asked.title.as_deref();
        only.is_none_or(|only| name.eq_ignore_ascii_case(only.trim()))
    };
    let mut titles = Vec::new();
    let rule = rule_words(&document);
    for title in document.titles {
        if wanted(&title.title.name) {
            titles.push(TitleToPrint {
                card: title_card(production, &title.title)?,
                outlines: title_outlines(production, &title.title).ok(),
                title,
            });
        }
    }
    if let (Some(only), true) = (&asked.title, titles.is_empty()) {
        return Err(unfit(
            format!("there is no title {only}"),
            "say one as the title list names it",
        ));
    }
    let meta = production.meta();
    let (gauge, speed): (Gauge, Fps) = (meta.gauge, meta.speed);
    Ok(TitleSheetsToPrint {
        head: PlanHead {
            title: meta.title.clone(),
            place: String::new(),
            day: String::new(),
            gauge,
            speed,
            paper: match asked.letter {
                true => Paper::Letter,
                false => Paper::A4,
            },
        },
        titles,
        stand: title_stand(production)?,
        rule,
        asked: asked.clone(),
    })
}

/// The reading rule in a sentence, with its figures where they are the user's own.
fn rule_words(document: &TitlesDocument) -> String {
    let stand = &document.stand;
    let named = document.rules.iter().find(|rule| rule.word == stand.rule);
    let says = named.map_or("a rule of your own", |rule| &rule.says);
    match stand.rule.as_str() {
        "own" => format!(
            "Reading rule: {says}: {} s and {} s a word, {} s at the least.",
            stand.first, stand.per_word, stand.least
        ),
        _ => format!("Reading rule: {says}."),
    }
}

impl TitleSheetsToPrint {
    /// Sets one sheet, with its pages to look at. Of those about one title, that of the
    /// first that was gathered.
    ///
    /// # Errors
    /// [`ProductionError::Unfit`] where there is nothing to put on it, with what to do;
    /// [`ProductionError::Sheets`].
    pub fn print_one(&self, sheet: TitleSheetName) -> Result<PrintedSheet, ProductionError> {
        let first = self.titles.first();
        let one = || {
            first.ok_or_else(|| {
                unfit(
                    "there is no title yet".to_owned(),
                    "write the first one in the room of the titles",
                )
            })
        };
        let printed = match sheet {
            TitleSheetName::TitleList => forms::print_title_list(&listed::sheet(self))?,
            TitleSheetName::StandDrawing => forms::print_stand_drawing(&stand::sheet(self)?)?,
            TitleSheetName::FieldChart => forms::print_field_chart(&true_size::chart(self)?)?,
            TitleSheetName::ExposureSheet => {
                forms::print_exposure_sheet(&exposed::sheet(self, one()?)?)?
            }
            TitleSheetName::Cel => forms::print_title_cel(&true_size::cel(self, one()?)?)?,
        };
        Ok(self.named(sheet, first, printed))
    }

    fn named(
        &self,
        sheet: TitleSheetName,
        title: Option<&TitleToPrint>,
        printed: Printed,
    ) -> PrintedSheet {
        let name = title.filter(|_| sheet.is_of_one());
        let of = name.map(|one| format!("-{}", one.title.title.name));
        PrintedSheet {
            sheet: sheet.word(),
            file_name: format!("{}{}.pdf", sheet.word(), of.unwrap_or_default()),
            pdf: printed.pdf,
            pages: printed.pages,
        }
    }

    /// The field and the distances of the stand.
    ///
    /// # Errors
    /// [`ProductionError::Unfit`] with what the stand lacks.
    fn field(&self) -> Result<&TitleFieldDocument, ProductionError> {
        self.stand.field.as_ref().ok_or_else(|| {
            let why = self.stand.problems.first();
            let what = why.map_or("the copy stand is not set up", |why| &why.what);
            let next = why.map_or("say lens and field", |why| &why.next);
            unfit(what.to_owned(), next)
        })
    }

    /// Lens, distance and stop in a line.
    fn set_up(&self) -> String {
        let Some(field) = &self.stand.field else {
            return String::new();
        };
        let mut parts = vec![format!("{} mm lens", field.lens_mm)];
        if field.dioptres > 0.0 {
            parts.push(format!("close-up lens +{}", field.dioptres));
        }
        parts.push(format!("{:.1} mm from lens to artwork", field.subject_mm));
        if !self.stand.stand.stop.is_empty() {
            parts.push(format!("f/{}", self.stand.stand.stop));
        }
        parts.join(", ")
    }
}

/// The answer of `title sheets`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct TitleSheetsDocument {
    /// The files.
    pub files: Vec<SheetFile>,
}

/// Prints the sheets of the titles into a folder: all of them, or only the one whose word
/// is given; those about one title for each title. Chart and cels are written as SVG
/// beside the PDF.
///
/// # Errors
/// As [`gather_title_sheets`]; [`ProductionError::Unfit`] for a sheet that is none,
/// [`ProductionError::Stopped`], [`ProductionError::Sheets`], [`ProductionError::File`].
pub fn title_sheets(
    production: &Production,
    out: &Path,
    only: Option<&str>,
    asked: &TitleSheetsAsked,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<TitleSheetsDocument, ProductionError> {
    let wanted: Vec<TitleSheetName> = match only {
        None => TitleSheetName::ALL.to_vec(),
        Some(word) => vec![TitleSheetName::of(word).ok_or_else(|| {
            let known: Vec<&str> = TitleSheetName::ALL.iter().map(|one| one.word()).collect();
            unfit(
                format!("{word} is no sheet of the titles"),
                &format!("there are {}", known.join(", ")),
            )
        })?],
    };
    let mut gathered = gather_title_sheets(production, asked)?;
    std::fs::create_dir_all(out).map_err(crate::error::file("make the folder", out))?;
    let mut files = Vec::new();
    let mut keep = |sheet, name: &str, bytes: &[u8]| {
        let path = out.join(name);
        write_whole(&path, bytes)?;
        files.push(SheetFile {
            sheet,
            path: crate::film_frames::path_text(&path),
            bytes: bytes.len(),
        });
        Ok::<(), ProductionError>(())
    };
    progress.begin("printing", None);
    for sheet in wanted.iter().filter(|sheet| !sheet.is_of_one()) {
        if cancel.is_cancelled() {
            return Err(ProductionError::Stopped);
        }
        let printed = gathered.print_one(*sheet)?;
        keep(printed.sheet, &printed.file_name, &printed.pdf)?;
        if *sheet == TitleSheetName::FieldChart {
            let (name, svg) = gathered.chart_svg()?;
            keep(printed.sheet, &name, svg.as_bytes())?;
        }
    }
    // One after the other stands at the front.
    for _ in 0..gathered.titles.len() {
        for sheet in wanted.iter().filter(|sheet| sheet.is_of_one()) {
            if cancel.is_cancelled() {
                return Err(ProductionError::Stopped);
            }
            let lettered = gathered.titles[0].outlines.is_some();
            // A title that cannot be lettered has no cel; that is told with the title.
            if *sheet == TitleSheetName::Cel && !lettered && only.is_none() {
                continue;
            }
            let printed = gathered.print_one(*sheet)?;
            keep(printed.sheet, &printed.file_name, &printed.pdf)?;
            if *sheet == TitleSheetName::Cel {
                let (name, svg) = gathered.cel_svg()?;
                keep(printed.sheet, &name, svg.as_bytes())?;
            }
        }
        gathered.titles.rotate_left(1);
    }
    Ok(TitleSheetsDocument { files })
}
