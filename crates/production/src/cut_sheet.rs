//! The cutting sheet as CSV.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use onestrand_cut::{Effect, JoinKind, Piece, PieceKind, Slate, TrialCut};
use onestrand_film::{FeetFrames, Fps, Frames, Gauge, Span};
use onestrand_store::{Act, CutRecord, Production};
use serde::Serialize;

use crate::log_sheet::Rolls;
use crate::shown_twice::shown_twice;
use crate::table::{Line, Table};
use crate::{ImportProblem, ProductionError, strand};

const COLUMNS: [&str; 8] = [
    "position", "roll", "in", "out", "slate", "join", "note", "effect",
];
/// A column that a sheet of another film may have: it must agree with this one.
const SPEED: &str = "speed";
const WANTED: [&str; 4] = ["position", "roll", "in", "out"];

/// What an import of a cut did.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CutImported {
    /// The name of the version.
    pub cut: String,
    /// Pieces in it.
    pub pieces: usize,
    /// Its length.
    pub frames: u32,
    /// Columns that were put into the note.
    pub unknown_columns: Vec<String>,
    /// Notes on frames that came with it and were not there yet.
    pub notes: usize,
    /// What was taken in another way than it stands in the file, and what the
    /// strand check will have to say.
    pub remarks: Vec<ImportProblem>,
}

/// One version in a list.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CutListed {
    /// Its name.
    pub cut: String,
    /// Pieces in it.
    pub pieces: usize,
    /// Its length.
    pub frames: u32,
    /// The usual join.
    pub join: String,
    /// When it was made.
    pub made: String,
    /// The user's note.
    pub note: String,
}

/// Brings a cutting sheet in as a new version.
///
/// # Errors
/// [`ProductionError::Import`] with every problem; nothing is changed then.
/// [`ProductionError::Unfit`] when there is a version of that name.
pub fn import_cut(
    production: &mut Production,
    path: &Path,
    name: &str,
    join: JoinKind,
) -> Result<CutImported, ProductionError> {
    let name = fit_name(production, name)?;
    let mut table = Table::read(path, &WANTED)?;
    let unknown = table.unknown_columns(&[&COLUMNS[..], &[SPEED]].concat());
    let speed = production.meta().speed;
    let reader = Reader {
        rolls: Rolls::of(production)?,
        gauge: production.meta().gauge,
        unknown: &unknown,
    };
    let mut problems = Vec::new();
    let mut positions = BTreeSet::new();
    let mut pieces: BTreeMap<u32, (Piece, u64)> = BTreeMap::new();
    for line in table.lines() {
        let position = line.parse("position", &mut problems, position);
        let piece = reader.piece(line, &mut problems);
        at_speed(line, speed, &mut problems);
        let Some(position) = position else { continue };
        let piece = piece.map(|piece| (piece, line.number()));
        if !positions.insert(position) {
            problems.push(line.wrong("position", &format!("position {position} stands twice")));
        } else if let Some(piece) = piece {
            pieces.insert(position, piece);
        }
    }
    table.add_problems(problems);
    if table.lines().next().is_none() {
        table.problem(
            1,
            "",
            "no piece stands in it: a line for each is wanted below the header",
        );
    }
    table.sound()?;
    let (pieces, lines): (Vec<Piece>, Vec<u64>) = pieces.into_values().unzip();
    let places: Vec<(u64, String)> = lines.into_iter().map(|n| (n, "in".to_owned())).collect();
    let cut = TrialCut::new(pieces, join);
    let act = Act::PutCut {
        name: name.clone(),
        cut: Some(CutRecord::new(&cut, "")),
    };
    production.act(&format!("bring in cut {name}"), &act)?;
    Ok(CutImported {
        cut: name,
        pieces: cut.pieces().len(),
        frames: cut.frames().count(),
        unknown_columns: unknown,
        notes: 0,
        remarks: shown_twice(&cut, &places),
    })
}

/// A sheet that says its speed must be of a film at this one: its frames would
/// mean other moments otherwise.
fn at_speed(line: Line<'_>, speed: Fps, problems: &mut Vec<ImportProblem>) {
    let said = optional(line, SPEED, problems, |text| text.parse::<Fps>());
    if let Some(Some(said)) = said
        && said != speed
    {
        let text = format!("counted at {said} frames a second, and this film runs at {speed}");
        problems.push(line.wrong(SPEED, &text));
    }
}

pub(crate) fn fit_name(production: &Production, name: &str) -> Result<String, ProductionError> {
    let plain = name.trim();
    let unfit = |message: String, hint: &str| ProductionError::Unfit {
        message,
        hint: hint.to_owned(),
    };
    if plain.is_empty() || plain.chars().count() > 40 || plain.chars().any(char::is_control) {
        return Err(unfit(
            format!("{name:?} is no name for a version"),
            "give a short name such as v2",
        ));
    }
    if production.cut(plain).is_ok() {
        return Err(unfit(
            format!("there is a version {plain} already; versions are kept, never written over"),
            "give the new one another name",
        ));
    }
    Ok(plain.to_owned())
}

