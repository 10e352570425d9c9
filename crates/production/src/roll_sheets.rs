//! The printed forms about rolls, apart from any version: the log, the labels of
//! the trim bin, the inspection and the scans.

use onestrand_film::{FrameRange, Frames, RollId};
use onestrand_sheets as forms;
use onestrand_sheets::{
    Chosen, Head, InspectedRoll, InspectionSheet, LogSheet, LoggedRoll, LoggedTake, Paper, Proof,
    ScanRow, ScanSheet, TrimLabel, TrimLabels,
};
use onestrand_store::{Production, RollRecord, TakeRecord, Workprints};

use crate::documents::{RollReport, SignDocument};
use crate::gather_sheets::{file_word, roll_state};
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
        let lies_in = |sign: &&SignDocument| sign.first < take.thrown && take.first < sign.thrown;
        Ok(LoggedTake {
            slate: slate_of(take),
            span: FrameRange::of(take.first, take.thrown)?,
            begins: begins_words(take),
            size: take.size.clone(),
            camera_move: take.camera_move.clone(),
            direction: take.direction.clone(),
            action: take.action.clone(),
            // How it begins says that of the flash already.
            signs: report
                .signs
                .iter()
                .filter(lies_in)
                .filter(|sign| sign.kind != "flash")
                .map(sign_words)
                .collect(),
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
                    slate: slate_of(&take),
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
                signs: report
                    .signs
                    .iter()
                    .filter(|sign| sign.kind != "flash")
                    .map(sign_words)
                    .collect(),
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

/// Setup and take as they are said together, `3A-T2`; empty when not named.
fn slate_of(take: &TakeRecord) -> String {
    match (&take.setup, take.take) {
        (Some(setup), Some(number)) => format!("{setup}-T{number}"),
        _ => String::new(),
    }
}

/// How a take begins, with the light of its first frame.
fn begins_words(take: &TakeRecord) -> String {
    let begins = match take.begins.as_str() {
        "roll_start" => "head of the roll".to_owned(),
        other => other.replace('_', " "),
    };
    match take.flash_stops {
        Some(stops) if stops > 0.0 => format!("{begins}, first frame {stops:.1} stops over"),
        Some(_) => begins,
        None => begins,
    }
}

/// A sign with its place and measure: `fog, 0 to 23`.
fn sign_words(sign: &SignDocument) -> String {
    let last = sign.thrown.saturating_sub(1);
    let span = if last == sign.first {
        sign.first.to_string()
    } else {
        format!("{} to {last}", sign.first)
    };
    let place = sign.place.as_deref().map(|place| format!(", {place}"));
    format!(
        "{} {span}{}: {} {}",
        sign.kind,
        place.unwrap_or_default(),
        short_number(sign.measure),
        sign.unit
    )
}

/// Two figures behind the point are more than any sign is known by.
fn short_number(value: f64) -> String {
    let text = format!("{value:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// How many stops of the camera and joins lie between the takes.
fn joins_words(takes: &[TakeRecord]) -> String {
    let count = |word: &str| takes.iter().filter(|take| take.begins == word).count();
    let one = |n: usize, single: &str, many: &str| {
        (n > 0).then(|| format!("{n} {}", if n == 1 { single } else { many }))
    };
    let said: Vec<String> = [
        one(count("join"), "join", "joins"),
        one(count("camera_stop"), "camera stop", "camera stops"),
    ]
    .into_iter()
    .flatten()
    .collect();
    said.join(", ")
}

fn unless_unknown(base: &str) -> String {
    if base == "unknown" {
        String::new()
    } else {
        base.to_owned()
    }
}

fn fit_words(fit: &str) -> &str {
    match fit {
        "project" => "projecting",
        "scan-only" => "scanning only",
        "never-cut" => "keeping: never cut",
        other => other,
    }
}
