//! The lines of a log: roll, span, slate, mark and pin of a take.

use std::collections::BTreeMap;

use onestrand_cut::Slate;
use onestrand_film::{Fps, Gauge, RollId};
use onestrand_store::{Production, TakeRecord};

use crate::log_columns::Columns;
use crate::log_headings::CountedIn;
use crate::log_places::{self, Scale};
use crate::table::{Line, Table};
use crate::{ImportProblem, LogReading, ProductionError};

/// Reads the lines of one log.
pub(crate) struct LogReader {
    rolls: BTreeMap<String, (Gauge, Fps, u32)>,
    pub(crate) columns: Columns,
    reading: LogReading,
    pub(crate) assumptions: Vec<String>,
}

impl LogReader {
    pub(crate) fn of(
        production: &Production,
        table: &Table,
        columns: Columns,
        reading: &LogReading,
    ) -> Result<Self, ProductionError> {
        let mut rolls = BTreeMap::new();
        for roll in production.rolls()? {
            let gauge = roll.to_model()?.gauge;
            let speed: Fps = roll.film_speed.parse()?;
            rolls.insert(roll.name, (gauge, speed, roll.frames));
        }
        let mut log = Self {
            rolls,
            columns,
            reading: reading.clone(),
            assumptions: Vec::new(),
        };
        if log.columns.end() == "to" {
            log.columns.last_is_kept = log.last_is_kept(table);
            log.assume(if log.columns.last_is_kept {
                "takes end with the frame that is given as their end: the next begins one later"
            } else {
                "takes end before the frame that is given as their end, as a counter shows it"
            });
        }
        Ok(log)
    }

    fn assume(&mut self, words: &str) {
        if !self.assumptions.iter().any(|said| said == words) {
            self.assumptions.push(words.to_owned());
        }
    }

    /// Whether the end of each take is its last frame: so where takes lie one frame
    /// apart somewhere, and never end where the next begins.
    fn last_is_kept(&mut self, table: &Table) -> bool {
        let mut nothing = Vec::new();
        let mut ends: Vec<(String, u32, u32)> = Vec::new();
        for line in table.lines() {
            let Some(roll) = self.roll(line, &mut nothing) else {
                continue;
            };
            let first = self.place(line, self.columns.first(), &roll, &mut nothing);
            let last = self.place(line, "to", &roll, &mut nothing);
            if let (Some(first), Some(last)) = (first, last) {
                ends.push((roll.to_string(), first, last));
            }
        }
        ends.sort();
        let apart = |by: u32| {
            ends.windows(2)
                .any(|two| two[0].0 == two[1].0 && two[0].2.checked_add(by) == Some(two[1].1))
        };
        apart(1) && !apart(0)
    }

    /// The roll that a line names.
    fn roll(&mut self, line: Line<'_>, problems: &mut Vec<ImportProblem>) -> Option<RollId> {
        let (text, column) = match (line.text("roll"), &self.reading.roll) {
            ("", Some(roll)) => (roll.clone(), ""),
            (text, _) => (text.to_owned(), "roll"),
        };
        let all: Vec<&str> = self.rolls.keys().map(String::as_str).collect();
        let with_letter = format!("R{text}");
        let exact = all.iter().find(|name| **name == text);
        let alike = || all.iter().find(|name| name.eq_ignore_ascii_case(&text));
        let numbered = || all.iter().find(|name| **name == with_letter);
        let found = exact.or_else(alike).or_else(numbered);
        let Some(name) = found.map(|name| (*name).to_owned()) else {
            let known = all.join(", ");
            let words = if text.is_empty() {
                format!("no roll is named; there are: {known}")
            } else {
                format!("no roll named {text}; there are: {known}")
            };
            problems.push(line.wrong(column, &words));
            return None;
        };
        if name != text {
            self.assume(&format!("roll {text} is {name}"));
        }
        RollId::new(&name).ok()
    }

