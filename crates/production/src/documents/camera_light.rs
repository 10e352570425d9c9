//! The camera's calculators of light and movement.

use serde::Serialize;
use utoipa::ToSchema;

use super::CameraOpenedDocument;

/// How long a frame gets light.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CameraExposureDocument {
    /// Unit: seconds.
    pub seconds: f64,
    /// One over so many seconds.
    pub one_over: f64,
    /// The exposure value, where a stop was said.
    pub ev: Option<f64>,
    /// Light against the other speed. Unit: stops.
    pub more_stops: Option<f64>,
    /// Plates, sums, and the line for the script.
    #[serde(flatten)]
    pub opened: CameraOpenedDocument,
}

/// Light, stop, time and film.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CameraEvDocument {
    /// The exposure time. Unit: seconds.
    pub seconds: f64,
    /// The speed of the film. Unit: ISO.
    pub iso: f64,
    /// The stop to set.
    pub stop: f64,
    /// The exposure value of stop and time.
    pub ev: f64,
    /// The exposure value of the light at ISO 100.
    pub ev100: f64,
    /// On the subject. Unit: lux.
    pub lux: f64,
    /// From a mean grey subject. Unit: candelas a square metre.
    pub candelas: f64,
    /// Plates, sums, and the line for the script.
    #[serde(flatten)]
    pub opened: CameraOpenedDocument,
}

/// A filter by its number.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CameraFilterKnownDocument {
    /// Its number.
    pub number: String,
    /// What it does. Unit: mired.
    pub mired: f64,
    /// The light it takes. Unit: stops.
    pub stops: f64,
}

/// How far a filter must turn the light.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CameraFilterDocument {
    /// Warmer where over nought. Unit: mired.
    pub mired: f64,
    /// The filter that comes nearest.
    pub nearest: Option<CameraFilterKnownDocument>,
    /// What is left with it. Unit: mired.
    pub left_mired: f64,
    /// Plates, sums, and the line for the script.
    #[serde(flatten)]
    pub opened: CameraOpenedDocument,
}

/// How fast a pan may be.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CameraPanDocument {
    /// Unit: degrees a second.
    pub degrees_a_second: f64,
    /// Frames in which a thing crosses the picture.
    pub frames_across: f64,
    /// The same. Unit: seconds.
    pub seconds_across: f64,
    /// From frame to frame. Unit: millimetres on the film.
    pub step_mm: f64,
    /// For the whole of the pan. Unit: seconds.
    pub turn_seconds: Option<f64>,
    /// For the whole of the pan. Unit: frames.
    pub turn_frames: Option<u32>,
    /// Plates, sums, and the line for the script.
    #[serde(flatten)]
    pub opened: CameraOpenedDocument,
}

/// How the camera ran at a flash frame.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CameraFlashDocument {
    /// So many times as long the shutter was open.
    pub open_times: f64,
    /// Unit: frames a second.
    pub speed: f64,
    /// Plates, sums, and the line for the script.
    #[serde(flatten)]
    pub opened: CameraOpenedDocument,
}

/// One way to the camera's true speed.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CameraWayDocument {
    /// `lamp flicker`, `turntable` or `pendulum`.
    pub way: String,
    /// Unit: frames a second.
    pub speed: f64,
    /// It lies within as much of it.
    pub error: f64,
    /// Other speeds that would look the same.
    pub also: Vec<f64>,
}

/// The camera's true speed.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CameraSpeedDocument {
    /// Unit: frames a second.
    pub speed: f64,
    /// It lies within as much of it.
    pub error: f64,
    /// Whether the ways agree; null where there is only one.
    pub agree: Option<bool>,
    /// The ways.
    pub ways: Vec<CameraWayDocument>,
    /// Plates, sums, and the line for the script.
    #[serde(flatten)]
    pub opened: CameraOpenedDocument,
}

/// One take of an exposure wedge.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CameraWedgeTakeDocument {
    /// The frames it was measured on, where it is a take of a roll.
    pub frames: Option<String>,
    /// How it was set against the meter. Unit: stops.
    pub set_stops: f64,
    /// The light of its picture. Unit: stops.
    pub light_stops: Option<f64>,
    /// What the line says. Unit: stops.
    pub line_stops: f64,
    /// Why it does not count; null where it does.
    pub left_out: Option<String>,
}

/// The meter's error.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CameraWedgeDocument {
    /// What to give more than the meter asks for. Unit: stops.
    pub give_more_stops: f64,
    /// The same to the nearest third. Unit: thirds of a stop.
    pub thirds: i32,
    /// How far it may be off, 95 per cent. Unit: stops.
    pub error_stops: f64,
    /// Stops of the picture for a stop set.
    pub contrast: f64,
    /// How the takes scatter about the line. Unit: stops of the picture.
    pub scatter_stops: f64,
    /// Whether the right light lies between the takes that count.
    pub within_takes: bool,
    /// The takes.
    pub takes: Vec<CameraWedgeTakeDocument>,
    /// Plates, sums, and the line for the script.
    #[serde(flatten)]
    pub opened: CameraOpenedDocument,
}

/// Where the sun stands at one moment.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CameraSunAtDocument {
    /// By the clock of the place: `14:30`.
    pub hour: String,
    /// From north by east. Unit: degrees.
    pub azimuth: f64,
    /// Over the horizon as it is seen. Unit: degrees.
    pub altitude: f64,
}

/// A stretch of golden light, by the clock of the place.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CameraGoldenDocument {
    /// From here.
    pub from: String,
    /// To here.
    pub to: String,
}

/// The sun over a day. Hours are by the clock of the place.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CameraSunDocument {
    /// From north by east. Unit: degrees.
    pub azimuth: f64,
    /// Over the horizon as it is seen. Unit: degrees.
    pub altitude: f64,
    /// Over the horizon without the air. Unit: degrees.
    pub true_altitude: f64,
    /// When it rises; null where it does not that day.
    pub rises: Option<String>,
    /// When it sets.
    pub sets: Option<String>,
    /// At its highest.
    pub noon: Option<String>,
    /// The sun 6° below the horizon in the morning.
    pub dawn: Option<String>,
    /// The sun 6° below the horizon in the evening.
    pub dusk: Option<String>,
    /// `up` or `down` where it stays so all day.
    pub stays: Option<String>,
    /// Golden light.
    pub golden: Vec<CameraGoldenDocument>,
    /// From the hour to the last light of the sun. Unit: minutes.
    pub sun_left_minutes: f64,
    /// Golden light from the hour on. Unit: minutes.
    pub golden_left_minutes: f64,
    /// The shadow of an upright thing against its height.
    pub shadow: Option<f64>,
    /// Half-hour by half-hour.
    pub path: Vec<CameraSunAtDocument>,
    /// Plates, sums, and the line for the script.
    #[serde(flatten)]
    pub opened: CameraOpenedDocument,
}
