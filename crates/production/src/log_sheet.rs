//! The log sheet as CSV.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use onestrand_cut::Slate;
use onestrand_film::{FrameRange, Gauge, RollId, parse_position};
use onestrand_store::{Act, Production, RollRecord, TakeRecord};
use serde::Serialize;

use crate::table::{Line, Table};
use crate::{ImportProblem, ProductionError};

const COLUMNS: [&str; 11] = [
    "roll",
    "slate",
    "take",
    "in",
    "out",
    "size",
    "move",
    "direction",
    "action",
    "use",
    "note",
];
const WANTED: [&str; 5] = ["roll", "slate", "take", "in", "out"];

/// What an import of a log did.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LogImported {
    /// Takes brought in.
    pub takes: usize,
    /// Rolls they are on; their earlier takes were replaced.
    pub rolls: Vec<String>,
    /// Columns that were put into the note.
    pub unknown_columns: Vec<String>,
}

/// Brings a log in. The takes of each roll it names take the place of those
/// the roll had.
///
/// # Errors
/// [`ProductionError::Import`] with every problem; nothing is changed then.
pub fn import_log(
    production: &mut Production,
    path: &Path,
) -> Result<LogImported, ProductionError> {
    let mut table = Table::read(path, &WANTED)?;
    let unknown = table.unknown_columns(&COLUMNS);
    let rolls = Rolls::of(production)?;
    let mut problems = Vec::new();
    let mut takes: Vec<(u64, TakeRecord)> = Vec::new();
    for line in table.lines() {
        if let Some(take) = rolls.take(line, &unknown, &mut problems) {
            takes.push((line.number(), take));
        }
    }
    overlaps(&mut takes, &mut problems);
    if table.lines().next().is_none() {
        table.problem(1, "", "the form has a header and no line");
    }
    table.add_problems(problems);
    table.sound()?;
    let count = takes.len();
    let by_roll = by_roll(production, takes)?;
    let names: Vec<String> = by_roll.keys().cloned().collect();
    let acts = by_roll
        .into_iter()
        .map(|(roll, takes)| Act::PutTakes { roll, takes })
        .collect();
    production.act(
        &format!("bring in the log of {}", names.join(", ")),
        &Act::All { acts },
    )?;
    Ok(LogImported {
        takes: count,
        rolls: names,
        unknown_columns: unknown,
    })
}

/// The rolls that lines may name.
pub(crate) struct Rolls(BTreeMap<String, (Gauge, u32)>);

impl Rolls {
    pub(crate) fn of(production: &Production) -> Result<Self, ProductionError> {
        let mut all = BTreeMap::new();
        for roll in production.rolls()? {
            let gauge = RollRecord::to_model(&roll)?.gauge;
            all.insert(roll.name, (gauge, roll.frames));
        }
        Ok(Self(all))
    }

    /// The roll and frames that a line names, inside the roll.
    pub(crate) fn span(
        &self,
        line: Line<'_>,
        problems: &mut Vec<ImportProblem>,
    ) -> Option<(RollId, FrameRange)> {
        let roll = line.parse("roll", problems, RollId::new)?;
        let Some((gauge, frames)) = self.0.get(roll.as_str()).copied() else {
            let known: Vec<&str> = self.0.keys().map(String::as_str).collect();
            let known = known.join(", ");
            problems.push(line.wrong("roll", &format!("no roll named {roll}; there are: {known}")));
            return None;
        };
        let begin = line.parse("in", problems, |t| parse_position(t, gauge));
        let end = line.parse("out", problems, |t| parse_position(t, gauge));
        let range = match FrameRange::new(begin?, end?) {
            Ok(range) => range,
            Err(found) => {
                problems.push(line.wrong("out", &found.to_string()));
                return None;
            }
        };
        if range.end().index() > frames {
            let message = format!("{roll} has {frames} frames, this ends at {}", range.end());
            problems.push(line.wrong("out", &message));
            return None;
        }
        Some((roll, range))
    }

