//! Pans, and the camera's true speed.

use onestrand_film::Gauge;
use onestrand_plan::camera::{
    self as plan, FlickerSeen, PanAsked, PendulumSeen, SpeedSeen, TurntableSeen,
};
use serde::Deserialize;
use utoipa::IntoParams;

use super::light::speed;
use super::opened::{figure, opened, plate};
use super::said;
use crate::ProductionError;
use crate::documents::{CameraPanDocument, CameraSpeedDocument, CameraWayDocument};
use crate::error::unfit;
use crate::throw::round;

/// A pan.
#[derive(Debug, Clone, Default, PartialEq, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct CameraPanRequest {
    /// The gauge.
    pub gauge: String,
    /// The lens. Unit: millimetres.
    pub lens_mm: f64,
    /// The speed in frames a second.
    pub speed: String,
    /// How far is to be panned. Unit: degrees.
    pub turn: Option<f64>,
    /// Frames in which a thing may cross the picture; 168 when not said.
    pub frames_across: Option<f64>,
}

/// What was counted in the picture, by one way or more.
#[derive(Debug, Clone, Default, PartialEq, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct CameraSpeedRequest {
    /// What the camera is set to, in frames a second.
    pub set: String,
    /// The mains. Unit: hertz; 50 when not said.
    pub mains: Option<f64>,
    /// How far the mains may be off. Unit: hertz; 0.1 when not said.
    pub mains_error: Option<f64>,
    /// Bands of a lamp that passed.
    pub bands: Option<f64>,
    /// How far that count may be off; 1 when not said.
    pub bands_error: Option<f64>,
    /// Frames over which they passed.
    pub bands_frames: Option<f64>,
    /// The turntable. Unit: turns a minute; 33⅓ when not said.
    pub turntable: Option<f64>,
    /// How far the turntable may be off. Unit: per cent; 0.5 when not said.
    pub turntable_error: Option<f64>,
    /// Turns counted.
    pub turns: Option<f64>,
    /// Frames over which they were counted.
    pub turns_frames: Option<f64>,
    /// The pendulum's length, such as `99.4cm`.
    pub pendulum: Option<String>,
    /// How far the length may be off, such as `5mm`; `5mm` when not said.
    pub pendulum_error: Option<String>,
    /// How far it swings to one side. Unit: degrees; 5 when not said.
    pub swing: Option<f64>,
    /// Swings there and back counted.
    pub swings: Option<f64>,
    /// Frames over which they were counted.
    pub swings_frames: Option<f64>,
    /// How far counts of frames may be off; 1 when not said.
    pub frames_error: Option<f64>,
    /// Gravity. Unit: metres a second squared; 9.80665 when not said.
    pub gravity: Option<f64>,
}

/// How fast a pan may be before the picture stammers.
///
/// # Errors
/// [`ProductionError::Unit`], [`ProductionError::Camera`] for what cannot be.
pub fn camera_pan(request: &CameraPanRequest) -> Result<CameraPanDocument, ProductionError> {
    let gauge: Gauge = request.gauge.parse()?;
    let asked = PanAsked {
        image: gauge.spec().camera,
        lens_mm: request.lens_mm,
        speed: speed(&request.speed)?,
        frames_across: request.frames_across.unwrap_or(PanAsked::USUAL_FRAMES),
        turn_degrees: request.turn,
    };
    let found = plan::pan_speed(&asked)?;
    let value = found.value;
    let (fast, across) = (
        figure(value.degrees_a_second, 2),
        figure(value.seconds_across, 1),
    );
    let mut plates = vec![
        plate("fastest pan", fast.clone(), "° a second at the most"),
        plate("across the picture", across, "s across the picture"),
    ];
    let mut text = format!(
        "pan no faster than {fast}° a second with {} mm at {} f/s",
        figure(asked.lens_mm, 1),
        asked.speed
    );
    if let (Some(seconds), Some(frames), Some(turn)) =
        (value.turn_seconds, value.turn_frames, asked.turn_degrees)
    {
        let (seconds, turn) = (figure(seconds, 1), figure(turn, 0));
        plates.insert(
            0,
            plate("the whole pan", seconds.clone(), format!("s for {turn}°")),
        );
        plates.push(plate("frames", frames.to_string(), "frames of film"));
        text.push_str(&format!("; {turn}° take {seconds} s or longer"));
    }
    Ok(CameraPanDocument {
        degrees_a_second: round(value.degrees_a_second, 3),
        frames_across: asked.frames_across,
        seconds_across: round(value.seconds_across, 3),
        step_mm: round(value.step_mm, 5),
        turn_seconds: value.turn_seconds.map(|seconds| round(seconds, 2)),
        turn_frames: value.turn_frames,
        opened: opened(&found, plates, text),
    })
}

