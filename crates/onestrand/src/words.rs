//! The answers in words, for a person at a terminal.

mod archive;
mod backup;
mod camera;
mod comparison;
mod dub;
mod film_in_hand;
mod hearing;
mod light;
mod matched;
mod plan;
mod recut;
mod recut_work;
mod reel_plan;
mod roster;
mod strand_check;
mod title_sheet;
mod titles;
mod versions;
pub(crate) mod work;
mod work_order;

use onestrand_film::{Frames, RunningTime};
use onestrand_production::documents::{ReadDocument, RollDocument};
use onestrand_production::{DemoMade, LogImported, Meta, ReadAgain, ReckonRequest};

pub(crate) use archive::accession;
pub(crate) use backup::{backed_up, restored};
pub(crate) use camera::camera;
pub(crate) use comparison::compared;
pub(crate) use dub::*;
pub(crate) use film_in_hand::{inspection, reels, shelf};
pub(crate) use hearing::listened;
pub(crate) use light::*;
pub(crate) use matched::{matched, twins};
pub(crate) use plan::{plan, script, script_imported};
pub(crate) use recut::recut;
pub(crate) use reel_plan::{reel_plan, throw};
pub(crate) use roster::roster;
pub(crate) use strand_check::{check, conflict_words};
pub(crate) use title_sheet::title_sheet;
pub(crate) use titles::titles;
pub(crate) use versions::{cut_imported, exchanged};
pub(crate) use work_order::bench;

pub(crate) use onestrand_production::counted;

/// A length in the three units every counter shows.
fn length(frames: u32, meta: &Meta) -> String {
    let Ok(count) = Frames::new(frames) else {
        return counted(u64::from(frames));
    };
    let footage = meta.gauge.footage(count);
    format!(
        "{} frames = {} ft {} fr = {} at {} f/s",
        counted(u64::from(frames)),
        footage.feet(),
        footage.frames(),
        RunningTime::of(count, meta.speed),
        meta.speed
    )
}

pub(crate) fn demo(made: &DemoMade) -> String {
    let what = if made.kept {
        "The example is here already and was kept."
    } else {
        "The example is ready."
    };
    let scans = made.scans.join("\n  ");
    format!("{what}\nproduction: {}\nscans:\n  {scans}", made.dir)
}

pub(crate) fn ready(found: &impl serde::Serialize) -> String {
    // The document is small and its words are written for people already.
    let value = serde_json::to_value(found).unwrap_or_default();
    let line = |name: &str| {
        let part = &value[name];
        let mark = if part["here"] == true {
            "here   "
        } else {
            "MISSING"
        };
        let hint = part["hint"]
            .as_str()
            .map_or_else(String::new, |h| format!("\n         {h}"));
        format!(
            "{mark}  {name}: {}{hint}",
            part["words"].as_str().unwrap_or("")
        )
    };
    format!("{}\n{}", line("ffmpeg"), line("fonts"))
}

pub(crate) fn reckon(found: &impl serde::Serialize, request: &ReckonRequest) -> String {
    let value = serde_json::to_value(found).unwrap_or_default();
    let mut lines = vec![
        format!(
            "{} frames = {} ft {} fr = {} = {} m",
            counted(value["frames"].as_u64().unwrap_or(0)),
            value["footage"]["feet"],
            value["footage"]["frames"],
            value["clock"].as_str().unwrap_or(""),
            value["metres"].as_str().unwrap_or(""),
        ),
        format!("{} at {} f/s", request.gauge.spec().name, request.speed),
    ];
    let sound = &value["sound"];
    if let Some(samples) = sound["samples_48k"].as_str() {
        lines.push(format!(
            "sound lies {} frames ahead: {} mm, {} s, {samples} samples at 48 kHz ({})",
            sound["frames"],
            sound["mm"].as_str().unwrap_or("not known"),
            sound["seconds"].as_str().unwrap_or(""),
            sound["sureness"].as_str().unwrap_or(""),
        ));
    }
    if let Some(across) = value["reel_mm"].as_str() {
        lines.push(format!("on the reel {across} mm across"));
    }
    if let Some(feet) = value["reel"]["holds_feet"].as_str() {
        lines.push(format!("the reel holds {feet} ft"));
    }
    assumed(&mut lines, &value["assumptions"]);
    lines.join("\n")
}

fn assumed(lines: &mut Vec<String>, assumptions: &serde_json::Value) {
    for one in assumptions.as_array().into_iter().flatten() {
        lines.push(format!("  taken: {}", one.as_str().unwrap_or("")));
    }
}

