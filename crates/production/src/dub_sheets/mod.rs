//! The paper of the dub: what its sheets need, gathered from the film so that they can be
//! set without it.

mod charted;
mod listed;
mod outlines;
mod played;
mod rows;

use std::collections::BTreeMap;
use std::path::Path;

use onestrand_film::Fps;
use onestrand_sheets as forms;
use onestrand_sheets::{MixLog, MixPass, Paper, PassKept, PlanHead, Printed};
use onestrand_store::{Production, Workprints};
use serde::Serialize;

use crate::documents::{
    ColumnDocument, CueDocument, CueStateWord, DubDocument, PassDocument, PassFaultWords,
    PassKeptWord, PassWords, SoundDocument,
};
use crate::dub::{dub_document, mix_of, speed_of, timings_of_text};
use crate::error::unfit;
use crate::print_sheets::{SheetFile, write_whole};
use crate::sheet_csv::SheetCsv;
use crate::{Cancel, PrintedSheet, ProductionError, Progress, SoundFile};

/// Rows of a mix log to write into.
const LOG_ROWS: u32 = 14;

/// As many at least are left blank, however many passes there were.
const FEWEST_LOG_ROWS: u32 = 6;

/// A sheet of the dub.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DubSheetName {
    /// The film downward, a column for each source.
    DubbingChart,
    /// The sounds, a row each.
    EffectsList,
    /// Who moves which fader when.
    HandScore,
    /// The passes of the mix, to be written by hand.
    MixLog,
    /// What the counter of a tape says when a frame comes.
    TapeTable,
    /// Whose the sounds are.
    MusicList,
}

impl DubSheetName {
    /// Every sheet, in the order in which they are needed.
    pub const ALL: [Self; 6] = [
        Self::DubbingChart,
        Self::EffectsList,
        Self::HandScore,
        Self::MixLog,
        Self::TapeTable,
        Self::MusicList,
    ];

    /// Its word in commands and file names.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::DubbingChart => "dubbing-chart",
            Self::EffectsList => "effects-list",
            Self::HandScore => "hand-score",
            Self::MixLog => "mix-log",
            Self::TapeTable => "tape-table",
            Self::MusicList => "music-list",
        }
    }

    /// The sheet of this word.
    #[must_use]
    pub fn of(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|sheet| sheet.word() == word)
    }
}

/// How the sheets of the dub are wanted.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct DubSheetsAsked {
    /// On Letter in place of A4.
    pub letter: bool,
    /// Timings of the tape's counter, for its table: the text of a CSV form
    /// `count,seconds`; there is no such table without them.
    pub timings: Option<String>,
    /// The machine and the tape, in the user's words, to stand on that table.
    pub tape: String,
}

