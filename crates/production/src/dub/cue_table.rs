//! Cues as a CSV form, written out.

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
    let version = Version::of(production, cut)?;
    let sounds = Kept::<SoundWords>::all(production)?;
    let columns = Kept::<ColumnWords>::all(production)?;
    let speed = speed_of(production, &mix_of(production)?)?;
    let mut out = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    let _written = out.write_record(COLUMNS);
    for kept in Kept::<CueWords>::all(production)? {
        let cue = kept.words;
        let column = columns.iter().find(|known| known.id == cue.column);
        let sound = sounds.iter().find(|known| Some(known.id) == cue.sound);
        let column = column.map_or("", |known| known.words.name.as_str());
        let name = sound.map_or(cue.name.as_str(), |known| known.words.name.as_str());
        let (anchor, at) = anchor_cells(&cue, &version);
        let (from, to) = places(&cue, sound, speed);
        let fade = |fade: FadeWords| match fade.frames {
            0 => String::new(),
            frames => frames.to_string(),
        };
        let level = match cue.level {
            0 => String::new(),
            tenths => format!("{:.1}", f64::from(tenths) / 10.0),
        };
        let _written = out.write_record([
            column,
            name,
            anchor,
            &at,
            &from,
            &to,
            &level,
            &fade(cue.fade_in),
            &fade(cue.fade_out),
            &cue.note,
        ]);
    }
    let bytes = out.into_inner().unwrap_or_default();
    Ok(String::from_utf8(bytes).unwrap_or_default())
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
