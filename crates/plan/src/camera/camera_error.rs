//! What no camera, lens or day can be.

/// Why a calculator cannot answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum CameraError {
    /// A figure that cannot be.
    #[error("{what} is {found}, outside {min} to {max}")]
    OutOfRange {
        /// Which figure, with its unit.
        what: &'static str,
        /// What was said.
        found: f64,
        /// The least that can be.
        min: f64,
        /// The most that can be.
        max: f64,
        /// What to do.
        hint: &'static str,
    },
    /// The lens cannot be focused so near.
    #[error("the lens focuses no nearer than {nearest_mm:.0} mm, and {distance_mm:.0} mm is asked")]
    TooNear {
        /// What was asked. Unit: millimetres from the lens.
        distance_mm: f64,
        /// The nearest. Unit: millimetres from the lens.
        nearest_mm: f64,
        /// The power of the close-up lens that would reach there. Unit: dioptres.
        dioptres: f64,
    },
    /// What is said does not suffice, or says one thing twice.
    #[error("{message}")]
    Unsaid {
        /// What is wanted.
        message: &'static str,
        /// What to say.
        hint: &'static str,
    },
    /// No such day in the calendar.
    #[error("there is no day {year:04}-{month:02}-{day:02}")]
    NoSuchDay {
        /// The year.
        year: i32,
        /// The month, 1 to 12.
        month: u32,
        /// The day of the month.
        day: u32,
    },
    /// No way from the bands in the picture to a speed near the one set.
    #[error("no speed within a quarter of {set} f/s gives {bands} bands in {frames} frames")]
    NoSuchBands {
        /// What the camera is set to. Unit: frames a second.
        set: f64,
        /// Bands counted.
        bands: f64,
        /// Frames over which they were counted.
        frames: f64,
    },
    /// A wedge with too few takes between too dark and too light.
    #[error("{usable} of {takes} takes can be used, and a line wants at least 3")]
    TooFewTakes {
        /// Takes that are neither too dark nor too light.
        usable: usize,
        /// Takes in the row.
        takes: usize,
    },
    /// A wedge whose pictures do not grow lighter with more light.
    #[error("the takes do not grow lighter as they were given more light")]
    NotAWedge,
}

impl CameraError {
    /// A stable name for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::OutOfRange { .. } => "camera.out_of_range",
            Self::TooNear { .. } => "camera.too_near",
            Self::Unsaid { .. } => "camera.unsaid",
            Self::NoSuchDay { .. } => "camera.no_such_day",
            Self::NoSuchBands { .. } => "camera.no_such_bands",
            Self::TooFewTakes { .. } => "camera.too_few_takes",
            Self::NotAWedge => "camera.not_a_wedge",
        }
    }

    /// The next step, in the user's words.
    #[must_use]
    pub fn hint(&self) -> String {
        match self {
            Self::OutOfRange { hint, .. } | Self::Unsaid { hint, .. } => (*hint).to_owned(),
            Self::TooNear { dioptres, .. } => format!(
                "stand further off, or put a close-up lens of +{dioptres:.1} or the next stronger before it"
            ),
            Self::NoSuchDay { .. } => "write the day as 2026-06-21".to_owned(),
            Self::NoSuchBands { .. } => {
                "count the dark bands that pass one place again, or say the mains: 50 or 60 Hz"
                    .to_owned()
            }
            Self::TooFewTakes { .. } => {
                "shoot the row again with steps of half a stop, from two under to two over"
                    .to_owned()
            }
            Self::NotAWedge => {
                "check that the stops stand in the order of the takes, + for more light".to_owned()
            }
        }
    }
}

/// A figure and the bounds in which it can be.
pub(crate) fn within(
    what: &'static str,
    found: f64,
    (min, max): (f64, f64),
    hint: &'static str,
) -> Result<f64, CameraError> {
    // What is not a number lies in no range.
    if (min..=max).contains(&found) {
        return Ok(found);
    }
    Err(CameraError::OutOfRange {
        what,
        found,
        min,
        max,
        hint,
    })
}

/// A taking lens. Unit: millimetres. Range: 1 to 2,000.
pub(crate) fn lens_fits(lens_mm: f64) -> Result<f64, CameraError> {
    let hint = "the focal length stands on the front of the lens, such as 12.5 mm";
    within("the lens in mm", lens_mm, (1.0, 2_000.0), hint)
}

/// From the lens to what is shown. Unit: millimetres. Range: 1 mm to 10 km.
pub(crate) fn distance_fits(distance_mm: f64) -> Result<f64, CameraError> {
    let hint = "measure from the front of the lens, such as 3m";
    within("the distance in mm", distance_mm, (1.0, 1e7), hint)
}

/// A stop. Range: f/0.5 to f/128.
pub(crate) fn stop_fits(stop: f64) -> Result<f64, CameraError> {
    let hint = "the stop is the number on the ring, such as 5.6";
    within("the stop", stop, (0.5, 128.0), hint)
}