/// The text of a form of timings, as [`DubSheetsAsked::timings`] wants it.
///
/// # Errors
/// [`ProductionError::File`].
pub fn timings_form(path: &Path) -> Result<String, ProductionError> {
    let bytes = std::fs::read(path).map_err(crate::error::file("read", path))?;
    // What is no text is told with its line when the form is read.
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

/// All that the sheets of the dub need.
#[derive(Debug)]
pub struct DubSheetsToPrint {
    head: PlanHead,
    dub: DubDocument,
    true_speed: Fps,
    timings: Option<Vec<(f64, f64)>>,
    tape: String,
    prints: Workprints,
    /// The files of the sounds that are there, for their outlines.
    files: BTreeMap<i64, SoundFile>,
}

/// Gathers what the sheets of the dub need of a version. Quick; the setting is slow.
///
/// # Errors
/// [`ProductionError::Store`] when there is no such version, or it cannot be read;
/// [`ProductionError::Import`] with every problem of the timings.
pub fn gather_dub_sheets(
    production: &Production,
    cut: &str,
    asked: &DubSheetsAsked,
) -> Result<DubSheetsToPrint, ProductionError> {
    let dub = dub_document(production, cut)?;
    let meta = production.meta();
    Ok(DubSheetsToPrint {
        head: PlanHead {
            title: meta.title.clone(),
            place: dub.cut.clone(),
            day: String::new(),
            gauge: meta.gauge,
            speed: meta.speed,
            paper: match asked.letter {
                true => Paper::Letter,
                false => Paper::A4,
            },
        },
        true_speed: speed_of(production, &mix_of(production)?)?,
        timings: asked.timings.as_deref().map(timings_of_text).transpose()?,
        tape: asked.tape.clone(),
        prints: Workprints::open(production.dir())?,
        files: outlines::files(production, &dub)?,
        dub,
    })
}

impl DubSheetsToPrint {
    /// Sets one sheet, with its pages to look at.
    ///
    /// # Errors
    /// [`ProductionError::Unfit`] where there is nothing to put on it, with what to do;
    /// [`ProductionError::Store`] when a picture cannot be fetched;
    /// [`ProductionError::Sheets`].
    pub fn print_one(&mut self, sheet: DubSheetName) -> Result<PrintedSheet, ProductionError> {
        let Printed { pdf, pages, .. } = match sheet {
            DubSheetName::DubbingChart => forms::print_dubbing_chart(&charted::sheet(self)?)?,
            DubSheetName::EffectsList => forms::print_effects_list(&listed::effects(self)?)?,
            DubSheetName::HandScore => forms::print_hand_score(&played::score(self))?,
            DubSheetName::MixLog => forms::print_mix_log(&self.mix_log())?,
            DubSheetName::TapeTable => forms::print_tape_table(&played::tape(self)?)?,
            DubSheetName::MusicList => forms::print_music_list(&listed::music(self))?,
        };
        Ok(PrintedSheet {
            sheet: sheet.word(),
            file_name: format!("{}.pdf", self.file_stem(sheet)),
            pdf,
            pages,
        })
    }

    /// The rows of a sheet that is a list; nothing of one that is drawn or written by hand.
    ///
    /// # Errors
    /// [`ProductionError::Unfit`] when no law of a counter can be made of the timings.
    pub fn csv_of(&self, sheet: DubSheetName) -> Result<Option<SheetCsv>, ProductionError> {
        let csv = match sheet {
            DubSheetName::EffectsList => rows::effects(&listed::effects(self)?),
            DubSheetName::MusicList => rows::music(&listed::music(self)),
            _ => return Ok(None),
        };
        Ok(Some(SheetCsv {
            sheet: sheet.word(),
            file_name: format!("{}.csv", self.file_stem(sheet)),
            csv,
        }))
    }

    fn file_stem(&self, sheet: DubSheetName) -> String {
        let cut = crate::gather_sheets::file_word(&self.dub.cut);
        format!("{cut}-{}", sheet.word())
    }

    /// The passes of this version that are kept, and lines for those to come.
    fn mix_log(&self) -> MixLog {
        let of_version = |kept: &&PassDocument| {
            let cut = kept.pass.cut.trim();
            cut.is_empty() || cut == self.dub.cut
        };
        let passes: Vec<MixPass> = self
            .dub
            .passes
            .iter()
            .filter(of_version)
            .map(|kept| passed(&kept.pass))
            .collect();
        let written = u32::try_from(passes.len()).unwrap_or(u32::MAX);
        MixLog {
            head: self.head.clone(),
            passes,
            blank_rows: LOG_ROWS.saturating_sub(written).max(FEWEST_LOG_ROWS),
        }
    }

    /// The cues that have a place, from the first picture to the last.
    fn placed(&self) -> impl Iterator<Item = &CueDocument> {
        let placed = |cue: &&CueDocument| cue.state != CueStateWord::Orphan;
        self.dub.cues.iter().filter(placed)
    }

    fn column(&self, id: i64) -> Option<&ColumnDocument> {
        self.dub.columns.iter().find(|known| known.id == id)
    }

    fn sound(&self, cue: &CueDocument) -> Option<&SoundDocument> {
        let mut sounds = self.dub.sounds.iter();
        sounds.find(|known| Some(known.id) == cue.cue.sound)
    }

    /// What a cue is called: as its chart says, else as its sound, else as its column.
    fn name_of(&self, cue: &CueDocument) -> String {
        let own = cue.cue.name.trim();
        if !own.is_empty() {
            return own.to_owned();
        }
        let sound = self.sound(cue).map(|known| known.sound.name.clone());
        let column = || self.column(cue.cue.column).map(|c| c.column.name.clone());
        sound.or_else(column).unwrap_or_default()
    }
}

fn passed(pass: &PassWords) -> MixPass {
    let speed = pass.speed.trim().replace(',', ".").parse::<Fps>();
    let fault = |fault: &PassFaultWords| (fault.at, fault.what.clone());
    MixPass {
        pass: pass.pass.clone(),
        start: pass.start,
        speed: speed.ok().map(Fps::as_f64),
        faults: pass.faults.iter().map(fault).collect(),
        kept: match pass.keep {
            PassKeptWord::Open => PassKept::Open,
            PassKeptWord::Kept => PassKept::Kept,
            PassKeptWord::GivenUp => PassKept::GivenUp,
        },
    }
}

/// A running frame on paper, where none lies before the first picture.
fn frame_on_paper(frame: i64) -> u32 {
    u32::try_from(frame.max(0)).unwrap_or(u32::MAX)
}

/// Tenths of a decibel as decibels.
fn db(tenths: i32) -> f64 {
    f64::from(tenths) / 10.0
}

/// The answer of `cue sheets`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct DubSheetsDocument {
    /// The version.
    pub cut: String,
    /// The files.
    pub files: Vec<SheetFile>,
    /// Sheets that were not made, with why.
    pub left_out: Vec<String>,
}