fn position(text: &str) -> Result<u32, String> {
    let number = text.parse().ok().filter(|n: &u32| *n > 0);
    number.ok_or_else(|| format!("{text:?} is no position; the first piece is 1"))
}

struct Reader<'a> {
    rolls: Rolls,
    gauge: Gauge,
    unknown: &'a [String],
}

impl Reader<'_> {
    fn piece(&self, line: Line<'_>, problems: &mut Vec<ImportProblem>) -> Option<Piece> {
        let join = optional(line, "join", problems, |t| t.parse::<JoinKind>());
        let slate = optional(line, "slate", problems, |t| t.parse::<Slate>());
        let effect = optional(line, "effect", problems, effect);
        let kind = match line.text("roll").to_ascii_lowercase().as_str() {
            "leader" => self.length(line, problems).map(PieceKind::Leader),
            "card" => self.length(line, problems).map(|frames| PieceKind::Card {
                frames,
                title: line.text("note").to_owned(),
            }),
            _ => self
                .rolls
                .span(line, problems)
                .map(|(roll, range)| PieceKind::Shot(Span::new(roll, range))),
        };
        let note = match &kind {
            Some(PieceKind::Card { .. }) => String::new(),
            _ => line.note(self.unknown),
        };
        Some(Piece {
            kind: kind?,
            slate: slate?,
            join: join?,
            effect: effect?,
            note,
        })
    }

    /// The length of leader or card: `in` is 0, `out` the length.
    fn length(&self, line: Line<'_>, problems: &mut Vec<ImportProblem>) -> Option<Frames> {
        if !["", "0"].contains(&line.text("in")) {
            problems.push(line.wrong(
                "in",
                "leader and cards are written with in = 0 and out = their length",
            ));
            return None;
        }
        let frames = line.parse("out", problems, |text| {
            if text.contains('+') || text.contains("ft") {
                self.gauge.frames_from_footage(text.parse::<FeetFrames>()?)
            } else {
                text.parse()
            }
        })?;
        if frames == Frames::ZERO {
            problems.push(line.wrong("out", "a length of at least 1 frame is wanted"));
            return None;
        }
        Some(frames)
    }
}

/// A cell that may be empty. Nothing when it is wrong.
fn optional<T, E: std::fmt::Display>(
    line: Line<'_>,
    column: &str,
    problems: &mut Vec<ImportProblem>,
    read: impl FnOnce(&str) -> Result<T, E>,
) -> Option<Option<T>> {
    if line.text(column).is_empty() {
        return Some(None);
    }
    line.parse(column, problems, read).map(Some)
}

fn effect(text: &str) -> Result<Effect, String> {
    let plain = text.to_ascii_lowercase();
    Effect::ALL
        .into_iter()
        .find(|e| e.word() == plain)
        .ok_or_else(|| format!("{text:?}: freeze, speed, reverse or fade is meant?"))
}

/// A version as CSV.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn export_cut(production: &Production, name: &str) -> Result<String, ProductionError> {
    Ok(sheet_of(&strand::cut(production, name)?))
}

/// A version as a cutting sheet.
pub(crate) fn sheet_of(cut: &TrialCut) -> String {
    let has_effect = cut.pieces().iter().any(|p| p.effect.is_some());
    let columns = if has_effect { 8 } else { 7 };
    let mut out = csv::Writer::from_writer(Vec::new());
    let written = "a form in memory can be written";
    out.write_record(&COLUMNS[..columns]).expect(written);
    for (index, piece) in cut.pieces().iter().enumerate() {
        let row = row(index + 1, piece);
        out.write_record(&row[..columns]).expect(written);
    }
    let bytes = out.into_inner().expect(written);
    String::from_utf8_lossy(&bytes).into_owned()
}

fn row(position: usize, piece: &Piece) -> [String; 8] {
    let (roll, begin, end, note) = match &piece.kind {
        PieceKind::Shot(span) => (
            span.roll.to_string(),
            span.range.begin().to_string(),
            span.range.end().to_string(),
            piece.note.clone(),
        ),
        PieceKind::Leader(frames) => (
            "leader".to_owned(),
            "0".to_owned(),
            frames.to_string(),
            piece.note.clone(),
        ),
        PieceKind::Card { frames, title } => (
            "card".to_owned(),
            "0".to_owned(),
            frames.to_string(),
            title.clone(),
        ),
    };
    [
        position.to_string(),
        roll,
        begin,
        end,
        piece
            .slate
            .as_ref()
            .map(Slate::to_string)
            .unwrap_or_default(),
        piece.join.map(|j| j.to_string()).unwrap_or_default(),
        note,
        piece
            .effect
            .map(|e| e.word().to_owned())
            .unwrap_or_default(),
    ]
}

/// All versions, in the order they were made.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn list_cuts(production: &Production) -> Result<Vec<CutListed>, ProductionError> {
    let mut all = Vec::new();
    for name in production.cut_names()? {
        let record = production.cut(&name)?;
        let cut = record.to_model()?;
        all.push(CutListed {
            cut: name,
            pieces: cut.pieces().len(),
            frames: cut.frames().count(),
            join: record.usual_join,
            made: record.made,
            note: record.note,
        });
    }
    Ok(all)
}
