//! Sound in words.

use onestrand_production::documents::CueStateWord;
use onestrand_production::{
    CaptionsDocument, CueListed, CuesImported, DubSheetsDocument, ProjectorDocument, TapeDocument,
};

use super::counted;
use onestrand_production::documents::{SoundDocument, SoundWords};
use onestrand_production::{LoudnessDocument, MixWritten, SoundAdded};

pub(crate) fn cues_imported(found: &CuesImported) -> String {
    let mut text = format!("{} cues laid to {}", found.cues, found.cut);
    if found.already > 0 {
        text.push_str(&format!("; {} were there already", found.already));
    }
    if !found.new_columns.is_empty() {
        text.push_str(&format!("; new columns: {}", found.new_columns.join(", ")));
    }
    if !found.sounds_missing.is_empty() {
        let missing = found.sounds_missing.join(", ");
        text.push_str(&format!("\nnot brought in yet, their cues wait: {missing}"));
    }
    if !found.unknown_columns.is_empty() {
        let unknown = found.unknown_columns.join(", ");
        text.push_str(&format!("\nput into the note: {unknown}"));
    }
    text
}

pub(crate) fn captions(found: &CaptionsDocument, file: Option<&str>) -> String {
    let left: Vec<String> = found
        .left_out
        .iter()
        .map(|why| format!("left out: {why}"))
        .collect();
    let Some(file) = file else {
        // What is left out would spoil the form, were it put to a file from the screen; it
        // stands in it as a remark of its own.
        let notes: Vec<String> = left.iter().map(|why| format!("\nNOTE {why}\n")).collect();
        let notes = notes.concat().replace("-->", "->");
        return format!("{}{notes}", found.vtt).trim_end().to_owned();
    };
    let count = found.captions;
    let mut lines = vec![format!(
        "{file}: {count} captions of {} at {} f/s, from the first picture on",
        found.cut, found.speed
    )];
    if count == 0 && left.is_empty() {
        lines.push("no cue says anything yet. Next: write what is said on its card".to_owned());
    }
    lines.extend(left);
    lines.join("\n")
}

pub(crate) fn dub_sheets(found: &DubSheetsDocument) -> String {
    let mut text = super::sheets(found);
    for left in &found.left_out {
        text.push_str(&format!("\nleft out: {left} (--timings FILE)"));
    }
    text
}

pub(crate) fn cues(cut: &str, cues: &[CueListed]) -> String {
    if cues.is_empty() {
        return format!("{cut} has no sound yet. Next: onestrand cue import, or the room Dubbing");
    }
    let lines: Vec<String> = cues.iter().map(cue).collect();
    lines.join("\n")
}

fn cue(cue: &CueListed) -> String {
    let at = match cue.at_running_frame {
        at if at < 0 => format!("-{}", counted(at.unsigned_abs())),
        at => counted(at.unsigned_abs()),
    };
    let name = format!("{}: {}", cue.column, cue.sound);
    let mut line = match (cue.state, cue.was) {
        (CueStateWord::Orphan, _) => {
            format!("{at:>7}  {name}: without a place, it held to {}", cue.at)
        }
        (CueStateWord::Moved, Some(was)) => format!("{at:>7}  {name}: moved from {was}"),
        (CueStateWord::Stretched, _) => format!("{at:>7}  {name}: now {} frames", cue.frames),
        _ => format!("{at:>7}  {name}"),
    };
    for found in &cue.proposals {
        line.push_str(&format!(
            "\n         might go to {}: {}",
            found.at, found.why
        ));
    }
    if let Some(echo) = &cue.echo {
        let away = match echo.frames_away {
            0 => "on it".to_owned(),
            n => format!("{} frames from it", n.abs()),
        };
        line.push_str(&format!(
            "\n         the join {} is heard at {}, {away}",
            echo.join_at, echo.heard_at
        ));
    }
    line
}

pub(crate) fn projector(found: &ProjectorDocument, creep: bool) -> String {
    let bound = found.speed_error.map_or_else(
        || "how far to trust it cannot be told from so few timings".to_owned(),
        |error| format!("± {error:.2} (95 %)"),
    );
    let mut text = format!("{:.2} f/s {bound}", found.speed);
    if creep {
        text.push_str(&format!(", {:.2} f/s at first", found.speed_at_first));
    }
    for row in &found.predict {
        let error = row
            .error_frames
            .map_or(String::new(), |error| format!(" ± {error:.1} frames"));
        text.push_str(&format!(
            "\nframe {} at {:.2} s{error}",
            row.frame, row.seconds
        ));
    }
    text
}

pub(crate) fn tape(found: &TapeDocument) -> String {
    let mut text = format!(
        "T = {:.6} C + {:.8} C², off by {:.2} s",
        found.a, found.b, found.residual_seconds
    );
    for row in &found.predict {
        let minutes = (row.seconds / 60.0).floor();
        let seconds = row.seconds - 60.0 * minutes;
        text.push_str(&format!(
            "\ncount {} at {minutes:.0}:{seconds:05.2}",
            row.count
        ));
    }
    text
}

pub(crate) fn sounds_added(added: &[SoundAdded]) -> String {
    let one = |added: &SoundAdded| {
        let mut line = sound(&added.sound);
        if added.cues > 0 {
            line.push_str(&format!("\n  {} cues waited for it", added.cues));
        }
        line
    };
    added.iter().map(one).collect::<Vec<_>>().join("\n")
}

pub(crate) fn sounds(sounds: &[SoundDocument]) -> String {
    if sounds.is_empty() {
        return "no sounds yet. Next: onestrand sound add DIR FILE".to_owned();
    }
    let lines: Vec<String> = sounds.iter().map(|known| sound(&known.sound)).collect();
    lines.join("\n")
}

fn sound(sound: &SoundWords) -> String {
    let facts = &sound.facts;
    let seconds = facts.samples as f64 / f64::from(facts.rate.max(1));
    let loud = facts.loudness.map_or_else(
        || "too short or too soft for a loudness".to_owned(),
        |tenths| format!("{:.1} LUFS", f64::from(tenths) / 10.0),
    );
    let channels = if facts.channels == 2 {
        "stereo"
    } else {
        "mono"
    };
    let mut line = format!(
        "{}: {seconds:.2} s, {} Hz, {channels}, {loud}",
        sound.name, facts.rate
    );
    for remark in &facts.remarks {
        line.push_str(&format!("\n  {remark}"));
    }
    line
}

pub(crate) fn loudness(found: &LoudnessDocument) -> String {
    let told = |value: Option<f64>, unit: &str| {
        value.map_or_else(|| "none".to_owned(), |v| format!("{v:.1} {unit}"))
    };
    format!(
        "loudness {}, range {}, loudest 0.4 s {}, loudest 3 s {}, true peak {}",
        told(found.integrated_lufs, "LUFS"),
        told(found.loudness_range_lu, "LU"),
        told(found.max_momentary_lufs, "LUFS"),
        told(found.max_short_term_lufs, "LUFS"),
        told(found.true_peak_dbtp, "dBTP"),
    )
}

pub(crate) fn mixed(written: &MixWritten, stems: &[MixWritten]) -> String {
    let mut text = format!(
        "{}: {} at {} f/s, leader {}, {} samples, {} cues\n{}",
        written.path,
        written.cut,
        written.speed,
        written.leader,
        counted(written.samples),
        written.cues,
        loudness(&written.loudness)
    );
    for stem in stems {
        text.push_str(&format!("\n{}", stem.path));
    }
    text.push_str("\nmind your ears: set the level low before you play it for the first time");
    text
}
