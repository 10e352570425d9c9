//! A line of the form of cues, read.

use std::collections::BTreeSet;

use onestrand_film::FrameName;

use super::laid::Laying;
use crate::ImportProblem;
use crate::documents::{AnchorWords, CueWords, FadeWords, HoldsToWord, LaidWords};
use crate::table::Line;

/// A line of the form that was read.
pub(super) struct Read {
    pub(super) line: u64,
    pub(super) column: String,
    pub(super) cue: CueWords,
}

/// Reads lines of the form.
pub(super) struct Reader<'a> {
    pub(super) laying: &'a Laying<'a>,
    pub(super) rolls: BTreeSet<String>,
    pub(super) unknown: &'a [String],
}

impl Reader<'_> {
    /// The cue of a line; nothing where something is wrong with it, which is then told.
    pub(super) fn read(&self, line: Line<'_>, problems: &mut Vec<ImportProblem>) -> Option<Read> {
        let (column, cue) = self.cue(line, problems)?;
        if let Err(why) = super::fits::cue_itself_fits(&cue) {
            problems.push(line.wrong("", &why.to_string()));
            return None;
        }
        let line = line.number();
        Some(Read { line, column, cue })
    }

    fn cue(&self, line: Line<'_>, problems: &mut Vec<ImportProblem>) -> Option<(String, CueWords)> {
        let before = problems.len();
        let column = line.text("column").trim().to_owned();
        if column.is_empty() {
            problems.push(line.wrong("column", "empty: write what is heard in it"));
        }
        let name = line.text("sound").trim().to_owned();
        let start = self.anchor(line, problems);
        // All are read before any is given up, so that everything wrong in a line is told.
        let from = line.parse("in", problems, seconds);
        let to = line.parse("out", problems, seconds);
        let level = line.parse("gain_db", problems, tenths);
        let fade_in = line.parse("fade_in", problems, frames);
        let fade_out = line.parse("fade_out", problems, frames);
        let (from, to, level, fade_in, fade_out) = (from?, to?, level?, fade_in?, fade_out?);
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
        // The form has tenths of a thousandth of a second, a few thousandths of a frame: what
        // was written out as so many frames comes back as so many.
        let frames = seconds * self.laying.speed.as_f64();
        (frames - 0.005).ceil().max(1.0) as u32
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