/// Prints the sheets of the dub of a version into a folder: all of them, or only the one
/// whose word is given. The rows of lists are written as CSV beside the PDF. The table of
/// the tape is left out, and named, where no timings are given.
///
/// # Errors
/// As [`gather_dub_sheets`]; [`ProductionError::Unfit`] for a sheet that is none,
/// [`ProductionError::Stopped`], [`ProductionError::Sheets`], [`ProductionError::File`].
pub fn dub_sheets(
    production: &Production,
    (cut, out): (&str, &Path),
    only: Option<&str>,
    asked: &DubSheetsAsked,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<DubSheetsDocument, ProductionError> {
    let mut wanted: Vec<DubSheetName> = match only {
        None => DubSheetName::ALL.to_vec(),
        Some(word) => vec![known(word)?],
    };
    let mut gathered = gather_dub_sheets(production, cut, asked)?;
    let mut left_out = Vec::new();
    if only.is_none() && gathered.timings.is_none() {
        wanted.retain(|sheet| *sheet != DubSheetName::TapeTable);
        left_out.push("tape-table: give timings of the counter for it".to_owned());
    }
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
    for sheet in wanted {
        if cancel.is_cancelled() {
            return Err(ProductionError::Stopped);
        }
        let printed = gathered.print_one(sheet)?;
        keep(printed.sheet, &printed.file_name, &printed.pdf)?;
        if let Some(rows) = gathered.csv_of(sheet)? {
            keep(rows.sheet, &rows.file_name, rows.csv.as_bytes())?;
        }
    }
    Ok(DubSheetsDocument {
        cut: gathered.dub.cut,
        files,
        left_out,
    })
}

fn known(word: &str) -> Result<DubSheetName, ProductionError> {
    DubSheetName::of(word).ok_or_else(|| {
        let known: Vec<&str> = DubSheetName::ALL.iter().map(|one| one.word()).collect();
        unfit(
            format!("{word} is no sheet of the dub"),
            &format!("there are {}", known.join(", ")),
        )
    })
}
