//! How slowly the camera ran when the flash frame was made.

use onestrand_film::Fps;

use super::camera_error::{CameraError, within};
use super::figures::figure;
use super::opened_sum::{OpenedSum, Reckoned};

/// A frame that is lighter than its neighbours because the camera was still slow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlashAsked {
    /// How much lighter it is. Unit: stops. Range: −5 to 8.
    pub stops: f64,
    /// The speed of the frames after it.
    pub speed: Fps,
}

/// How the camera ran at that frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlashSpeed {
    /// So many times as long the shutter was open.
    pub open_times: f64,
    /// Unit: frames a second.
    pub speed: f64,
}

/// How slowly the camera ran at a flash frame.
///
/// Source: the shutter is open in inverse proportion to the speed, and each stop is
/// twice the light.
///
/// # Errors
/// [`CameraError::OutOfRange`] for stops outside −5 to 8.
///
/// ```
/// # use onestrand_film::Fps;
/// # use onestrand_plan::camera::{FlashAsked, flash_speed};
/// let found = flash_speed(&FlashAsked { stops: 1.2, speed: Fps::EIGHTEEN })?.value;
/// assert_eq!(format!("{:.2} {:.1}", found.open_times, found.speed), "2.30 7.8");
/// assert!(flash_speed(&FlashAsked { stops: 20.0, speed: Fps::EIGHTEEN }).is_err());
/// # Ok::<(), onestrand_plan::camera::CameraError>(())
/// ```
pub fn flash_speed(asked: &FlashAsked) -> Result<Reckoned<FlashSpeed>, CameraError> {
    let hint = "signs of a roll say it: a flash frame is mostly 0.5 to 3 stops lighter";
    let stops = within("the flash in stops", asked.stops, (-5.0, 8.0), hint)?;
    let open_times = stops.exp2();
    let value = FlashSpeed {
        open_times,
        speed: asked.speed.as_f64() / open_times,
    };
    let set = figure(asked.speed.as_f64(), 3);
    let sums = vec![
        OpenedSum {
            what: "shutter open",
            formula: "2 to the stops",
            figures: format!("2^{}", figure(stops, 2)),
            comes: format!("{} times as long", figure(open_times, 2)),
            source: "each stop is twice the light",
        },
        OpenedSum {
            what: "speed at that frame",
            formula: "speed ÷ times as long",
            figures: format!("{set} ÷ {}", figure(open_times, 2)),
            comes: format!("{} f/s", figure(value.speed, 2)),
            source: "the shutter is open for a fixed share of a turn",
        },
    ];
    let taken = vec![
        "the light did not change, and the frame is not so light that the film is full: then the camera was slower still".to_owned(),
    ];
    Ok(Reckoned { value, sums, taken })
}
