//! The printed forms about rolls, apart from any version: the log, the labels of
//! the trim bin, the inspection and the scans.

use onestrand_film::{FrameRange, Frames, RollId};
use onestrand_sheets as forms;
use onestrand_sheets::{
    Chosen, HandlingLedger, Head, InspectedRoll, InspectionSheet, LogSheet, LoggedRoll, LoggedTake,
    Paper, Proof, ScanRow, ScanSheet, TrimLabel, TrimLabels,
};
use onestrand_store::{NoteRecord, Production, RollRecord, TakeRecord, Workprints};

use crate::documents::RollReport;
use crate::gather_sheets::{file_word, roll_state};
use crate::halves::half_document;
use crate::inspect_roll::inspection_document;
use crate::joins_on_sheet::found_joins;
use crate::ledger_sheet::ledger_sheet;
use crate::roll_sheet_words::{
    begins_words, fit_words, found_words, hundred_words, joins_words, kept_words, of_the_film,
    of_the_take, slate_of, strip_remark, unless_unknown, wound_words,
};
use crate::sign_limits::roll_report;
use crate::{PrintedSheet, ProductionError, SheetCsv, sheet_csv};

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
    /// What was done to each original.
    Handling,
}

impl RollSheet {
    /// Every one.
    pub const ALL: [Self; 5] = [
        Self::Log,
        Self::TrimLabels,
        Self::Inspection,
        Self::Scan,
        Self::Handling,
    ];

    /// The word in commands, and the name of the file.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Log => "log-sheet",
            Self::TrimLabels => "trim-labels",
            Self::Inspection => "inspection-sheet",
            Self::Scan => "scan-sheet",
            Self::Handling => "handling-ledger",
        }
    }
}

/// A form about rolls with all that it needs, apart from the production.
#[derive(Debug)]
pub struct RollSheetToPrint {
    sheet: RollSheet,
    /// The name of its files, without an ending.
    name: String,
    proved: bool,
    without_pictures: Vec<String>,
    model: Model,
}

#[derive(Debug)]
pub(crate) enum Model {
    Log(LogSheet),
    Labels(TrimLabels),
    Inspection(InspectionSheet),
    Scan(ScanSheet),
    Handling(HandlingLedger),
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
        RollSheet::Handling => {
            Model::Handling(ledger_sheet(production, &gathering.head, &gathering.rolls)?)
        }
    };
    let of = roll.map_or_else(|| "rolls".to_owned(), file_word);
    Ok(RollSheetToPrint {
        sheet,
        name: format!("{of}-{}", sheet.word()),
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
            Model::Handling(ledger) => forms::print_handling_ledger(ledger)?,
        };
        Ok(PrintedSheet {
            sheet: self.sheet.word(),
            file_name: format!("{}.pdf", self.name),
            pdf,
            pages,
        })
    }

    /// The form as rows with a header, for a sheet of figures.
    #[must_use]
    pub fn csv(&self) -> SheetCsv {
        SheetCsv {
            sheet: self.sheet.word(),
            file_name: format!("{}.csv", self.name),
            csv: sheet_csv::rows(&self.model),
        }
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
            note: self.noted(take)?,
            picture: self.prints.picture(&take.roll, take.first)?,
        })
    }

    /// What is said of a take, and the notes that fall on its frames.
    fn noted(&self, take: &TakeRecord) -> Result<String, ProductionError> {
        let notes = self.production.notes_of(&take.roll)?;
        let falls_on_it = |note: &NoteRecord| (take.first..take.thrown).contains(&note.frame);
        let on_frames = notes
            .into_iter()
            .map(|(_, note)| note)
            .filter(falls_on_it)
            .map(|note| format!("{}: {}", note.frame, note.words))
            // A log that was brought in may say it already.
            .filter(|words| !take.note.contains(words.as_str()));
        let of_it = Some(take.note.clone()).filter(|words| !words.is_empty());
        let all: Vec<String> = of_it.into_iter().chain(on_frames).collect();
        Ok(all.join("; "))
    }

    fn labels(&mut self) -> Result<TrimLabels, ProductionError> {
        let mut labels = Vec::new();
        for roll in self.rolls.clone() {
            let remark = strip_remark(&roll);
            for take in self.production.takes_of(&roll.name)? {
                labels.push(TrimLabel {
                    pin: take.pin.unwrap_or_default(),
                    remark: remark.clone(),
                    roll: RollId::new(&roll.name)?,
                    slate: slate_of(&take)?,
                    span: FrameRange::of(take.first, take.thrown)?,
                    picture: self.prints.picture(&take.roll, take.first)?,
                });
            }
        }
        labels.sort_by_key(|label| label.pin);
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
            let found = inspection_document(self.production, roll)?;
            let half = half_document(self.production, roll)?;
            inspected.push(InspectedRoll {
                kept: kept_words(&found),
                hundred: hundred_words(&found.hundred),
                wound: wound_words(found.wound.as_ref()),
                half: half.map(|half| half.words).unwrap_or_default(),
                joins_found: found_joins(roll)?,
                found: found_words(&found),
                cautions: found.cautions,
                roll: RollId::new(&roll.name)?,
                frames: Frames::new(roll.frames)?,
                base: unless_unknown(&roll.base),
                measured: roll.measured.clone().unwrap_or_default(),
                wind: roll.wind.clone().unwrap_or_default(),
                fit: fit_words(&roll.fit).to_owned(),
                joins: joins_words(&takes, &roll.inspection.joins),
                signs: of_the_film(&report.signs),
            });
        }
        Ok(InspectionSheet {
            head: self.head.clone(),
            rolls: inspected,
        })
    }

    fn scans(&mut self) -> Result<ScanSheet, ProductionError> {
        let mut rows = Vec::new();
        for roll in &self.rolls.clone() {
            let film = self.film_of_parts(roll)?;
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
                    film: film.get(place).copied().flatten(),
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

    /// The film frames that each file of a roll shows, from first to last.
    fn film_of_parts(
        &mut self,
        roll: &RollRecord,
    ) -> Result<Vec<Option<FrameRange>>, ProductionError> {
        let mut shown: Vec<Option<(u32, u32)>> = vec![None; roll.scans.len()];
        if roll.frames > 0 && self.prints.info(&roll.name)?.is_some() {
            let all = FrameRange::of(0, roll.frames)?;
            for row in self.prints.rows(&roll.name, all)? {
                let part = row.shown_by.map(|(part, _)| part as usize);
                if let Some(shown) = part.and_then(|part| shown.get_mut(part)) {
                    let first = shown.map_or(row.frame, |(first, _)| first);
                    *shown = Some((first, row.frame + 1));
                }
            }
        }
        let range = |shown: Option<(u32, u32)>| shown.map(|(a, b)| FrameRange::of(a, b));
        shown
            .into_iter()
            .map(|one| Ok(range(one).transpose()?))
            .collect()
    }

    /// What the reading of a roll has found; nothing for a roll on paper.
    fn report(&self, roll: &RollRecord) -> Result<RollReport, ProductionError> {
        let found = roll_report(self.production, &self.prints, &roll.name)?;
        Ok(found.unwrap_or_default())
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
