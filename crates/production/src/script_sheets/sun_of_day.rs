//! The sun of the day at a place that is drawn, in words and by the hour.

use onestrand_plan::camera::{SunAsked, SunDay, SunStays};
use onestrand_sheets::SunAt;

use super::ScriptSheetsToPrint;
use crate::documents::FloorPlanWords;

/// Hours between the suns of a floor plan.
const EVERY: u32 = 2;
/// What the figures rest on, as it is printed.
const FROM: &str = "Sun by the Solar Position Algorithm (Reda and Andreas, NREL report TP-560-34302), a \
                    flat horizon: hills and houses take it earlier.";

/// The sun of a place on its day; nothing where place or day are not known.
fn of_plan(plan: &FloorPlanWords) -> Option<SunDay> {
    let (latitude, longitude) = (plan.latitude?, plan.longitude?);
    let asked = SunAsked {
        latitude: f64::from(latitude) / 1_000.0,
        longitude: f64::from(longitude) / 1_000.0,
        date: date(&plan.day)?,
        minute: 720.0,
        clock_minutes: f64::from(plan.utc_offset),
        golden: SunAsked::GOLDEN,
    };
    onestrand_plan::camera::sun(&asked)
        .ok()
        .map(|reckoned| reckoned.value)
}

/// `2026-06-21`.
fn date(day: &str) -> Option<(i32, u32, u32)> {
    let mut parts = day.split('-');
    let date = (
        parts.next()?.parse().ok()?,
        parts.next()?.parse().ok()?,
        parts.next()?.parse().ok()?,
    );
    parts.next().is_none().then_some(date)
}

/// Minutes since midnight as a clock has them: `05:21`.
fn clock(minute: f64) -> String {
    // A day has 1,440 of them, so they fit.
    let whole = minute.round().clamp(0.0, 1_440.0) as u32;
    format!("{:02}:{:02}", whole / 60, whole % 60)
}

fn words(day: &str, sun: &SunDay) -> String {
    match (sun.stays, sun.rises, sun.sets) {
        (Some(SunStays::Up), ..) => format!("Sun on {day}: up all day."),
        (Some(SunStays::Down), ..) => format!("Sun on {day}: it does not rise."),
        (None, rises, sets) => {
            let mut said = Vec::new();
            said.extend(rises.map(|minute| format!("up {}", clock(minute))));
            said.extend(sun.noon.map(|minute| format!("highest {}", clock(minute))));
            said.extend(sets.map(|minute| format!("down {}", clock(minute))));
            format!("Sun on {day}: {}.", said.join(", "))
        }
    }
}

/// The sun where these scenes play, by the first plan that says.
pub(super) fn of_scenes(gathered: &ScriptSheetsToPrint, scenes: &[String]) -> String {
    let plans = gathered.script.floor_plans.iter().map(|one| &one.plan);
    let here = plans.filter(|plan| plan.scenes.iter().any(|one| scenes.contains(one)));
    let mut found = here.filter_map(|plan| Some(words(&plan.day, &of_plan(plan)?)));
    found.next().unwrap_or_default()
}

/// The sun for the cover, by the first plan of the scenes that are shot.
pub(super) fn of_folder(gathered: &ScriptSheetsToPrint) -> String {
    let plans = gathered.script.floor_plans.iter().map(|one| &one.plan);
    let here = plans.filter(|plan| gathered.is_about(&plan.scenes));
    let mut found = here.filter_map(|plan| Some(words(&plan.day, &of_plan(plan)?)));
    found.next().unwrap_or_default()
}

/// Where the sun stands by the hour, and what that rests on.
pub(super) fn by_the_hour(plan: &FloorPlanWords) -> (Vec<SunAt>, String) {
    let Some(sun) = of_plan(plan) else {
        return (Vec::new(), String::new());
    };
    let whole = sun.path.iter().filter(|at| {
        let minute = at.minute.round() as u32;
        at.altitude > 0.0 && minute.is_multiple_of(60 * EVERY) && minute < 1_440
    });
    let hours = whole.map(|at| SunAt {
        hour: clock(at.minute),
        azimuth: at.azimuth,
        altitude: at.altitude,
    });
    (
        hours.collect(),
        format!("{} {FROM}", words(&plan.day, &sun)),
    )
}
