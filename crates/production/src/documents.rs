//! The documents both faces of the program hand out. Names and fields are
//! settled in the command reference; fields are added, never renamed.

use onestrand_cut::{Conflict, Remedy, Severity};
use serde::Serialize;

/// Feet, and frames beyond them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct FootageDocument {
    /// Whole feet.
    pub feet: u32,
    /// Frames beyond them.
    pub frames: u32,
}

impl From<onestrand_film::FeetFrames> for FootageDocument {
    fn from(footage: onestrand_film::FeetFrames) -> Self {
        Self {
            feet: footage.feet(),
            frames: footage.frames(),
        }
    }
}

/// A fraction.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct FractionDocument {
    /// Upper term.
    pub num: i64,
    /// Lower term.
    pub den: i64,
}

/// Half-open frames of a roll.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SpanDocument {
    /// The roll.
    pub roll: String,
    /// First frame; before 0 where a bite reaches there.
    #[serde(rename = "in")]
    pub first: i64,
    /// First frame after.
    #[serde(rename = "out")]
    pub thrown: i64,
}

/// A way out of a conflict.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RemedyDocument {
    /// `shift` or `other_join`.
    pub kind: &'static str,
    /// In words.
    pub text: String,
    /// Frames of picture given up.
    pub frames: u32,
}

/// What stands in the way of a cut.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ConflictDocument {
    /// The kind.
    pub kind: &'static str,
    /// `refused` or `warned`.
    pub severity: &'static str,
    /// Positions, from 1.
    pub positions: Vec<usize>,
    /// The frames it is about.
    pub span: Option<SpanDocument>,
    /// How many.
    pub frames: u32,
    /// Ways out, cheapest first.
    pub remedies: Vec<RemedyDocument>,
}

impl ConflictDocument {
    /// A conflict without its remedies.
    #[must_use]
    pub fn plain(conflict: &Conflict) -> Self {
        Self::with_remedies(conflict, &[])
    }

    /// A conflict with its remedies.
    #[must_use]
    pub fn with_remedies(conflict: &Conflict, ways: &[Remedy]) -> Self {
        let span = conflict.roll.as_ref().zip(conflict.span);
        Self {
            kind: conflict.kind.code(),
            severity: match conflict.severity() {
                Severity::Refused => "refused",
                Severity::Warned => "warned",
            },
            positions: conflict.positions.clone(),
            span: span.map(|(roll, (first, thrown))| SpanDocument {
                roll: roll.to_string(),
                first,
                thrown,
            }),
            frames: conflict.frames,
            remedies: ways
                .iter()
                .map(|way| RemedyDocument {
                    kind: way.kind.code(),
                    text: way.text.clone(),
                    frames: way.frames,
                })
                .collect(),
        }
    }
}

/// The answer of `check`.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CheckDocument {
    /// The cut.
    pub cut: String,
    /// The usual join it was checked with.
    pub join: &'static str,
    /// Length of the cut.
    pub frames: u32,
    /// Whether it can be made.
    pub ok: bool,
    /// Strips after merging.
    pub pieces: usize,
    /// Joins, with head and tail leader.
    pub joins: usize,
    /// Frames that joins take.
    pub eaten: u32,
    /// What becomes of each roll.
    pub rolls: Vec<RollCountDocument>,
    /// What stands in the way.
    pub conflicts: Vec<ConflictDocument>,
    /// What is asked.
    pub questions: Vec<QuestionDocument>,
    /// How long the pictures stand; none without a picture.
    pub pace: Option<PaceDocument>,
    /// What was taken for granted.
    pub assumptions: Vec<String>,
}

/// What becomes of one roll.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RollCountDocument {
    /// The roll.
    pub roll: String,
    /// Frames on it.
    pub frames: u32,
    /// Frames a piece shows.
    pub used: u32,
    /// Frames joins take.
    pub eaten: u32,
    /// Frames left.
    pub left: u32,
    /// Whether its scan is proved complete.
    pub proved: bool,
}

/// A question of continuity.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct QuestionDocument {
    /// The kind.
    pub kind: &'static str,
    /// Positions on both sides of the join, from 1.
    pub positions: Vec<usize>,
    /// In words.
    pub text: String,
}