    fn take(
        &self,
        line: Line<'_>,
        unknown: &[String],
        problems: &mut Vec<ImportProblem>,
    ) -> Option<TakeRecord> {
        let span = self.span(line, problems);
        let slate = slate(line, problems);
        let rating = line.parse("use", problems, rating_from_use);
        let ((roll, range), slate, rating) = (span?, slate?, rating?);
        Some(TakeRecord {
            roll: roll.to_string(),
            first: range.begin().index(),
            thrown: range.end().index(),
            setup: slate.as_ref().map(|s| s.setup().to_owned()),
            take: slate.as_ref().map(Slate::take),
            rating: rating.to_owned(),
            size: line.text("size").to_owned(),
            camera_move: line.text("move").to_owned(),
            direction: line.text("direction").to_owned(),
            action: line.text("action").to_owned(),
            note: line.note(unknown),
            begins: "camera_stop".to_owned(),
            flash_frames: 0,
            flash_stops: None,
            looked: true,
            pin: None,
        })
    }
}

/// Slate and take of a line; both empty for a take nobody has named yet.
fn slate(line: Line<'_>, problems: &mut Vec<ImportProblem>) -> Option<Option<Slate>> {
    if line.text("slate").is_empty() && line.text("take").is_empty() {
        return Some(None);
    }
    let number = line.parse("take", problems, |text| {
        text.trim_start_matches(['T', 't'])
            .parse::<u16>()
            .map_err(|_| format!("{text:?} is no take number such as 2"))
    })?;
    line.parse("slate", problems, |setup| {
        Slate::new(setup, number).map_err(|_| format!("{setup:?} is no setup such as 3A"))
    })
    .map(Some)
}

/// `yes`, `maybe` and `no` are the log's words; the others those of the day.
fn rating_from_use(text: &str) -> Result<&'static str, String> {
    match text.to_ascii_lowercase().as_str() {
        "" | "none" => Ok("none"),
        "yes" | "circled" => Ok("circled"),
        "maybe" | "hold" => Ok("hold"),
        "no" | "ng" => Ok("ng"),
        other => Err(format!(
            "{other:?}: yes (circled), maybe (hold) or no (NG) is meant?"
        )),
    }
}

/// A frame belongs to one take, and a slate to one take.
fn overlaps(takes: &mut [(u64, TakeRecord)], problems: &mut Vec<ImportProblem>) {
    takes.sort_by(|a, b| (&a.1.roll, a.1.first).cmp(&(&b.1.roll, b.1.first)));
    for pair in takes.windows(2) {
        let (before, after) = (&pair[0].1, &pair[1]);
        if before.roll == after.1.roll && before.thrown > after.1.first {
            problems.push(ImportProblem {
                line: after.0,
                column: "in".to_owned(),
                message: format!(
                    "begins at {}, inside the take that ends at {} (line {})",
                    after.1.first, before.thrown, pair[0].0
                ),
            });
        }
    }
    let mut slates = BTreeSet::new();
    for (line, take) in takes.iter() {
        let Some(setup) = &take.setup else { continue };
        if !slates.insert((setup.clone(), take.take)) {
            problems.push(ImportProblem {
                line: *line,
                column: "take".to_owned(),
                message: format!("{setup}-T{} stands twice", take.take.unwrap_or(0)),
            });
        }
    }
}

/// Groups takes, keeping what a reading saw at the same first frame.
fn by_roll(
    production: &Production,
    takes: Vec<(u64, TakeRecord)>,
) -> Result<BTreeMap<String, Vec<TakeRecord>>, ProductionError> {
    let mut all: BTreeMap<String, Vec<TakeRecord>> = BTreeMap::new();
    for (_, mut take) in takes {
        let seen = production.takes_of(&take.roll)?;
        if let Some(before) = seen.iter().find(|s| s.first == take.first) {
            take.begins.clone_from(&before.begins);
            take.flash_frames = before.flash_frames;
            take.flash_stops = before.flash_stops;
        }
        all.entry(take.roll.clone()).or_default().push(take);
    }
    Ok(all)
}

/// The log as CSV.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn export_log(production: &Production) -> Result<String, ProductionError> {
    let mut out = csv::Writer::from_writer(Vec::new());
    let written = "a form in memory can be written";
    out.write_record(COLUMNS).expect(written);
    for take in production.takes()? {
        let chosen = match take.rating.as_str() {
            "circled" => "yes",
            "hold" => "maybe",
            "ng" => "no",
            _ => "",
        };
        let number = take.take.map(|t| t.to_string()).unwrap_or_default();
        out.write_record([
            take.roll.as_str(),
            take.setup.as_deref().unwrap_or(""),
            &number,
            &take.first.to_string(),
            &take.thrown.to_string(),
            &take.size,
            &take.camera_move,
            &take.direction,
            &take.action,
            chosen,
            &take.note,
        ])
        .expect(written);
    }
    let bytes = out.into_inner().expect(written);
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}