    /// A place or a length of a line, in frames.
    fn place(
        &self,
        line: Line<'_>,
        column: &'static str,
        roll: &RollId,
        problems: &mut Vec<ImportProblem>,
    ) -> Option<u32> {
        let (gauge, speed, _) = self.rolls.get(roll.as_str())?;
        let said = self.columns.by_name.get(column);
        let counted = said.and_then(|h| h.counted).or(self.reading.counted);
        let text = line.text(column);
        let bare = text.chars().all(|c| c.is_ascii_digit() || ",.".contains(c));
        if counted.is_none() && bare && !text.is_empty() && said.is_some_and(|h| h.counter) {
            problems.push(line.wrong(
                column,
                &format!(
                    "does the counter count feet, frames or seconds? Say so in the heading, such as \
                     counter start (ft), or bring it in with --counter; {text:?}"
                ),
            ));
            return None;
        }
        let scale = Scale {
            gauge: *gauge,
            speed: *speed,
            counted: counted.unwrap_or(CountedIn::Frames),
        };
        line.parse(column, problems, |text| log_places::frames(text, scale))
    }

    /// The first frame of a line's take and the first after it.
    fn span(
        &self,
        line: Line<'_>,
        roll: &RollId,
        problems: &mut Vec<ImportProblem>,
    ) -> Option<(u32, u32)> {
        let end = self.columns.end();
        let first = self.place(line, self.columns.first(), roll, problems);
        let second = self.place(line, end, roll, problems);
        let (first, second) = (first?, second?);
        let thrown = match end {
            "length" => first.saturating_add(second),
            "to" if self.columns.last_is_kept => second.saturating_add(1),
            _ => second,
        };
        if thrown <= first {
            let words = format!("ends at {thrown}, not after it begins at {first}");
            problems.push(line.wrong(end, &words));
            return None;
        }
        let frames = self.rolls.get(roll.as_str()).map_or(0, |(_, _, n)| *n);
        if thrown > frames {
            let words = format!("{roll} has {frames} frames, this ends at {thrown}");
            problems.push(line.wrong(end, &words));
            return None;
        }
        Some((first, thrown))
    }

    /// The take of a line, or every problem with it.
    pub(crate) fn take(
        &mut self,
        line: Line<'_>,
        problems: &mut Vec<ImportProblem>,
    ) -> Option<TakeRecord> {
        let roll = self.roll(line, problems);
        let span = roll
            .as_ref()
            .and_then(|roll| self.span(line, roll, problems));
        let slate = slate(line, problems);
        let rating = line.parse("use", problems, log_places::rating);
        let pin = pin(line, problems);
        let (roll, (first, thrown), slate, rating) = (roll?, span?, slate?, rating?);
        Some(TakeRecord {
            roll: roll.to_string(),
            first,
            thrown,
            setup: slate.as_ref().map(|s| s.setup().to_owned()),
            take: slate.as_ref().map(Slate::take),
            rating: rating.to_owned(),
            size: line.text("size").to_owned(),
            camera_move: line.text("move").to_owned(),
            direction: line.text("direction").to_owned(),
            action: line.text("action").to_owned(),
            note: line.note(&self.columns.unknown),
            begins: "camera_stop".to_owned(),
            flash_frames: 0,
            flash_stops: None,
            looked: true,
            pin: pin?,
        })
    }
}

/// Slate and take of a line: in two columns, in one, or the scene beside its setup.
fn slate(line: Line<'_>, problems: &mut Vec<ImportProblem>) -> Option<Option<Slate>> {
    let (scene, setup) = (line.text("scene"), line.text("slate"));
    let name = match (scene, setup) {
        ("", setup) => setup.to_owned(),
        (scene, "") => scene.to_owned(),
        // Scene 3 with setup A is 3A; where the setup says 3A already, it stands.
        (scene, setup) if setup.chars().all(|c| c.is_ascii_alphabetic()) => {
            format!("{scene}{setup}")
        }
        (_, setup) => setup.to_owned(),
    };
    let take = line.text("take");
    match log_places::slate(&name, take) {
        Ok(slate) => Some(slate),
        Err(words) => {
            let of_take = words.contains("take number");
            let column = match (of_take, setup.is_empty() && !scene.is_empty()) {
                (true, _) => "take",
                (false, true) => "scene",
                (false, false) => "slate",
            };
            problems.push(line.wrong(column, &words));
            None
        }
    }
}

/// The pin of a line, nothing where none is said.
fn pin(line: Line<'_>, problems: &mut Vec<ImportProblem>) -> Option<Option<u32>> {
    line.parse("pin", problems, |text| match text {
        "" => Ok(None),
        some => match some.parse::<u32>() {
            Ok(pin) if (1..=9_999).contains(&pin) => Ok(Some(pin)),
            _ => Err(format!("{some:?} is no pin; they are numbered from 1")),
        },
    })
}
