//! Cues as a CSV form, in and out.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use onestrand_film::FrameName;
use onestrand_store::{Act, Production};
use serde::Serialize;

use super::kept::Kept;
use super::laid::Laying;
use super::mix_kept::{mix_of, speed_of};
use super::version::Version;
use crate::documents::{
    AnchorWords, ColumnWords, CueWords, FadeWords, HoldsToWord, LaidWords, SoundWords,
};
use crate::list_places::{STEP, anew};
use crate::table::{Line, Table};
use crate::{ImportProblem, ProductionError};

pub(super) const COLUMNS: [&str; 10] = [
    "column", "sound", "anchor", "at", "in", "out", "gain_db", "fade_in", "fade_out", "note",
];
const WANTED: [&str; 4] = ["column", "sound", "anchor", "at"];

/// What an import of cues did.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CuesImported {
    /// The version they were laid to.
    pub cut: String,
    /// Cues that came in.
    pub cues: usize,
    /// Columns that were not there before.
    pub new_columns: Vec<String>,
    /// Sounds that are named and not brought in yet: their cues wait for them.
    pub sounds_missing: Vec<String>,
    /// Columns of the file that were put into the note.
    pub unknown_columns: Vec<String>,
}

/// Brings cues in, laid to a version, the newest when none is said. Columns that are not
/// there are made; cues of sounds that are not there wait for them.
///
/// # Errors
/// [`ProductionError::Import`] with every problem; nothing is changed then.
pub fn import_cues(
    production: &mut Production,
    path: &Path,
    cut: Option<&str>,
) -> Result<CuesImported, ProductionError> {
    let version = Version::of(production, &version_for_sound(production, cut)?)?;
    let mut table = Table::read(path, &WANTED)?;
    let unknown = table.unknown_columns(&COLUMNS);
    let sounds = Kept::<SoundWords>::all(production)?;
    let columns = Kept::<ColumnWords>::all(production)?;
    let speed = speed_of(production, &mix_of(production)?)?;
    let laying = Laying {
        version: &version,
        sounds: &sounds,
        speed,
        lead: None,
        joins: Vec::new(),
        marks: Vec::new(),
    };
    let reader = Reader {
        laying: &laying,
        rolls: production
            .rolls()?
            .into_iter()
            .map(|roll| roll.name)
            .collect(),
        unknown: &unknown,
    };
    let mut problems = Vec::new();
    let read: Vec<(String, CueWords)> = table
        .lines()
        .filter_map(|line| reader.cue(line, &mut problems))
        .collect();
    table.add_problems(problems);
    table.sound()?;
    let (acts, new_columns) = acts(production, columns, &read)?;
    let missing: BTreeSet<&str> = read
        .iter()
        .filter(|(_, cue)| cue.sound.is_none() && !cue.name.is_empty())
        .map(|(_, cue)| cue.name.as_str())
        .collect();
    let imported = CuesImported {
        cut: version.name.clone(),
        cues: read.len(),
        new_columns,
        sounds_missing: missing.into_iter().map(str::to_owned).collect(),
        unknown_columns: unknown.clone(),
    };
    production.act(&format!("bring in {} cues", read.len()), &Act::All { acts })?;
    Ok(imported)
}

/// The version that is meant: the one that is said, else the newest.
///
/// # Errors
/// [`ProductionError::Unfit`] when there is none.
pub fn version_for_sound(
    production: &Production,
    said: Option<&str>,
) -> Result<String, ProductionError> {
    if let Some(said) = said {
        return Ok(said.to_owned());
    }
    production.cut_names()?.pop().ok_or_else(|| {
        crate::error::unfit(
            "there is no version that sound could be laid to".to_owned(),
            "cut the film first",
        )
    })
}

/// The acts that keep the cues, and the columns they make.
fn acts(
    production: &Production,
    columns: Vec<Kept<ColumnWords>>,
    read: &[(String, CueWords)],
) -> Result<(Vec<Act>, Vec<String>), ProductionError> {
    let mut next = production.next_dub_id()?;
    let mut place = columns.last().map_or(anew(0), |last| last.place + STEP);
    let lower = |name: &str| name.trim().to_lowercase();
    let mut ids: BTreeMap<String, i64> = columns
        .iter()
        .map(|kept| (lower(&kept.words.name), kept.id))
        .collect();
    let (mut acts, mut made) = (Vec::new(), Vec::new());
    for (column, cue) in read {
        let column_id = match ids.get(&lower(column)) {
            Some(id) => *id,
            None => {
                let words = ColumnWords {
                    name: column.trim().to_owned(),
                    ..ColumnWords::default()
                };
                acts.push(
                    Kept {
                        id: next,
                        place,
                        words,
                    }
                    .put()?,
                );
                ids.insert(lower(column), next);
                made.push(column.trim().to_owned());
                (next, place) = (next + 1, place + STEP);
                next - 1
            }
        };
        let words = CueWords {
            column: column_id,
            ..cue.clone()
        };
        super::fits::cue_itself_fits(&words)?;
        let id = next;
        acts.push(
            Kept {
                id,
                place: 0,
                words,
            }
            .put()?,
        );
        next += 1;
    }
    Ok((acts, made))
}

struct Reader<'a> {
    laying: &'a Laying<'a>,
    rolls: BTreeSet<String>,
    unknown: &'a [String],
}

