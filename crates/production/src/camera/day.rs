//! The sun over a day.

use onestrand_plan::camera::{self as plan, SunAsked, SunAt, SunDay, SunStays};
use serde::Deserialize;
use utoipa::IntoParams;

use super::opened::{figure, opened, plate};
use super::said;
use crate::ProductionError;
use crate::documents::{
    CameraGoldenDocument, CameraPlateDocument, CameraSunAtDocument, CameraSunDocument,
};
use crate::throw::round;

/// A place, a day and an hour.
#[derive(Debug, Clone, Default, PartialEq, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct CameraSunRequest {
    /// North of the equator, such as `52.5` or `33°52'S`.
    pub latitude: String,
    /// East of Greenwich, such as `13.4` or `71°30'W`.
    pub longitude: String,
    /// The day, such as `2026-06-21`.
    pub date: String,
    /// The hour by the clock of the place, such as `14:30`; noon when not said.
    pub hour: Option<String>,
    /// How far that clock is before Greenwich, such as `+1` or `-3:30`.
    pub clock: String,
    /// Light is golden from this height of the sun on. Unit: degrees; −4 when not said.
    pub golden_from: Option<f64>,
    /// Light is golden up to this height of the sun. Unit: degrees; 6 when not said.
    pub golden_to: Option<f64>,
}

/// Where the sun stands, when it rises and sets, and what light is left.
///
/// # Errors
/// [`ProductionError::Unit`], [`ProductionError::Camera`] for what cannot be.
pub fn camera_sun(request: &CameraSunRequest) -> Result<CameraSunDocument, ProductionError> {
    let [low, high] = SunAsked::GOLDEN;
    let hour = said::maybe(request.hour.as_deref(), said::hour)?;
    let asked = SunAsked {
        latitude: said::place(&request.latitude)?,
        longitude: said::place(&request.longitude)?,
        date: said::date(&request.date)?,
        minute: hour.unwrap_or(720.0),
        clock_minutes: said::clock_lead(&request.clock)?,
        golden: [
            request.golden_from.unwrap_or(low),
            request.golden_to.unwrap_or(high),
        ],
    };
    let found = plan::sun(&asked)?;
    let value = &found.value;
    let hours = |minute: Option<f64>| minute.map(clock);
    let golden = value.golden.iter().map(|one| CameraGoldenDocument {
        from: clock(one.from),
        to: clock(one.to),
    });
    Ok(CameraSunDocument {
        azimuth: round(value.now.azimuth, 3),
        altitude: round(value.now.altitude, 3),
        true_altitude: round(value.now.true_altitude, 3),
        rises: hours(value.rises),
        sets: hours(value.sets),
        noon: hours(value.noon),
        dawn: hours(value.dawn),
        dusk: hours(value.dusk),
        stays: value.stays.map(|stays| stays_word(stays).to_owned()),
        golden: golden.collect(),
        sun_left_minutes: round(value.sun_left, 1),
        golden_left_minutes: round(value.golden_left, 1),
        shadow: value.shadow.map(|times| round(times, 2)),
        path: value.path.iter().map(at).collect(),
        opened: opened(&found, plates(value), text(request, value)),
    })
}

const fn stays_word(stays: SunStays) -> &'static str {
    match stays {
        SunStays::Up => "up",
        SunStays::Down => "down",
    }
}

fn at(at: &SunAt) -> CameraSunAtDocument {
    CameraSunAtDocument {
        hour: clock(at.minute),
        azimuth: round(at.azimuth, 2),
        altitude: round(at.altitude, 2),
    }
}

/// `14:05`, to the nearest minute.
fn clock(minute: f64) -> String {
    // A minute of a day.
    let whole = minute.round() as i64;
    format!("{}:{:02}", whole.div_euclid(60), whole.rem_euclid(60))
}

/// The winds, sixteen of them.
fn wind(azimuth: f64) -> &'static str {
    const WINDS: [&str; 16] = [
        "N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE", "S", "SSW", "SW", "WSW", "W", "WNW",
        "NW", "NNW",
    ];
    WINDS[(azimuth / 22.5).round() as usize % 16]
}

fn lasting(minutes: f64) -> String {
    let whole = minutes.round() as i64;
    format!("{}:{:02}", whole / 60, whole % 60)
}

fn plates(found: &SunDay) -> Vec<CameraPlateDocument> {
    let now = found.now;
    let mut all = vec![
        plate(
            "where the sun stands",
            figure(now.azimuth, 0),
            format!("° from north, {}", wind(now.azimuth)),
        ),
        plate(
            "how high the sun stands",
            figure(now.altitude, 1),
            "° over the horizon",
        ),
        plate("sun left", lasting(found.sun_left), "hours of sun left"),
        plate(
            "golden light left",
            lasting(found.golden_left),
            "hours of golden light left",
        ),
    ];
    match found.stays {
        Some(stays) => all.push(plate(
            "all day",
            stays_word(stays),
            "all day: it does not rise or set",
        )),
        None => {
            all.extend(found.rises.map(|at| plate("sunrise", clock(at), "rises")));
            all.extend(found.sets.map(|at| plate("sunset", clock(at), "sets")));
        }
    }
    all
}

fn text(request: &CameraSunRequest, found: &SunDay) -> String {
    let hour = clock(found.now.minute);
    let mut all = format!(
        "{} {hour}: sun at {}° ({}), {}° high",
        request.date.trim(),
        figure(found.now.azimuth, 0),
        wind(found.now.azimuth),
        figure(found.now.altitude, 0)
    );
    if let Some((rises, sets)) = found.rises.zip(found.sets) {
        all.push_str(&format!(", rises {}, sets {}", clock(rises), clock(sets)));
    }
    match found.stays {
        Some(SunStays::Up) => all.push_str(", it does not set"),
        Some(SunStays::Down) => all.push_str(", it does not rise"),
        None => {}
    }
    let golden = found.golden.iter();
    let golden: Vec<String> = golden
        .map(|one| format!("{} to {}", clock(one.from), clock(one.to)))
        .collect();
    if !golden.is_empty() {
        all.push_str(&format!(", golden light {}", golden.join(" and ")));
    }
    all
}
