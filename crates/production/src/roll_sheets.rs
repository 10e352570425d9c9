//! The printed forms about rolls, apart from any version: the log, the labels of
//! the trim bin, the inspection and the scans.

use onestrand_film::{FrameRange, Frames, RollId};
use onestrand_sheets as forms;
use onestrand_sheets::{
    Chosen, Head, InspectedRoll, InspectionSheet, LogSheet, LoggedRoll, LoggedTake, Paper, Proof,
    ScanRow, ScanSheet, TrimLabel, TrimLabels,
};
use onestrand_store::{Production, RollRecord, TakeRecord, Workprints};

use crate::documents::RollReport;
use crate::gather_sheets::{file_word, roll_state};
use crate::roll_sheet_words::{
    begins_words, fit_words, joins_words, of_the_film, of_the_take, slate_of, unless_unknown,
};
use crate::{PrintedSheet, ProductionError, film_view};

/// A form about rolls.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RollSheet {
    /// What is on each roll, take by take.
    Log,
    /// Labels for the pins of the trim bin.
    TrimLabels,
    /// The film itself, to be filled in on the bench.
    Inspection,
    /// Which file holds which roll.
    Scan,
}

impl RollSheet {
    /// Every one.
    pub const ALL: [Self; 4] = [Self::Log, Self::TrimLabels, Self::Inspection, Self::Scan];

    /// The word in commands, and the name of the file.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Log => "log-sheet",
            Self::TrimLabels => "trim-labels",
            Self::Inspection => "inspection-sheet",
            Self::Scan => "scan-sheet",
        }
    }
}

/// A form about rolls with all that it needs, apart from the production.
#[derive(Debug)]
pub struct RollSheetToPrint {
    sheet: RollSheet,
    file_name: String,
    proved: bool,
    without_pictures: Vec<String>,
    model: Model,
}

#[derive(Debug)]
enum Model {
    Log(LogSheet),
    Labels(TrimLabels),
    Inspection(InspectionSheet),
    Scan(ScanSheet),
}

/// Gathers what a form needs: of one roll, or of all. Quick; the setting is slow.
///
/// Rolls are never refused: a roll known on paper is printed with empty frames.
///
/// # Errors
/// [`ProductionError::Store`], for one when there is no such roll.
pub fn gather_roll_sheet(
    production: &Production,
    sheet: RollSheet,
    roll: Option<&str>,
    letter: bool,
) -> Result<RollSheetToPrint, ProductionError> {
    let rolls = match roll {
        Some(name) => vec![production.roll(name)?],
        None => production.rolls()?,
    };
    let mut gathering = Gathering {
        production,
        prints: Workprints::open(production.dir())?,
        head: head(production, &rolls, letter)?,
        rolls,
    };
    let without_pictures = gathering.without_pictures()?;
    let proved = gathering.head.rolls.iter().all(|r| match r.proof {
        Proof::Proved => true,
        Proof::NotProved { .. } | Proof::PaperOnly => false,
    });
    let model = match sheet {
        RollSheet::Log => Model::Log(gathering.log()?),
        RollSheet::TrimLabels => Model::Labels(gathering.labels()?),
        RollSheet::Inspection => Model::Inspection(gathering.inspection()?),
        RollSheet::Scan => Model::Scan(gathering.scans()?),
    };
    let of = roll.map_or_else(|| "rolls".to_owned(), file_word);
    Ok(RollSheetToPrint {
        sheet,
        file_name: format!("{of}-{}.pdf", sheet.word()),
        proved,
        without_pictures,
        model,
    })
}

impl RollSheetToPrint {
    /// Whether the scan of every roll on it is proved complete.
    #[must_use]
    pub fn is_proved(&self) -> bool {
        self.proved
    }

    /// Rolls that have a scan but no workprint, so that their frames are empty.
    #[must_use]
    pub fn without_pictures(&self) -> &[String] {
        &self.without_pictures
    }

    /// Sets the form.
    ///
    /// # Errors
    /// [`ProductionError::Sheets`].
    pub fn print(&self) -> Result<PrintedSheet, ProductionError> {
        let forms::Printed { pdf, pages, .. } = match &self.model {
            Model::Log(sheet) => forms::print_log_sheet(sheet)?,
            Model::Labels(labels) => forms::print_trim_labels(labels)?,
            Model::Inspection(sheet) => forms::print_inspection_sheet(sheet)?,
            Model::Scan(sheet) => forms::print_scan_sheet(sheet)?,
        };
        Ok(PrintedSheet {
            sheet: self.sheet.word(),
            file_name: self.file_name.clone(),
            pdf,
            pages,
        })
    }
}

struct Gathering<'a> {
    production: &'a Production,
    prints: Workprints,
    head: Head,
    rolls: Vec<RollRecord>,
}

