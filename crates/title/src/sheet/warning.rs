//! What to look out for on an exposure sheet.

use crate::sheet::asked::{Exposing, ExposureAsked, LettersBy};
use crate::sheet::need::RollNeed;

/// What to look out for on an exposure sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum SheetWarning {
    /// Without a blank cel the artwork is darker under the lettering.
    Darkens {
        /// By how much. Unit: stops.
        stops: f64,
    },
    /// The film is to be wound back further than the camera does.
    WindsBack {
        /// Frames.
        frames: u32,
        /// The most the camera winds back. Unit: frames.
        most: u32,
    },
    /// Running and single frames follow each other, and nobody said how long each gets
    /// light.
    TimesUnknown,
    /// The camera starts anew within the card: the first frame of a run is often lighter.
    StartsWithin {
        /// How often it starts.
        starts: u32,
    },
}

/// How much darker the ground becomes under one more cel. Unit: stops.
///
/// Source: density is the decimal logarithm of the light kept back, a stop the binary one.
///
/// ```
/// # use onestrand_title::darkening_stops;
/// assert_eq!(format!("{:.2}", darkening_stops(0.04)), "0.13");
/// ```
#[must_use]
pub fn darkening_stops(density: f64) -> f64 {
    density * std::f64::consts::LOG2_10
}

pub(crate) fn warnings(
    asked: &ExposureAsked,
    need: &RollNeed,
    runs: u32,
    is_mixed: bool,
) -> Vec<SheetWarning> {
    let mut all = Vec::new();
    let is_bare = asked.before + asked.after > 0 && !asked.blank_cel;
    if is_bare && asked.letters_by == LettersBy::Cel && asked.cel_density > 0.0 {
        all.push(SheetWarning::Darkens {
            stops: darkening_stops(asked.cel_density),
        });
    }
    if let Some(most) = asked.wind_back_most.filter(|most| need.wound_back > *most) {
        all.push(SheetWarning::WindsBack {
            frames: need.wound_back,
            most,
        });
    }
    if asked.exposing == Exposing::Running {
        if is_mixed && asked.times.is_none() {
            all.push(SheetWarning::TimesUnknown);
        }
        if runs > 1 {
            all.push(SheetWarning::StartsWithin { starts: runs });
        }
    }
    all
}
