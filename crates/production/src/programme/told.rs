//! What comes of a programme, told row by row with its times.

use onestrand_film::RunningTime;

use super::planned::{Part, title_of};
use crate::documents::{
    ProgrammeDocument, ProgrammeForm, ProgrammeReelDocument, ProgrammeRowDocument,
    ProgrammeThrowDocument,
};
use crate::throw::round;

pub(super) fn told(
    form: &ProgrammeForm,
    parts: &[Part],
    reels: Vec<ProgrammeReelDocument>,
    throws: Vec<ProgrammeThrowDocument>,
) -> ProgrammeDocument {
    let (mut at, mut film_seconds, mut changes) = (0.0, 0.0, 0_u32);
    let (mut rows, mut remarks): (Vec<ProgrammeRowDocument>, Vec<String>) = Default::default();
    let mut just_paused = false;
    for part in parts {
        let title = title_of(part);
        let is_new = !part.before.is_empty() && part.before != "first reel";
        if is_new {
            changes += 1;
            // The next reel is threaded in the interval.
            if !just_paused {
                at += f64::from(form.changeover_seconds);
            }
        }
        let seconds = match &part.film {
            Some((film, speed)) => RunningTime::of(film.frames, *speed).as_seconds_f64(),
            None if part.row.what == "interval" => f64::from(part.row.minutes) * 60.0,
            None => 0.0,
        };
        just_paused = part.film.is_none() && part.row.what == "interval";
        if !part.row.remark.trim().is_empty() {
            remarks.push(format!("{title}: {}", part.row.remark.trim()));
        }
        rows.push(row(part, title, at, seconds));
        at += seconds;
        if part.film.is_some() {
            film_seconds += seconds;
        }
    }
    ProgrammeDocument {
        rows,
        reels,
        throws,
        film_seconds: round(film_seconds, 1),
        clock: clock(at),
        changes,
        remarks,
        assumptions: vec![
            format!(
                "Each reel has {} ft of leader at its head and as much at its tail, {} ft of spacing between two films; the largest takes {} ft.",
                form.leader_feet, form.spacing_feet, form.reel_feet
            ),
            format!(
                "A change takes {} seconds, unless there is an interval before it. Films that differ in gauge, speed or sound lie on reels of their own.",
                form.changeover_seconds
            ),
            "Times are at the speed said: a projector may run a twentieth off. Measure yours."
                .to_owned(),
        ],
    }
}

fn row(part: &Part, title: String, at: f64, seconds: f64) -> ProgrammeRowDocument {
    let film = part.film.as_ref();
    ProgrammeRowDocument {
        asked: part.row.clone(),
        cut: film.map_or_else(String::new, |(film, _)| film.cut.clone()),
        gauge: film.map_or_else(String::new, |(film, _)| film.gauge.to_string()),
        speed: film.map_or_else(String::new, |(_, speed)| speed.to_string()),
        frames: film.map_or(0, |(film, _)| film.frames.count()),
        footage: film.map(|(film, _)| film.gauge.footage(film.frames).into()),
        clock: clock(seconds),
        begins: clock(at),
        reel: part.reel,
        before: part.before.to_owned(),
        problem: part.problem.clone(),
        title,
    }
}

/// Seconds as `m:ss`, or `h:mm:ss` from an hour on; to the nearest second.
fn clock(seconds: f64) -> String {
    let whole = seconds.round() as u64;
    let (hours, minutes, seconds) = (whole / 3600, whole / 60 % 60, whole % 60);
    match hours {
        0 => format!("{minutes}:{seconds:02}"),
        _ => format!("{hours}:{minutes:02}:{seconds:02}"),
    }
}