impl Gathering<'_> {
    fn without_pictures(&self) -> Result<Vec<String>, ProductionError> {
        let mut without = Vec::new();
        for roll in &self.rolls {
            if !roll.scans.is_empty() && self.prints.info(&roll.name)?.is_none() {
                without.push(roll.name.clone());
            }
        }
        Ok(without)
    }

    fn log(&mut self) -> Result<LogSheet, ProductionError> {
        let mut logged = Vec::new();
        for roll in self.rolls.clone() {
            let report = self.report(&roll)?;
            let mut takes = Vec::new();
            for take in self.production.takes_of(&roll.name)? {
                takes.push(self.take(&take, &report)?);
            }
            logged.push(LoggedRoll {
                roll: RollId::new(&roll.name)?,
                frames: Frames::new(roll.frames)?,
                takes,
            });
        }
        Ok(LogSheet {
            head: self.head.clone(),
            rolls: logged,
        })
    }

    fn take(
        &mut self,
        take: &TakeRecord,
        report: &RollReport,
    ) -> Result<LoggedTake, ProductionError> {
        Ok(LoggedTake {
            slate: slate_of(take)?,
            span: FrameRange::of(take.first, take.thrown)?,
            begins: begins_words(take),
            size: take.size.clone(),
            camera_move: take.camera_move.clone(),
            direction: take.direction.clone(),
            action: take.action.clone(),
            signs: of_the_take(&report.signs, take),
            chosen: match take.rating.as_str() {
                "circled" => Chosen::Circled,
                "hold" => Chosen::Hold,
                "ng" => Chosen::NotUsed,
                _ => Chosen::NotSaid,
            },
            note: take.note.clone(),
            picture: self.prints.picture(&take.roll, take.first)?,
        })
    }

    fn labels(&mut self) -> Result<TrimLabels, ProductionError> {
        let mut labels = Vec::new();
        for roll in self.rolls.clone() {
            for take in self.production.takes_of(&roll.name)? {
                labels.push(TrimLabel {
                    pin: u32::try_from(labels.len() + 1).unwrap_or(u32::MAX),
                    roll: RollId::new(&roll.name)?,
                    slate: slate_of(&take)?,
                    span: FrameRange::of(take.first, take.thrown)?,
                    picture: self.prints.picture(&take.roll, take.first)?,
                });
            }
        }
        Ok(TrimLabels {
            head: self.head.clone(),
            labels,
        })
    }

    fn inspection(&self) -> Result<InspectionSheet, ProductionError> {
        let mut inspected = Vec::new();
        for roll in &self.rolls {
            let takes = self.production.takes_of(&roll.name)?;
            let report = self.report(roll)?;
            inspected.push(InspectedRoll {
                roll: RollId::new(&roll.name)?,
                frames: Frames::new(roll.frames)?,
                base: unless_unknown(&roll.base),
                measured: roll.measured.clone().unwrap_or_default(),
                wind: roll.wind.clone().unwrap_or_default(),
                fit: fit_words(&roll.fit).to_owned(),
                joins: joins_words(&takes),
                signs: of_the_film(&report.signs),
            });
        }
        Ok(InspectionSheet {
            head: self.head.clone(),
            rolls: inspected,
        })
    }

    fn scans(&self) -> Result<ScanSheet, ProductionError> {
        let mut rows = Vec::new();
        for roll in &self.rolls {
            for (place, scan) in roll.scans.iter().enumerate() {
                let path = scan.paths.first().map(String::as_str).unwrap_or_default();
                let name = std::path::Path::new(path)
                    .file_name()
                    .map(|name| name.to_string_lossy().into_owned());
                rows.push(ScanRow {
                    roll: RollId::new(&roll.name)?,
                    file: name.unwrap_or_default(),
                    rate: scan.facts.rate.clone(),
                    size: (scan.facts.width, scan.facts.height),
                    coding: scan.facts.coding.clone(),
                    bytes: scan.bytes,
                    file_frames: scan.facts.frames,
                    checksum: scan.blake3.clone(),
                    found: Frames::new(roll.frames - roll.missing)?,
                    expected: roll.expected.map(Frames::new).transpose()?,
                    first_of_roll: place == 0,
                });
            }
        }
        Ok(ScanSheet {
            head: self.head.clone(),
            scans: rows,
        })
    }

    /// What the reading of a roll has found; nothing for a roll on paper.
    fn report(&self, roll: &RollRecord) -> Result<RollReport, ProductionError> {
        let info = self.prints.info(&roll.name)?;
        Ok(info
            .map(|i| film_view::report(&i.report))
            .unwrap_or_default())
    }
}

fn head(
    production: &Production,
    rolls: &[RollRecord],
    letter: bool,
) -> Result<Head, ProductionError> {
    let meta = production.meta();
    let mut states = Vec::new();
    for roll in rolls {
        states.push(roll_state(&RollId::new(&roll.name)?, roll)?);
    }
    let names: Vec<&str> = rolls.iter().map(|roll| roll.name.as_str()).collect();
    Ok(Head {
        title: meta.title.clone(),
        version: match names.as_slice() {
            [] => "no roll".to_owned(),
            [one] => format!("roll {one}"),
            more => format!("{} rolls", more.len()),
        },
        gauge: meta.gauge,
        speed: meta.speed,
        joins: Vec::new(),
        rolls: states,
        paper: if letter { Paper::Letter } else { Paper::A4 },
    })
}
