//! Commands about what the camera can do.

use std::path::PathBuf;

use clap::{Args, Subcommand};

/// What the camera can do; each answer with its sum opened.
#[derive(Debug, Subcommand)]
pub(crate) enum Camera {
    /// What a lens takes in.
    Field(CameraField),
    /// Which lens, distance or view of a standing person: two make the third.
    Framing(CameraFraming),
    /// From where to where it is sharp, and the hyperfocal distance.
    Depth(CameraDepth),
    /// Close-up lenses: how far away, and what fills the picture.
    Closeup(CameraCloseup),
    /// How long a frame gets light, from shutter and speed.
    Exposure(CameraExposure),
    /// Which stop for which light, or which light for which stop.
    Ev(CameraEv),
    /// How far a filter must turn the light, in mired.
    Filter(CameraFilter),
    /// How fast a pan may be.
    Pan(CameraPan),
    /// How slowly the camera ran at a flash frame.
    Flash(CameraFlash),
    /// Where the sun stands, rise and set, golden light, and what is left of the day.
    Sun(CameraSun),
    /// The camera's true speed, by lamp, turntable or pendulum in the picture.
    Speed(Box<CameraSpeed>),
    /// The meter's error, from a bracketed row of takes.
    Wedge(CameraWedge),
}

#[derive(Debug, Args)]
pub(crate) struct CameraField {
    /// regular8, super8, 9.5, 16 or 35.
    #[arg(long)]
    pub(crate) gauge: String,
    /// The lens in mm.
    #[arg(long, value_name = "MM")]
    pub(crate) lens: f64,
    /// How far it is: 3m.
    #[arg(long, value_name = "LENGTH")]
    pub(crate) distance: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct CameraFraming {
    /// regular8, super8, 9.5, 16 or 35.
    #[arg(long)]
    pub(crate) gauge: String,
    /// long, full, medium, medium-close, close or extreme-close.
    #[arg(long)]
    pub(crate) size: Option<String>,
    /// The height that fills the picture instead of a size: 65cm.
    #[arg(long, value_name = "LENGTH")]
    pub(crate) height: Option<String>,
    /// The lens in mm.
    #[arg(long, value_name = "MM")]
    pub(crate) lens: Option<f64>,
    /// How far the person is: 3m.
    #[arg(long, value_name = "LENGTH")]
    pub(crate) distance: Option<String>,
    /// How high the person is.
    #[arg(long, value_name = "LENGTH", default_value = "1.7m")]
    pub(crate) person: String,
}

#[derive(Debug, Args)]
pub(crate) struct CameraDepth {
    /// regular8, super8, 9.5, 16 or 35.
    #[arg(long)]
    pub(crate) gauge: String,
    /// The lens in mm.
    #[arg(long, value_name = "MM")]
    pub(crate) lens: f64,
    /// The stop: 5.6.
    #[arg(long)]
    pub(crate) stop: f64,
    /// What it is focused on: 3m.
    #[arg(long, value_name = "LENGTH")]
    pub(crate) distance: String,
    /// The spot that passes for a point, in mm; the gauge's usual one when not said.
    #[arg(long, value_name = "MM")]
    pub(crate) circle: Option<f64>,
    /// The nearest mark on the lens: 1.2m.
    #[arg(long, value_name = "LENGTH")]
    pub(crate) nearest: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct CameraCloseup {
    /// regular8, super8, 9.5, 16 or 35.
    #[arg(long)]
    pub(crate) gauge: String,
    /// The lens in mm.
    #[arg(long, value_name = "MM")]
    pub(crate) lens: f64,
    /// The power in dioptres; several before each other with commas: 1,2.
    #[arg(long, value_name = "POWERS")]
    pub(crate) dioptres: String,
    /// What the lens is set to; infinity when not said.
    #[arg(long, value_name = "LENGTH")]
    pub(crate) focus: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct CameraExposure {
    /// The opening of the shutter in degrees.
    #[arg(long, value_name = "DEGREES")]
    pub(crate) shutter: f64,
    /// Frames a second.
    #[arg(long, default_value = "18")]
    pub(crate) speed: String,
    /// The stop, where an exposure value is wanted.
    #[arg(long)]
    pub(crate) stop: Option<f64>,
    /// Another speed, to tell how much more or less light a frame gets.
    #[arg(long, value_name = "SPEED")]
    pub(crate) was_speed: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct CameraEv {
    /// The exposure time: 1/50. Or say shutter and speed.
    #[arg(long)]
    pub(crate) time: Option<String>,
    /// The opening of the shutter in degrees.
    #[arg(long, value_name = "DEGREES")]
    pub(crate) shutter: Option<f64>,
    /// Frames a second.
    #[arg(long)]
    pub(crate) speed: Option<String>,
    /// The speed of the film.
    #[arg(long)]
    pub(crate) iso: f64,
    /// Light that filters take away, in stops.
    #[arg(long, value_name = "STOPS")]
    pub(crate) filter_stops: Option<f64>,
    /// The stop, to learn the light.
    #[arg(long)]
    pub(crate) stop: Option<f64>,
    /// The exposure value at ISO 100, to learn the stop.
    #[arg(long, value_name = "EV", allow_hyphen_values = true)]
    pub(crate) ev100: Option<f64>,
    /// The light on the subject in lux, to learn the stop.
    #[arg(long)]
    pub(crate) lux: Option<f64>,
    /// The light from the subject in cd/m2, to learn the stop.
    #[arg(long)]
    pub(crate) candelas: Option<f64>,
}

#[derive(Debug, Args)]
pub(crate) struct CameraFilter {
    /// The light there is, in kelvins: 5500.
    #[arg(long, value_name = "KELVINS")]
    pub(crate) from: f64,
    /// The light the film wants, in kelvins: 3400.
    #[arg(long, value_name = "KELVINS")]
    pub(crate) to: f64,
}

#[derive(Debug, Args)]
pub(crate) struct CameraPan {
    /// regular8, super8, 9.5, 16 or 35.
    #[arg(long)]
    pub(crate) gauge: String,
    /// The lens in mm.
    #[arg(long, value_name = "MM")]
    pub(crate) lens: f64,
    /// Frames a second.
    #[arg(long, default_value = "18")]
    pub(crate) speed: String,
    /// How far is to be panned, in degrees.
    #[arg(long, value_name = "DEGREES")]
    pub(crate) turn: Option<f64>,
    /// Frames in which a thing may cross the picture: 168 are 7 s at 24 a second.
    #[arg(long, value_name = "FRAMES")]
    pub(crate) frames_across: Option<f64>,
}

#[derive(Debug, Args)]
pub(crate) struct CameraFlash {
    /// How much lighter the frame is, in stops.
    #[arg(long, allow_hyphen_values = true)]
    pub(crate) stops: f64,
    /// The speed of the frames after it.
    #[arg(long, default_value = "18")]
    pub(crate) speed: String,
}

#[derive(Debug, Args)]
pub(crate) struct CameraSun {
    /// North of the equator: 52.5, -33.9 or 33°52'S.
    #[arg(long, allow_hyphen_values = true)]
    pub(crate) latitude: String,
    /// East of Greenwich: 13.4 or 71°30'W.
    #[arg(long, allow_hyphen_values = true)]
    pub(crate) longitude: String,
    /// The day: 2026-06-21.
    #[arg(long)]
    pub(crate) date: String,
    /// The hour by the clock of the place.
    #[arg(long, default_value = "12:00")]
    pub(crate) hour: String,
    /// How far that clock is before Greenwich: +1, -3:30.
    #[arg(long, value_name = "HOURS", allow_hyphen_values = true)]
    pub(crate) clock: String,
    /// Light is golden from this height of the sun on, in degrees; -4 when not said.
    #[arg(long, value_name = "DEGREES", allow_hyphen_values = true)]
    pub(crate) golden_from: Option<f64>,
    /// Light is golden up to this height of the sun, in degrees; 6 when not said.
    #[arg(long, value_name = "DEGREES", allow_hyphen_values = true)]
    pub(crate) golden_to: Option<f64>,
}

#[derive(Debug, Args)]
pub(crate) struct CameraSpeed {
    /// What the camera is set to, in frames a second.
    #[arg(long, default_value = "18")]
    pub(crate) set: String,
    /// The mains in hertz; 50 when not said.
    #[arg(long, value_name = "HERTZ")]
    pub(crate) mains: Option<f64>,
    /// How far the mains may be off; 0.1 when not said.
    #[arg(long, value_name = "HERTZ")]
    pub(crate) mains_error: Option<f64>,
    /// Dark bands of a lamp that passed one place of the picture.
    #[arg(long)]
    pub(crate) bands: Option<f64>,
    /// How far that count may be off; 1 when not said.
    #[arg(long, value_name = "BANDS")]
    pub(crate) bands_error: Option<f64>,
    /// Frames over which they passed.
    #[arg(long, value_name = "FRAMES")]
    pub(crate) bands_frames: Option<f64>,
    /// The turntable in turns a minute; 33⅓ when not said.
    #[arg(long, value_name = "TURNS")]
    pub(crate) turntable: Option<f64>,
    /// How far the turntable may be off, in per cent; 0.5 when not said.
    #[arg(long, value_name = "PERCENT")]
    pub(crate) turntable_error: Option<f64>,
    /// Turns of it that were counted.
    #[arg(long)]
    pub(crate) turns: Option<f64>,
    /// Frames over which they were counted.
    #[arg(long, value_name = "FRAMES")]
    pub(crate) turns_frames: Option<f64>,
    /// The pendulum's length, from the hand to the middle of the weight: 99.4cm.
    #[arg(long, value_name = "LENGTH")]
    pub(crate) pendulum: Option<String>,
    /// How far the length may be off; 5mm when not said.
    #[arg(long, value_name = "LENGTH")]
    pub(crate) pendulum_error: Option<String>,
    /// How far it swings to one side, in degrees; 5 when not said.
    #[arg(long, value_name = "DEGREES")]
    pub(crate) swing: Option<f64>,
    /// Swings there and back that were counted.
    #[arg(long)]
    pub(crate) swings: Option<f64>,
    /// Frames over which they were counted.
    #[arg(long, value_name = "FRAMES")]
    pub(crate) swings_frames: Option<f64>,
    /// How far counts of frames may be off; 1 when not said.
    #[arg(long, value_name = "FRAMES")]
    pub(crate) frames_error: Option<f64>,
    /// Gravity in m/s2; 9.80665 when not said.
    #[arg(long)]
    pub(crate) gravity: Option<f64>,
}

#[derive(Debug, Args)]
pub(crate) struct CameraWedge {
    /// The production, where the takes are on a roll that was read.
    #[arg(requires = "roll", conflicts_with = "light")]
    pub(crate) dir: Option<PathBuf>,
    /// The roll.
    #[arg(long, requires = "dir")]
    pub(crate) roll: Option<String>,
    /// The first take of the row, counted from 1 on the roll.
    #[arg(long, value_name = "TAKE", requires = "roll")]
    pub(crate) first_take: Option<usize>,
    /// How each take was set against the meter, in stops: --set "-1 -0.5 0 0.5 1".
    #[arg(long, value_name = "STOPS", allow_hyphen_values = true)]
    pub(crate) set: String,
    /// The light of each picture in stops, x where it is clipped: measured elsewhere.
    #[arg(
        long,
        value_name = "STOPS",
        allow_hyphen_values = true,
        required_unless_present = "dir"
    )]
    pub(crate) light: Option<String>,
    /// The light of a right picture in stops; -2.474, a grey card, when not said.
    #[arg(long, value_name = "STOPS", allow_hyphen_values = true)]
    pub(crate) right: Option<f64>,
}
