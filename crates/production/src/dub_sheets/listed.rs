//! The list of effects, and that of music and rights.

use onestrand_dub::TapeFit;
use onestrand_sheets::{EffectPlace, EffectRow, EffectsList, MusicList, MusicRow, RightsStanding};

use super::{DubSheetsToPrint, frame_on_paper, played};
use crate::ProductionError;
use crate::documents::{CueDocument, CueStateWord, RightStateWord, RightsWords, SoundDocument};

/// Rows to write what is thought of on the day.
const BLANK_ROWS: u32 = 4;

/// Everything that sounds in the version: what is laid from a sound, a row for each sound,
/// and what is made by hand, a row for each name. Where the counter of the tape was timed,
/// it stands beside the frames.
pub(super) fn effects(all: &DubSheetsToPrint) -> Result<EffectsList, ProductionError> {
    let law = match &all.timings {
        Some(_) => Some(played::law(all)?),
        None => None,
    };
    let mut groups: Vec<(Played, Vec<&CueDocument>)> = Vec::new();
    for cue in &all.dub.cues {
        let played = match all.sound(cue) {
            Some(sound) => Played::Sound(sound.id),
            None => Played::ByHand(all.name_of(cue)),
        };
        match groups.iter_mut().find(|(known, _)| *known == played) {
            Some((_, cues)) => cues.push(cue),
            None => groups.push((played, vec![cue])),
        }
    }
    let rows = groups.iter().enumerate();
    Ok(EffectsList {
        head: all.head.clone(),
        true_speed: all.true_speed,
        rows: rows
            .map(|(nth, (_, cues))| effect(all, law.as_ref(), nth + 1, cues))
            .collect(),
        blank_rows: BLANK_ROWS,
    })
}

/// What tells one row of the effects from another.
#[derive(Debug, PartialEq, Eq)]
enum Played {
    Sound(i64),
    ByHand(String),
}

fn effect(
    all: &DubSheetsToPrint,
    law: Option<&TapeFit>,
    nth: usize,
    cues: &[&CueDocument],
) -> EffectRow {
    let first = cues.first().copied();
    let sound = first.and_then(|cue| all.sound(cue));
    let lost = |cue: &&&CueDocument| cue.state == CueStateWord::Orphan;
    let mut notes = Vec::new();
    match cues.iter().filter(lost).count() {
        0 => {}
        1 => notes.push("one is without a place".to_owned()),
        count => notes.push(format!("{count} are without a place")),
    }
    match sound {
        None => notes.push("no sound is laid: by hand?".to_owned()),
        Some(sound) if sound.missing => notes.push("its file is not there".to_owned()),
        Some(_) => {}
    }
    notes.extend(sound.map(|sound| sound.sound.note.trim().to_owned()));
    notes.retain(|note| !note.is_empty());
    let number = sound.map_or("", |sound| sound.sound.number.trim());
    let placed = cues.iter().filter(|cue| !lost(cue));
    EffectRow {
        number: match number {
            "" => nth.to_string(),
            number => number.to_owned(),
        },
        sound: sound.map_or_else(
            || first.map_or(String::new(), |cue| all.name_of(cue)),
            |sound| sound.sound.name.clone(),
        ),
        tape: tape(all, cues, sound),
        counter: String::new(),
        seconds: sound.map(|sound| sound.milliseconds as f64 / 1000.0),
        first_sound: sound.map_or(String::new(), first_sound),
        at: placed.map(|cue| place(all, law, cue)).collect(),
        note: notes.join("; "),
    }
}

fn place(all: &DubSheetsToPrint, law: Option<&TapeFit>, cue: &CueDocument) -> EffectPlace {
    let frame = frame_on_paper(cue.at);
    let seconds = f64::from(frame) / all.true_speed.as_f64();
    EffectPlace {
        frame,
        counter: law.map(|law| law.count(seconds)),
    }
}

/// The tape of the columns it lies in, else the file.
fn tape(all: &DubSheetsToPrint, cues: &[&CueDocument], sound: Option<&SoundDocument>) -> String {
    let mut tapes: Vec<&str> = Vec::new();
    for cue in cues {
        let tape = all.column(cue.cue.column).map(|c| c.column.tape.trim());
        if let Some(tape) = tape.filter(|tape| !tape.is_empty() && !tapes.contains(tape)) {
            tapes.push(tape);
        }
    }
    match (tapes.is_empty(), sound) {
        (true, Some(sound)) => sound.sound.facts.file.clone(),
        _ => tapes.join(", "),
    }
}

/// How far into it the first sound is, where that was found.
fn first_sound(sound: &SoundDocument) -> String {
    match sound.sound.first_sound {
        0 => String::new(),
        samples => {
            let seconds = samples as f64 / f64::from(sound.sound.facts.rate.max(1));
            format!("{seconds:.2} s in")
        }
    }
}

/// Whose the sounds are that are heard in the version.
pub(super) fn music(all: &DubSheetsToPrint) -> MusicList {
    let mut rows: Vec<MusicRow> = Vec::new();
    let mut seen: Vec<i64> = Vec::new();
    for sound in all.placed().filter_map(|cue| all.sound(cue)) {
        if !seen.contains(&sound.id) {
            seen.push(sound.id);
            rows.push(whose(all, sound));
        }
    }
    MusicList {
        head: all.head.clone(),
        rows,
        blank_rows: BLANK_ROWS,
    }
}

fn whose(all: &DubSheetsToPrint, sound: &SoundDocument) -> MusicRow {
    let rights = &sound.sound.rights;
    let last = i64::from(all.dub.frames);
    let plays = all.placed().filter(|cue| cue.cue.sound == Some(sound.id));
    let used = plays.filter_map(|cue| {
        let (from, to) = (cue.at.max(0), (cue.at + i64::from(cue.frames)).min(last));
        (from < to).then(|| (frame_on_paper(from), frame_on_paper(to)))
    });
    MusicRow {
        title: sound.sound.name.clone(),
        written_by: rights.author.clone(),
        played_by: rights.performer.clone(),
        recording: recording(sound),
        used: used.collect(),
        work: standing(rights.work),
        ask_for_work: rights.holder.clone(),
        recorded: standing(rights.recorded),
        ask_for_recording: rights.label.clone(),
        agreed: agreed(rights),
    }
}

const fn standing(state: RightStateWord) -> RightsStanding {
    match state {
        RightStateWord::NotKnown => RightsStanding::NotKnown,
        RightStateWord::Asked => RightsStanding::Asked,
        RightStateWord::Granted => RightsStanding::Granted,
        RightStateWord::NotNeeded => RightsStanding::NotNeeded,
        RightStateWord::Refused => RightsStanding::Refused,
    }
}

fn recording(sound: &SoundDocument) -> String {
    let number = sound.sound.number.trim();
    let parts = [sound.sound.facts.file.trim(), number];
    let parts = parts.into_iter().filter(|part| !part.is_empty());
    parts.collect::<Vec<_>>().join(", no. ")
}

/// Under what it may be used; that one right was granted without a word of it is said.
fn agreed(rights: &RightsWords) -> String {
    let granted = [rights.work, rights.recorded].contains(&RightStateWord::Granted);
    match (rights.licence.trim(), granted) {
        ("", true) => "said to be granted; under what is not written".to_owned(),
        (licence, _) => licence.to_owned(),
    }
}
