//! How long the shutter is open for a frame.

use onestrand_film::Fps;

use super::camera_error::{CameraError, stop_fits, within};
use super::figures::figure;
use super::opened_sum::{OpenedSum, Reckoned};

/// A shutter and a speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ExposureAsked {
    /// The opening of the shutter. Unit: degrees of a turn. Range: over 0 to below 360.
    pub shutter_degrees: f64,
    /// The speed.
    pub speed: Fps,
    /// The stop, where an exposure value is wanted.
    pub stop: Option<f64>,
    /// Another speed, to tell how much more or less light a frame gets.
    pub was_speed: Option<Fps>,
}

/// How long a frame gets light.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Exposure {
    /// Unit: seconds.
    pub seconds: f64,
    /// The exposure value, where a stop was said.
    pub value: Option<f64>,
    /// Light of a frame against the other speed. Unit: stops, + for more.
    pub more_stops: Option<f64>,
}

/// A shutter's opening. Unit: degrees.
pub(crate) fn shutter_fits(degrees: f64) -> Result<f64, CameraError> {
    let hint = "the angle stands in the camera's book: often 150 to 180 degrees, and never nought";
    within("the shutter in degrees", degrees, (1.0, 359.0), hint)
}

/// How long the shutter is open for a frame.
///
/// Source: t = (angle ÷ 360) ÷ speed; EV = log₂(stop² ÷ t), ISO 2720.
///
/// # Errors
/// [`CameraError::OutOfRange`] for a shutter outside 1 to 359 degrees or a stop outside
/// 0.5 to 128.
///
/// ```
/// # use onestrand_film::Fps;
/// # use onestrand_plan::camera::{ExposureAsked, exposure_time};
/// let asked = ExposureAsked {
///     shutter_degrees: 150.0, speed: Fps::EIGHTEEN, stop: Some(8.0), was_speed: None,
/// };
/// let found = exposure_time(&asked)?.value;
/// assert_eq!(format!("{:.3}", found.seconds * 1000.0), "23.148");
/// assert!(exposure_time(&ExposureAsked { shutter_degrees: 0.0, ..asked }).is_err());
/// # Ok::<(), onestrand_plan::camera::CameraError>(())
/// ```
pub fn exposure_time(asked: &ExposureAsked) -> Result<Reckoned<Exposure>, CameraError> {
    let angle = shutter_fits(asked.shutter_degrees)?;
    let stop = asked.stop.map(stop_fits).transpose()?;
    let speed = asked.speed.as_f64();
    let seconds = angle / 360.0 / speed;
    let value = Exposure {
        seconds,
        value: stop.map(|stop| ev(stop, seconds)),
        more_stops: asked.was_speed.map(|was| (was.as_f64() / speed).log2()),
    };
    let mut sums = vec![OpenedSum {
        what: "exposure time",
        formula: "(shutter angle ÷ 360) ÷ speed",
        figures: format!("({}° ÷ 360°) ÷ {}", figure(angle, 1), figure(speed, 3)),
        comes: time_text(seconds),
        source: "the share of a turn for which the shutter is open",
    }];
    if let (Some(stop), Some(found)) = (stop, value.value) {
        sums.push(ev_sum(stop, seconds, found));
    }
    if let (Some(was), Some(more)) = (asked.was_speed, value.more_stops) {
        sums.push(OpenedSum {
            what: "light against the other speed",
            formula: "log₂(other speed ÷ this speed), the shutter being the same",
            figures: format!("log₂({} ÷ {})", figure(was.as_f64(), 3), figure(speed, 3)),
            comes: format!("{} stops", signed(more)),
            source: "half the time is one stop less",
        });
    }
    let taken = vec![
        "the light that a reflex finder takes away is not counted: the camera's book says how much"
            .to_owned(),
    ];
    Ok(Reckoned { value, sums, taken })
}

/// The exposure value of a stop and a time.
pub(crate) fn ev(stop: f64, seconds: f64) -> f64 {
    (stop * stop / seconds).log2()
}

pub(crate) fn ev_sum(stop: f64, seconds: f64, found: f64) -> OpenedSum {
    OpenedSum {
        what: "exposure value",
        formula: "EV = log₂(stop² ÷ time)",
        figures: format!("log₂({}² × {})", figure(stop, 2), figure(1.0 / seconds, 2)),
        comes: figure(found, 3),
        source: "ISO 2720, from memory",
    }
}

/// `1/43.2 s`; above a second plain.
pub(crate) fn time_text(seconds: f64) -> String {
    if seconds >= 1.0 {
        return format!("{} s", figure(seconds, 2));
    }
    format!("1/{} s", figure(1.0 / seconds, 2))
}

/// With its sign, to a hundredth.
pub(crate) fn signed(value: f64) -> String {
    let plain = figure(value, 2);
    match value > 0.0 && plain != "0" {
        true => format!("+{plain}"),
        false => plain,
    }
}