pub(crate) fn read(found: &ReadDocument) -> String {
    let film = &found.film;
    let file = &found.file;
    let mut lines = vec![
        format!(
            "{}: {} file frames, {} × {}, {}",
            file.path,
            counted(file.frames),
            file.width,
            file.height,
            file.coding
        ),
        format!(
            "{} film frames = {} ft {} fr of {}, {} takes",
            counted(u64::from(film.frames)),
            film.footage.feet,
            film.footage.frames,
            found.gauge,
            found.takes.len()
        ),
    ];
    match (film.expected, film.difference) {
        (Some(expected), Some(0)) => lines.push(format!(
            "the bench measured {}: it agrees",
            counted(u64::from(expected))
        )),
        (Some(expected), Some(off)) => lines.push(format!(
            "the bench measured {}: {off:+} frames, NOT PROVED",
            counted(u64::from(expected))
        )),
        _ => {}
    }
    if film.missing > 0 {
        lines.push(format!("{} frames have no picture", film.missing));
    }
    for take in &found.takes {
        let flash = match take.flash_frames {
            0 => String::new(),
            n => format!(", {n} flash frames, {:+.1} stops", take.flash_stops),
        };
        lines.push(format!(
            "  {:>6} to {:>6}  {}{flash}",
            take.first,
            take.thrown - 1,
            take.begins.replace('_', " ")
        ));
    }
    for sign in &found.signs {
        lines.push(format!(
            "  sign: {} {} to {}, {} {}",
            sign.kind,
            sign.first,
            sign.thrown - 1,
            sign.measure,
            sign.unit
        ));
    }
    for warning in &found.warnings {
        lines.push(format!("  note: {}; {}", warning.message, warning.hint));
    }
    for one in &found.assumptions {
        lines.push(format!("  taken: {one}"));
    }
    lines.join("\n")
}

pub(crate) fn rolls(rolls: &[RollDocument]) -> String {
    if rolls.is_empty() {
        return "no rolls yet. Next: onestrand roll add DIR R1 SCAN".to_owned();
    }
    rolls.iter().map(roll).collect::<Vec<_>>().join("\n")
}

/// Which scans were read again, and what had not been kept of them.
pub(crate) fn read_again(rolls: &[ReadAgain]) -> String {
    let one = |again: &ReadAgain| match again.read {
        true => format!(
            "{}: read again, since it lacked {}",
            again.roll,
            again.lacked.join(", ")
        ),
        false => format!("{}: nothing is lacking, nothing was read", again.roll),
    };
    let lines: Vec<String> = rolls.iter().map(one).collect();
    match lines.is_empty() {
        true => "no rolls yet".to_owned(),
        false => lines.join("\n"),
    }
}

fn roll(roll: &RollDocument) -> String {
    let proof = match (roll.proved, roll.paper, roll.difference) {
        (true, _, _) => "proved".to_owned(),
        (false, true, _) => "on paper only, NOT PROVED".to_owned(),
        (false, false, Some(off)) => format!("{off:+} against the bench, NOT PROVED"),
        (false, false, None) => "not measured, NOT PROVED".to_owned(),
    };
    let missing = match roll.missing {
        0 => String::new(),
        n => format!(", {n} without a picture"),
    };
    format!(
        "{:<4} {} frames = {} ft {} fr, {}, {} takes{missing}; {proof}",
        roll.roll,
        counted(u64::from(roll.frames)),
        roll.footage.feet,
        roll.footage.frames,
        roll.gauge,
        roll.takes
    )
}

pub(crate) fn log_imported(done: &LogImported) -> String {
    let extra = unknown(&done.unknown_columns);
    let mut text = format!("{} takes on {}{extra}", done.takes, done.rolls.join(", "));
    for one in &done.assumptions {
        text.push_str(&format!("\n  taken: {one}"));
    }
    text
}

fn unknown(columns: &[String]) -> String {
    match columns {
        [] => String::new(),
        some => format!("; kept in the note: {}", some.join(", ")),
    }
}

/// Where the halves of an unslit strip went, and what comes next.
pub(crate) fn parted(dir: &std::path::Path) -> String {
    let dir = dir.display();
    format!(
        "\nthe first run is in {dir}/first-run, the second in {dir}/second-run. Next: \
         onestrand roll add FILM R1a --gauge regular8 {dir}/first-run/*.png, the same for the \
         second, then onestrand roll halves"
    )
}

pub(crate) fn cuts(cuts: &[impl serde::Serialize]) -> String {
    let line = |cut: &_| {
        let value = serde_json::to_value(cut).unwrap_or_default();
        format!(
            "{:<8} {} pieces, {} frames, {} joins, {} {}",
            value["cut"].as_str().unwrap_or(""),
            value["pieces"],
            value["frames"],
            value["join"].as_str().unwrap_or(""),
            value["made"].as_str().unwrap_or(""),
            value["note"].as_str().unwrap_or(""),
        )
    };
    if cuts.is_empty() {
        return "no cut yet. Next: onestrand cut import DIR FILE.csv --name v1".to_owned();
    }
    cuts.iter().map(line).collect::<Vec<_>>().join("\n")
}

pub(crate) fn sheets(printed: &impl serde::Serialize) -> String {
    let value = serde_json::to_value(printed).unwrap_or_default();
    let mut lines: Vec<String> = value["files"]
        .as_array()
        .into_iter()
        .flatten()
        .map(|f| {
            format!(
                "{}: {}",
                f["sheet"].as_str().unwrap_or(""),
                f["path"].as_str().unwrap_or("")
            )
        })
        .collect();
    if value["proved"] == false {
        lines.push("NOT PROVED stands across every sheet: see `onestrand roll list`".to_owned());
    }
    lines.join("\n")
}