impl Reader<'_> {
    fn cue(&self, line: Line<'_>, problems: &mut Vec<ImportProblem>) -> Option<(String, CueWords)> {
        let before = problems.len();
        let column = line.text("column").trim().to_owned();
        if column.is_empty() {
            problems.push(line.wrong("column", "empty: write what is heard in it"));
        }
        let name = line.text("sound").trim().to_owned();
        let start = self.anchor(line, problems);
        let from = line.parse("in", problems, seconds)?;
        let to = line.parse("out", problems, seconds)?;
        let level = line.parse("gain_db", problems, tenths)?;
        let fade_in = line.parse("fade_in", problems, frames)?;
        let fade_out = line.parse("fade_out", problems, frames)?;
        if let (Some(from), Some(to)) = (from, to)
            && to <= from
        {
            problems.push(line.wrong("out", "no later than in"));
        }
        let sound = self
            .laying
            .sounds
            .iter()
            .find(|kept| kept.words.name.eq_ignore_ascii_case(&name));
        let mut cue = CueWords {
            sound: sound.map(|kept| kept.id),
            name,
            start: start?,
            level,
            fade_in: FadeWords {
                frames: fade_in,
                ..FadeWords::default()
            },
            fade_out: FadeWords {
                frames: fade_out,
                ..FadeWords::default()
            },
            note: line.note(self.unknown),
            ..CueWords::default()
        };
        match sound {
            Some(kept) => {
                let rate = f64::from(kept.words.facts.rate);
                let all = kept.words.facts.samples;
                let samples = |at: f64| (at * rate).round() as u64;
                cue.from = from.map_or(0, samples);
                cue.to = to.map(samples).filter(|to| *to != all);
                if cue.from >= all || cue.to.is_some_and(|to| to > all) {
                    let long = all as f64 / rate;
                    let text = format!("the sound is {long:.2} s long");
                    let which = if cue.from >= all { "in" } else { "out" };
                    problems.push(line.wrong(which, &text));
                }
            }
            // What is not there yet is as long as the form says.
            None => cue.frames = to.map(|to| self.frames_of(to - from.unwrap_or(0.0))),
        }
        if problems.len() > before {
            return None;
        }
        let laid = self.laying.place(&cue);
        cue.laid = laid.map(|laid| LaidWords {
            cut: self.laying.version.name.clone(),
            at: laid.at,
            frames: laid.frames,
        });
        Some((column, cue))
    }

    fn frames_of(&self, seconds: f64) -> u32 {
        (seconds * self.laying.speed.as_f64()).ceil().max(1.0) as u32
    }

    fn anchor(&self, line: Line<'_>, problems: &mut Vec<ImportProblem>) -> Option<AnchorWords> {
        let at = line.text("at").trim();
        let read = match line.text("anchor").trim().to_lowercase().as_str() {
            "frame" => self.frame(at),
            "join" => self.join(at),
            "clock" => clock(at),
            other => {
                let text = format!("{other:?} is not frame, join or clock");
                problems.push(line.wrong("anchor", &text));
                return None;
            }
        };
        match read {
            Ok(anchor) => Some(anchor),
            Err(text) => {
                problems.push(line.wrong("at", &text));
                None
            }
        }
    }

    fn frame(&self, at: &str) -> Result<AnchorWords, String> {
        let name: FrameName = at
            .parse()
            .map_err(|e: onestrand_film::UnitError| e.to_string())?;
        let roll = name.roll.as_str().to_owned();
        if !self.rolls.contains(&roll) {
            return Err(format!("there is no roll {roll}"));
        }
        Ok(AnchorWords {
            to: HoldsToWord::Frame,
            roll,
            frame: name.frame.index(),
            offset: 0,
        })
    }

    /// The join behind the piece at a position; 0 is the head of the film.
    fn join(&self, at: &str) -> Result<AnchorWords, String> {
        let pieces = &self.laying.version.pieces;
        let wrong = || {
            let last = pieces.len().saturating_sub(1);
            format!(
                "{at:?} is no join of {}: 0 to {last}, the piece before it",
                self.laying.version.name
            )
        };
        let position: usize = at.parse().map_err(|_| wrong())?;
        let piece = pieces.get(position).ok_or_else(wrong)?;
        let to = HoldsToWord::Join;
        let (roll, frame) = match &piece.roll {
            Some(roll) => (roll.clone(), piece.first),
            None => (String::new(), u32::try_from(piece.at).unwrap_or(0)),
        };
        Ok(AnchorWords {
            to,
            roll,
            frame,
            offset: 0,
        })
    }
}

fn clock(at: &str) -> Result<AnchorWords, String> {
    let frame = at
        .parse()
        .map_err(|_| format!("{at:?} is no running frame: write it in figures"))?;
    Ok(AnchorWords {
        to: HoldsToWord::Clock,
        frame,
        ..AnchorWords::default()
    })
}

fn number(text: &str) -> Result<Option<f64>, String> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    let read = text.replace(',', ".").parse::<f64>().ok();
    let read = read.filter(|n| n.is_finite() && n.abs() < 1e6);
    read.map(Some)
        .ok_or_else(|| format!("{text:?} is no number"))
}

fn seconds(text: &str) -> Result<Option<f64>, String> {
    match number(text)? {
        Some(n) if n < 0.0 => Err("no place in a sound lies before its beginning".to_owned()),
        found => Ok(found),
    }
}

fn tenths(text: &str) -> Result<i32, String> {
    let level = number(text)?.unwrap_or(0.0);
    if (-120.0..=24.0).contains(&level) {
        return Ok((level * 10.0).round() as i32);
    }
    Err(format!("{level} dB lies outside -120 to 24"))
}

fn frames(text: &str) -> Result<u32, String> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(0);
    }
    text.parse()
        .map_err(|_| format!("{text:?} is no number of frames"))
}