/// The camera's true speed, from what was counted in the picture.
///
/// # Errors
/// [`ProductionError::Unfit`] for half a count, [`ProductionError::Unit`],
/// [`ProductionError::Camera`] for what cannot be.
pub fn camera_speed(request: &CameraSpeedRequest) -> Result<CameraSpeedDocument, ProductionError> {
    let ways = [lamp(request)?, turntable(request)?, pendulum(request)?];
    let found = plan::true_speed(ways.into_iter().flatten().collect())?;
    let value = &found.value;
    let (ran, off) = (figure(value.speed, 2), figure(value.error, 2));
    let mut plates = vec![
        plate("true speed", ran.clone(), "f/s"),
        plate("how far it may be off", format!("± {off}"), "f/s"),
    ];
    let agree = match value.agree {
        Some(true) => ", by ways that agree",
        Some(false) => ", by ways that do not agree: count again",
        None => ", by one way only",
    };
    let names: Vec<&str> = value.ways.iter().map(|way| way.way).collect();
    for way in &value.ways {
        let told = format!("{} ± {}", figure(way.speed, 2), figure(way.error, 2));
        plates.push(plate(way.way, told, format!("by the {}", way.way)));
    }
    let text = format!("true speed {ran} ± {off} f/s ({}{agree})", names.join(", "));
    Ok(CameraSpeedDocument {
        speed: round(value.speed, 4),
        error: round(value.error, 4),
        agree: value.agree,
        ways: value.ways.iter().map(way).collect(),
        opened: opened(&found, plates, text),
    })
}

fn way(way: &SpeedSeen) -> CameraWayDocument {
    CameraWayDocument {
        way: way.way.to_owned(),
        speed: round(way.speed, 4),
        error: round(way.error, 4),
        also: way.also.iter().map(|one| round(one.speed, 4)).collect(),
    }
}

/// A count and the frames it was made over: both, or neither.
fn counted(
    count: Option<f64>,
    frames: Option<f64>,
    what: &str,
) -> Result<Option<(f64, f64)>, ProductionError> {
    match (count, frames) {
        (None, None) => Ok(None),
        (Some(count), Some(frames)) => Ok(Some((count, frames))),
        _ => Err(unfit(
            format!("{what} are counted over frames: only one of the two is said"),
            "say both: how many there were, and over how many frames",
        )),
    }
}

fn lamp(request: &CameraSpeedRequest) -> Result<Option<SpeedSeen>, ProductionError> {
    let Some((bands, frames)) = counted(request.bands, request.bands_frames, "bands")? else {
        return Ok(None);
    };
    let seen = FlickerSeen {
        mains_hz: request.mains.unwrap_or(50.0),
        mains_error_hz: request.mains_error.unwrap_or(0.1),
        bands,
        bands_error: request.bands_error.unwrap_or(1.0),
        frames,
        set: speed(&request.set)?.as_f64(),
    };
    Ok(Some(seen.speed()?))
}

fn turntable(request: &CameraSpeedRequest) -> Result<Option<SpeedSeen>, ProductionError> {
    let Some((turns, frames)) = counted(request.turns, request.turns_frames, "turns")? else {
        return Ok(None);
    };
    let seen = TurntableSeen {
        turns_a_minute: request.turntable.unwrap_or(100.0 / 3.0),
        error_percent: request.turntable_error.unwrap_or(0.5),
        turns,
        frames,
        frames_error: request.frames_error.unwrap_or(1.0),
    };
    Ok(Some(seen.speed()?))
}

fn pendulum(request: &CameraSpeedRequest) -> Result<Option<SpeedSeen>, ProductionError> {
    let counted = counted(request.swings, request.swings_frames, "swings")?;
    let length = said::maybe(request.pendulum.as_deref(), said::length_mm)?;
    let ((swings, frames), length_mm) = match (counted, length) {
        (None, _) => return Ok(None),
        (Some(counted), Some(length)) => (counted, length),
        (Some(_), None) => {
            return Err(unfit(
                "swings are counted, and how long the pendulum is, is not said".to_owned(),
                "measure from where the thread is held to the middle of the weight, such as 99.4cm",
            ));
        }
    };
    let error = said::maybe(request.pendulum_error.as_deref(), said::length_mm)?;
    let seen = PendulumSeen {
        length_mm,
        length_error_mm: error.unwrap_or(5.0),
        swing_degrees: request.swing.unwrap_or(5.0),
        swings,
        frames,
        frames_error: request.frames_error.unwrap_or(1.0),
        gravity: request.gravity.unwrap_or(PendulumSeen::GRAVITY),
    };
    Ok(Some(seen.speed()?))
}
