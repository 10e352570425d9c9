//! What is told of a projector while it runs.

/// Where it is now.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Live {
    /// The running frame in the gate; whole frames and the part of one.
    pub frame: f64,
    /// Half the range that holds it in 95 of 100 cases. Unit: frames.
    pub frame_error: f64,
    /// How fast it runs. Unit: frames a second.
    pub speed: f64,
    /// Half the range that holds that in 95 of 100 cases. Unit: frames a second.
    pub speed_error: f64,
    /// How much faster it will become as it warms. Unit: frames a second.
    pub still_to_come: f64,
    /// How late the hand taps. Unit: seconds.
    pub late: f64,
    /// Half the range of that. Unit: seconds.
    pub late_error: f64,
}

/// When a frame comes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Comes {
    /// The running frame.
    pub frame: f64,
    /// When, on the clock of the events. Unit: seconds.
    pub at: f64,
    /// Half the range that holds it in 95 of 100 cases. Unit: frames.
    pub error_frames: f64,
}

/// Why nothing can be told.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Lost {
    /// Nothing was seen yet.
    NotYet,
    /// It may be anywhere within so many frames.
    TooWide {
        /// Half the range that holds it in 95 of 100 cases. Unit: frames.
        frames: f64,
    },
    /// The taps can be read in two ways.
    TwoReadings {
        /// The frame by the likelier one.
        one: f64,
        /// The frame by the other.
        other: f64,
    },
    /// The taps fit no cut.
    Strays {
        /// How many one after the other.
        taps: usize,
    },
}

impl Lost {
    /// What is wrong, in words.
    #[must_use]
    pub fn words(&self) -> String {
        match self {
            Self::NotYet => "not known yet where the film is".to_owned(),
            Self::TooWide { frames } => format!("lost: it may be {frames:.0} frames off"),
            Self::TwoReadings { one, other } => {
                format!("two readings: frame {one:.0} or frame {other:.0}")
            }
            Self::Strays { taps } => format!("lost: {taps} taps one after the other fit no cut"),
        }
    }

    /// How to find it again.
    #[must_use]
    pub const fn next(&self) -> &'static str {
        match self {
            Self::NotYet => {
                "thread the start mark into the gate and press as the motor goes on, or tap as \
                 the first cut comes"
            }
            Self::TooWide { .. } | Self::TwoReadings { .. } => {
                "choose a cut that you know, and tap as it comes; or type what the counter says"
            }
            Self::Strays { .. } => {
                "look which picture is on the screen, choose the cut behind it, and tap as it \
                 comes; or type what the counter says"
            }
        }
    }
}
