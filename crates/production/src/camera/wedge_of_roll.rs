//! The meter's error from an exposure wedge: typed, or read off the takes of a roll.

use onestrand_plan::camera::{self as plan, MeterError, Reckoned, WedgeAsked, WedgeTake};
use onestrand_store::{Production, TakeRecord};
use serde::Deserialize;
use utoipa::IntoParams;

use super::opened::{figure, opened, plate, signed, thirds};
use super::said;
use crate::ProductionError;
use crate::documents::{CameraWedgeDocument, CameraWedgeTakeDocument};
use crate::error::unfit;
use crate::light_of_rolls::LightOfRolls;
use crate::throw::round;

/// A row of takes with the light of their pictures.
#[derive(Debug, Clone, Default, PartialEq, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct CameraWedgeRequest {
    /// How each take was set against the meter, in stops: `-1 -0.5 0 0.5 1`.
    pub set: String,
    /// The light of each picture in stops, in the same order; `x` where it is clipped.
    pub light: String,
    /// The light of a right picture in stops; −2.474 when not said, a grey card against
    /// full light.
    pub right: Option<f64>,
}

/// A row of takes on a roll that has been read.
#[derive(Debug, Clone, Default, PartialEq, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct CameraRollWedgeRequest {
    /// The roll.
    pub roll: String,
    /// How each take was set against the meter, in stops: `-1 -0.5 0 0.5 1`.
    pub set: String,
    /// The first take of the row, counted from 1 on the roll; 1 when not said.
    pub first_take: Option<usize>,
    /// The light of a right picture in stops; −2.474 when not said.
    pub right: Option<f64>,
}

/// The meter's error from figures that were measured elsewhere.
///
/// # Errors
/// [`ProductionError::Unfit`] for rows of unlike length, [`ProductionError::Unit`],
/// [`ProductionError::Camera`] for what cannot be.
pub fn camera_wedge(request: &CameraWedgeRequest) -> Result<CameraWedgeDocument, ProductionError> {
    let set = said::numbers(&request.set, EXAMPLE)?;
    let light = lights(&request.light)?;
    if set.len() != light.len() {
        return Err(unfit(
            format!("{} settings and {} lights", set.len(), light.len()),
            "say a light for each take, x where its picture is clipped",
        ));
    }
    let takes = set.into_iter().zip(light);
    let takes: Vec<WedgeTake> = takes
        .map(|(set_stops, light_stops)| WedgeTake {
            set_stops,
            light_stops,
        })
        .collect();
    read(takes, request.right, &[])
}

const EXAMPLE: &str = "-1 -0.5 0 0.5 1";

/// Lights as they are typed; `x` where nothing could be measured.
fn lights(text: &str) -> Result<Vec<Option<f64>>, ProductionError> {
    let parts = text
        .split([';', ' ', ','])
        .map(str::trim)
        .filter(|part| !part.is_empty());
    let one = |part: &str| match part {
        "x" | "X" => Ok(None),
        part => Ok(Some(said::numbers(part, "-3.2 -2.4 x")?[0])),
    };
    parts.map(one).collect()
}

/// The meter's error from takes of a roll, whose light was measured when it was read.
///
/// The middle frames of each take count, in the middle of the picture's parts.
///
/// # Errors
/// [`ProductionError::Store`] for a roll that is not there, [`ProductionError::Unfit`]
/// where it has fewer takes or was not measured, and those of [`camera_wedge`].
pub fn camera_wedge_of_roll(
    production: &Production,
    request: &CameraRollWedgeRequest,
) -> Result<CameraWedgeDocument, ProductionError> {
    production.roll(&request.roll)?;
    let set = said::numbers(&request.set, EXAMPLE)?;
    let all = production.takes_of(&request.roll)?;
    let first = request.first_take.unwrap_or(1).max(1) - 1;
    let row: Vec<&TakeRecord> = all.iter().skip(first).take(set.len()).collect();
    if row.len() < set.len() {
        return Err(unfit(
            format!(
                "{} settings, and {} has {} takes from take {} on",
                set.len(),
                request.roll,
                row.len(),
                first + 1
            ),
            "say how each take of the row was set, in their order, and with which take it begins",
        ));
    }
    let rolls = LightOfRolls::of(production);
    let Some(light) = rolls.roll(&request.roll) else {
        return Err(unfit(
            format!("the light of {} was not measured", request.roll),
            "bring its scan in, or read it again with `onestrand roll again`",
        ));
    };
    let takes = row.iter().zip(&set).map(|(take, set_stops)| WedgeTake {
        set_stops: *set_stops,
        light_stops: light
            .over(middle(take))
            .and_then(|run| run.level_stops())
            .map(f64::from),
    });
    let frames: Vec<String> = row
        .iter()
        .map(|take| {
            let middle = middle(take);
            format!("{}·{} to {}", request.roll, middle.start, middle.end - 1)
        })
        .collect();
    read(takes.collect(), request.right, &frames)
}

/// The middle half of a take: the camera is up to speed, and nobody has stepped in yet.
fn middle(take: &TakeRecord) -> std::ops::Range<u32> {
    let quarter = take.thrown.saturating_sub(take.first) / 4;
    let begin = take.first + quarter;
    begin..(take.thrown - quarter).max(begin + 1)
}

fn read(
    takes: Vec<WedgeTake>,
    right: Option<f64>,
    frames: &[String],
) -> Result<CameraWedgeDocument, ProductionError> {
    let asked = WedgeAsked {
        takes,
        right_light: right.unwrap_or(WedgeAsked::GREY_CARD),
    };
    Ok(told(&plan::wedge(&asked)?, frames))
}

fn told(found: &Reckoned<MeterError>, frames: &[String]) -> CameraWedgeDocument {
    let value = &found.value;
    let more = thirds(value.thirds);
    let plates = vec![
        plate(
            "give more than the meter says",
            more.clone(),
            "stop to give more than the meter says",
        ),
        plate(
            "measured",
            format!(
                "{} ± {}",
                signed(value.give_more_stops, 2),
                figure(value.error_stops, 2)
            ),
            "stops, as measured",
        ),
        plate(
            "contrast",
            figure(value.contrast, 2),
            "stops of picture for a stop",
        ),
    ];
    let text = match value.thirds {
        0 => "the meter is right to a third of a stop".to_owned(),
        _ => format!("give {more} stop against the meter"),
    };
    let takes = value.takes.iter().enumerate().map(|(at, take)| {
        let stops = |value: f64| round(value, 3);
        CameraWedgeTakeDocument {
            frames: frames.get(at).cloned(),
            set_stops: take.set_stops,
            light_stops: take.light_stops.map(stops),
            line_stops: stops(take.line_stops),
            left_out: take.left_out.map(str::to_owned),
        }
    });
    CameraWedgeDocument {
        give_more_stops: round(value.give_more_stops, 3),
        thirds: value.thirds,
        error_stops: round(value.error_stops, 3),
        contrast: round(value.contrast, 3),
        scatter_stops: round(value.scatter_stops, 3),
        within_takes: value.within_takes,
        takes: takes.collect(),
        opened: opened(found, plates, text),
    }
}
