//! How fast a pan may be before the picture stammers.

use onestrand_film::{Aperture, Fps};

use super::camera_error::{CameraError, lens_fits, within};
use super::field_of_view::{angle, image_taken, size_mm};
use super::figures::{degrees, figure};
use super::opened_sum::{OpenedSum, Reckoned};

/// A pan with a lens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PanAsked {
    /// The picture in the camera.
    pub image: Aperture,
    /// The lens. Unit: millimetres.
    pub lens_mm: f64,
    /// The speed of the camera.
    pub speed: Fps,
    /// Frames in which a thing may cross the picture at the soonest. Range: 1 to 10,000.
    /// [`PanAsked::USUAL_FRAMES`] is the rule of the trade.
    pub frames_across: f64,
    /// How far is to be panned. Unit: degrees. Range: over 0 to 3,600.
    pub turn_degrees: Option<f64>,
}

impl PanAsked {
    /// Seven seconds at 24 frames a second. Source: tutorials of two makers of cameras,
    /// which both say 7 s across the picture at 24 frames a second with a half-turn
    /// shutter: where to begin, not a wall.
    pub const USUAL_FRAMES: f64 = 168.0;
    /// Of a rule of drawn film: 0.1 in a frame on a field of 12 in is the most. Source:
    /// an animation handbook's extract.
    pub const DRAWN_FRAMES: f64 = 120.0;
}

/// How fast a pan may be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PanSpeed {
    /// Unit: degrees a second.
    pub degrees_a_second: f64,
    /// For a thing to cross the picture. Unit: seconds.
    pub seconds_across: f64,
    /// How far the picture moves from frame to frame. Unit: millimetres on the film.
    pub step_mm: f64,
    /// For the whole of the pan, where it was said. Unit: seconds.
    pub turn_seconds: Option<f64>,
    /// The same in frames, rounded up.
    pub turn_frames: Option<u32>,
}

/// How fast a pan may be before the picture stammers.
///
/// # Errors
/// [`CameraError::OutOfRange`] for a lens, a rule or a turn that cannot be.
///
/// ```
/// # use onestrand_film::{Fps, Gauge};
/// # use onestrand_plan::camera::{PanAsked, pan_speed};
/// let asked = PanAsked {
///     image: Gauge::Super8.spec().camera, lens_mm: 9.0, speed: Fps::EIGHTEEN,
///     frames_across: PanAsked::USUAL_FRAMES, turn_degrees: Some(90.0),
/// };
/// let found = pan_speed(&asked)?.value;
/// assert_eq!(format!("{:.2}", found.degrees_a_second), "3.82");
/// assert!(pan_speed(&PanAsked { turn_degrees: Some(-90.0), ..asked }).is_err());
/// # Ok::<(), onestrand_plan::camera::CameraError>(())
/// ```
pub fn pan_speed(asked: &PanAsked) -> Result<Reckoned<PanSpeed>, CameraError> {
    let lens = lens_fits(asked.lens_mm)?;
    let hint = "168 frames are 7 s at 24 f/s and 9.3 s at 18";
    let frames = within(
        "the frames across the picture",
        asked.frames_across,
        (1.0, 10_000.0),
        hint,
    )?;
    let hint = "a quarter turn is 90 degrees";
    let fits = |turn| within("the pan in degrees", turn, (0.01, 3_600.0), hint);
    let turn = asked.turn_degrees.map(fits).transpose()?;
    let (speed, wide) = (asked.speed.as_f64(), size_mm(asked.image)[0]);
    let (across, seconds) = (angle(wide, lens), frames / speed);
    let turn_seconds = turn.map(|turn| turn * seconds / across);
    let value = PanSpeed {
        degrees_a_second: across / seconds,
        seconds_across: seconds,
        step_mm: wide / frames,
        turn_seconds,
        // At most 3,600 degrees of 10,000 frames each for the narrowest picture.
        turn_frames: turn_seconds.map(|seconds| (seconds * speed - 1e-9).ceil() as u32),
    };
    let mut sums = sums(&value, frames, speed, across);
    if let (Some(turn), Some(seconds)) = (turn, value.turn_seconds) {
        sums.push(OpenedSum {
            what: "the whole pan",
            formula: "degrees ÷ degrees a second",
            figures: format!(
                "{} ÷ {}",
                figure(turn, 1),
                figure(value.degrees_a_second, 3)
            ),
            comes: format!("{} s", figure(seconds, 1)),
            source: "the pan being even; begin and end add to it",
        });
    }
    let taken = vec![
        image_taken(asked.image),
        "a thing crosses the picture in 168 frames or more: a rule to begin with, not a wall; what the eye follows may go faster".to_owned(),
    ];
    Ok(Reckoned { value, sums, taken })
}

fn sums(found: &PanSpeed, frames: f64, speed: f64, across: f64) -> Vec<OpenedSum> {
    vec![
        OpenedSum {
            what: "time across the picture",
            formula: "frames across ÷ speed",
            figures: format!("{} ÷ {}", figure(frames, 0), figure(speed, 3)),
            comes: format!("{} s", figure(found.seconds_across, 2)),
            source: "7 s at 24 f/s are 168 frames: tutorials of two makers of cameras",
        },
        OpenedSum {
            what: "speed of the pan",
            formula: "angle across ÷ time across",
            figures: format!(
                "{} ÷ {} s",
                degrees(across),
                figure(found.seconds_across, 2)
            ),
            comes: format!("{}° a second", figure(found.degrees_a_second, 2)),
            source: "angle across = 2 × arctan(image ÷ (2 × lens))",
        },
    ]
}