/// How long the pictures stand.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PaceDocument {
    /// Unit: seconds at the running speed.
    pub mean_seconds: f64,
    /// Unit: seconds at the running speed.
    pub median_seconds: f64,
}

/// What the outside of the program has to say of a scan file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct FileDocument {
    /// Where it is.
    pub path: String,
    /// File frames decoded.
    pub frames: u64,
    /// File frames a second.
    pub rate: String,
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
    /// The coding in words.
    pub coding: String,
}

/// The film frames found.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FilmDocument {
    /// Film frames, missing ones counted.
    pub frames: u32,
    /// The speed of the film.
    pub speed: String,
    /// Seen clean.
    pub clean: u32,
    /// Blended with a neighbour.
    pub blended: u32,
    /// Counted, not seen.
    pub counted: u32,
    /// Without a picture.
    pub missing: u32,
    /// File frames per film frame.
    pub cadence: Vec<u32>,
    /// File frames that repeat another.
    pub repeats: u32,
    /// Length in feet and frames.
    pub footage: FootageDocument,
    /// Frames that the measured length holds.
    pub expected: Option<u32>,
    /// Found less expected.
    pub difference: Option<i64>,
    /// Places where the scan is not even.
    pub anomalies: Vec<AnomalyDocument>,
}

/// A place where the scan is not even.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct AnomalyDocument {
    /// Film frame.
    pub at: u32,
    /// `skip` or `doubled`.
    pub kind: &'static str,
    /// How many frames.
    pub frames: u32,
    /// At least.
    pub frames_low: u32,
    /// At most.
    pub frames_high: u32,
}

/// A take as the picture shows it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TakeDocument {
    /// First frame.
    #[serde(rename = "in")]
    pub first: u32,
    /// First frame after.
    #[serde(rename = "out")]
    pub thrown: u32,
    /// How it begins.
    pub begins: &'static str,
    /// Over-exposed frames at its start.
    pub flash_frames: u32,
    /// By how much the first is over. Unit: stops.
    pub flash_stops: f64,
}

/// A measured hint.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SignDocument {
    /// The kind.
    pub kind: &'static str,
    /// First frame.
    #[serde(rename = "in")]
    pub first: u32,
    /// First frame after.
    #[serde(rename = "out")]
    pub thrown: u32,
    /// The measure.
    pub measure: f64,
    /// Its unit, in words.
    pub unit: &'static str,
    /// Where in the picture.
    #[serde(rename = "where")]
    pub place: Option<String>,
}

/// Trouble that did not stop the work.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct WarningDocument {
    /// A stable name.
    pub code: String,
    /// In words.
    pub message: String,
    /// The next step.
    pub hint: String,
}

/// The answer of `read`.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ReadDocument {
    /// The file; the first one where a roll comes in several.
    pub file: FileDocument,
    /// All files in order.
    pub files: Vec<FileDocument>,
    /// The gauge it was counted in.
    pub gauge: String,
    /// The film frames.
    pub film: FilmDocument,
    /// Which file frame best shows each film frame, counted through all files.
    pub map: Vec<Option<u64>>,
    /// The takes; they tile the roll.
    pub takes: Vec<TakeDocument>,
    /// Fades and dissolves.
    pub gradual: Vec<SignDocument>,
    /// Hints.
    pub signs: Vec<SignDocument>,
    /// Trouble that did not stop the reading.
    pub warnings: Vec<WarningDocument>,
    /// What was taken for granted.
    pub assumptions: Vec<String>,
}

/// One roll in a list.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RollDocument {
    /// Its name.
    pub roll: String,
    /// Its gauge.
    pub gauge: String,
    /// Film frames.
    pub frames: u32,
    /// The same in feet and frames.
    pub footage: FootageDocument,
    /// Film frames without a picture.
    pub missing: u32,
    /// Frames that the measured length holds.
    pub expected: Option<u32>,
    /// Found less expected.
    pub difference: Option<i64>,
    /// Whether its scan is proved complete.
    pub proved: bool,
    /// Base.
    pub base: String,
    /// What it is fit for.
    pub fit: String,
    /// Takes on it.
    pub takes: usize,
    /// Whether it is known on paper only.
    pub paper: bool,
    /// Whether its workprint is there.
    pub workprint: bool,
    /// The scans.
    pub scans: Vec<FileDocument>,
}
