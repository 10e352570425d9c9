//! A line of the exposure sheet, and the sheet.

use crate::sheet::asked::{Exposing, ExposureTimes};
use crate::sheet::need::RollNeed;
use crate::sheet::warning::SheetWarning;

/// What lies under the cels.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Background {
    /// The artwork or plain ground.
    Ground,
    /// The card on which ground and lettering are one.
    Card,
    /// Black, for white letters.
    Black,
    /// The other card of a dissolve.
    Next,
}

/// What lies on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CelIn {
    /// Nothing.
    None,
    /// A clear cel.
    Blank,
    /// The cel with the lettering.
    Lettered,
    /// A further cel that lies in all along.
    Second,
}

/// One line: frames that are exposed alike.
#[derive(Debug, Clone, PartialEq)]
pub struct ExposureLine {
    /// From 1; each further one begins after winding back.
    pub pass: u32,
    /// The first frame, counted from 0 of the card.
    pub from: u32,
    /// The first frame after it.
    pub to: u32,
    /// What lies under the cels.
    pub background: Background,
    /// The cel on it.
    pub cel_1: CelIn,
    /// The cel on that.
    pub cel_2: CelIn,
    /// Where the ground lies on `from`, east and south. Unit: millimetres.
    pub art_mm: (f64, f64),
    /// How far it is moved before each frame after that. Unit: millimetres.
    pub art_step_mm: (f64, f64),
    /// Where the lettering lies on `from`, east and south. Unit: millimetres.
    pub letters_mm: (f64, f64),
    /// How far it is moved before each frame after that. Unit: millimetres.
    pub letters_step_mm: (f64, f64),
    /// Light against the right exposure; none where the lens stays shut. Unit: stops.
    pub stops: Option<f64>,
    /// How its frames are exposed.
    pub exposing: Exposing,
    /// How far the iris is set off for that way of exposing, below 0 for closed. Unit:
    /// stops.
    pub iris_stops: f64,
}

impl ExposureLine {
    /// Its frames.
    #[must_use]
    pub const fn frames(&self) -> u32 {
        self.to - self.from
    }

    /// Part of the right exposure, as a variable shutter is set. Range: 0 to 1.
    #[must_use]
    pub fn part(&self) -> f64 {
        self.stops.map_or(0.0, f64::exp2)
    }

    /// Cels that lie on the background.
    #[must_use]
    pub fn cels(&self) -> u32 {
        let lies = |cel: CelIn| u32::from(cel != CelIn::None);
        lies(self.cel_1) + lies(self.cel_2)
    }
}

/// What is done frame by frame to put a title on film.
#[derive(Debug, Clone, PartialEq)]
pub struct ExposureSheet {
    /// Frames of one take, without its run-up.
    pub frames: u32,
    /// How often the film runs through for one take.
    pub passes: u32,
    /// The lines, pass by pass; within each by frames, without a hole between its first
    /// and its last.
    pub lines: Vec<ExposureLine>,
    /// Density of one cel.
    pub cel_density: f64,
    /// Cels through which the exposure was found: those that lie there with the lettering.
    pub cels_reckoned: u32,
    /// The exposure times, where they are known.
    pub times: Option<ExposureTimes>,
    /// What it needs of the roll.
    pub need: RollNeed,
    /// What to look out for.
    pub warnings: Vec<SheetWarning>,
}
