//! Cues as a CSV form, written out.

use std::collections::BTreeSet;

use onestrand_film::Fps;
use onestrand_store::Production;

use super::cue_sheet::COLUMNS;
use super::kept::Kept;
use super::mix_kept::{mix_of, speed_of};
use super::version::Version;
use crate::ProductionError;
use crate::documents::{ColumnWords, CueWords, FadeWords, HoldsToWord, SoundWords};

/// The cues as the form has them, as they stand in a version: a header and a row each.
///
/// # Errors
/// [`ProductionError::Store`] when it cannot be read.
pub fn cues_csv(production: &Production, cut: &str) -> Result<String, ProductionError> {
    let (version, form) = (Version::of(production, cut)?, Form::of(production)?);
    let mut out = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    let _written = out.write_record(COLUMNS);
    for kept in Kept::<CueWords>::all(production)? {
        let _written = out.write_record(form.row(&kept.words, &version));
    }
    let bytes = out.into_inner().unwrap_or_default();
    Ok(String::from_utf8(bytes).unwrap_or_default())
}

/// What is needed to write a cue as a row of the form.
pub(super) struct Form {
    sounds: Vec<Kept<SoundWords>>,
    columns: Vec<Kept<ColumnWords>>,
    speed: Fps,
}

impl Form {
    pub(super) fn of(production: &Production) -> Result<Self, ProductionError> {
        Ok(Self {
            sounds: Kept::all(production)?,
            columns: Kept::all(production)?,
            speed: speed_of(production, &mix_of(production)?)?,
        })
    }

    fn row(&self, cue: &CueWords, version: &Version) -> [String; 10] {
        let column = self.columns.iter().find(|known| known.id == cue.column);
        let column = column.map_or("", |known| known.words.name.as_str());
        self.row_in(column, cue, version)
    }

    /// The row of a cue in a column that may not be kept yet.
    pub(super) fn row_in(&self, column: &str, cue: &CueWords, version: &Version) -> [String; 10] {
        let sound = self.sounds.iter().find(|known| Some(known.id) == cue.sound);
        let name = sound.map_or(cue.name.as_str(), |known| known.words.name.as_str());
        let (anchor, at) = anchor_cells(cue, version);
        let (from, to) = places(cue, sound, self.speed);
        let fade = |fade: FadeWords| match fade.frames {
            0 => String::new(),
            frames => frames.to_string(),
        };
        let level = match cue.level {
            0 => String::new(),
            tenths => format!("{:.1}", f64::from(tenths) / 10.0),
        };
        [
            column.to_owned(),
            name.to_owned(),
            anchor.to_owned(),
            at,
            from,
            to,
            level,
            fade(cue.fade_in),
            fade(cue.fade_out),
            cue.note.clone(),
        ]
    }

    /// The rows of all cues that are kept, as they are compared: names in small letters.
    pub(super) fn rows(
        &self,
        production: &Production,
        version: &Version,
    ) -> Result<BTreeSet<[String; 10]>, ProductionError> {
        let kept = Kept::<CueWords>::all(production)?;
        let row = |kept: &Kept<CueWords>| compared(self.row(&kept.words, version));
        Ok(kept.iter().map(row).collect())
    }
}

/// A row as it is compared with another: names whatever their case, all else to the letter.
pub(super) fn compared(mut row: [String; 10]) -> [String; 10] {
    for name in row.iter_mut().take(2) {
        *name = name.trim().to_lowercase();
    }
    row
}

/// What it holds to, as the form says it. What the form cannot say, an offset, becomes the
/// frame that lies there.
fn anchor_cells(cue: &CueWords, version: &Version) -> (&'static str, String) {
    let start = &cue.start;
    let moved = i64::from(start.frame) + i64::from(start.offset);
    match start.to {
        HoldsToWord::Clock => ("clock", moved.max(0).to_string()),
        HoldsToWord::Frame => ("frame", format!("{}·{}", start.roll, moved.max(0))),
        HoldsToWord::Join => {
            let at = version.placed.join_before(&start.roll, start.frame);
            let position = at.and_then(|at| version.pieces.iter().position(|piece| piece.at == at));
            match (position, start.offset) {
                (Some(position), 0) => ("join", position.to_string()),
                (_, _) if start.roll.is_empty() => ("clock", moved.max(0).to_string()),
                (_, _) => ("frame", format!("{}·{}", start.roll, moved.max(0))),
            }
        }
    }
}

fn places(cue: &CueWords, sound: Option<&Kept<SoundWords>>, speed: Fps) -> (String, String) {
    let Some(sound) = sound else {
        let to = cue.frames.map(|frames| f64::from(frames) / speed.as_f64());
        return (
            String::new(),
            to.map_or(String::new(), |to| format!("{to:.4}")),
        );
    };
    let rate = f64::from(sound.words.facts.rate);
    let at = |samples: u64| format!("{:.4}", samples as f64 / rate);
    let from = if cue.from == 0 {
        String::new()
    } else {
        at(cue.from)
    };
    (from, cue.to.map_or(String::new(), at))
}
