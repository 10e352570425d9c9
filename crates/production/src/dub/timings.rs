//! Machines out of timings in a CSV form.

use std::path::Path;

use onestrand_dub::{DubError, Tap, Timing, fit_projector, fit_tape};
use serde::Serialize;

use crate::ProductionError;
use crate::error::unfit;
use crate::table::Table;

/// When a frame will come.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PredictedDocument {
    /// The running frame.
    pub frame: u32,
    /// When. Unit: seconds.
    pub seconds: f64,
    /// Half the range that holds 95 of 100. Unit: frames; nothing where no more timings
    /// than unknowns were there.
    pub error_frames: Option<f64>,
}

/// A projector out of its timings.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ProjectorDocument {
    /// Frames a second; with creep at the last timing.
    pub speed: f64,
    /// Half the range that holds 95 of 100; nothing where it cannot be told.
    pub speed_error: Option<f64>,
    /// Its standard error.
    pub standard_error: f64,
    /// How far the timings lie off. Unit: frames.
    pub residual_frames: f64,
    /// With creep: the speed at the first timing.
    pub speed_at_first: f64,
    /// When frames will come.
    pub predict: Vec<PredictedDocument>,
}

/// When the counter says so much.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CountDocument {
    /// What it says.
    pub count: f64,
    /// When. Unit: seconds.
    pub seconds: f64,
}

/// A tape machine out of its timings: T = aC + bC².
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TapeDocument {
    /// Seconds a count on the bare hub.
    pub a: f64,
    /// Seconds a count squared.
    pub b: f64,
    /// How far the timings lie off. Unit: seconds.
    pub residual_seconds: f64,
    /// When the counter will say so much.
    pub predict: Vec<CountDocument>,
}

/// Fits a projector to the timings `frame,seconds` of a form.
///
/// # Errors
/// [`ProductionError::Import`] with every problem of the form; [`ProductionError::Unfit`]
/// where no projector fits.
pub fn projector_of_timings(
    path: &Path,
    creep: bool,
    predict: &[u32],
) -> Result<ProjectorDocument, ProductionError> {
    let taps: Vec<Tap> = pairs(path, "frame")?
        .into_iter()
        .map(|(frame, seconds)| Tap { frame, seconds })
        .collect();
    let fit = fit_projector(&taps, creep).map_err(no_machine)?;
    let known = |error: f64| error.is_finite().then_some(error);
    let predict = predict.iter().map(|frame| {
        let found = fit.predict(f64::from(*frame));
        PredictedDocument {
            frame: *frame,
            seconds: round(found.seconds, 3),
            error_frames: known(found.error_frames).map(|error| round(error, 2)),
        }
    });
    Ok(ProjectorDocument {
        predict: predict.collect(),
        speed: round(fit.speed, 4),
        speed_error: known(fit.speed_error).map(|error| round(error, 4)),
        standard_error: round(fit.standard_error, 4),
        residual_frames: round(fit.residual_frames, 3),
        speed_at_first: round(fit.speed_at_first, 4),
    })
}

/// Fits a tape machine to the timings `count,seconds` of a form.
///
/// # Errors
/// As [`projector_of_timings`].
pub fn tape_of_timings(path: &Path, predict: &[f64]) -> Result<TapeDocument, ProductionError> {
    let timings: Vec<Timing> = pairs(path, "count")?
        .into_iter()
        .map(|(count, seconds)| Timing { count, seconds })
        .collect();
    let fit = fit_tape(&timings).map_err(no_machine)?;
    let predict = predict.iter().map(|count| CountDocument {
        count: *count,
        seconds: round(fit.seconds(*count), 2),
    });
    Ok(TapeDocument {
        predict: predict.collect(),
        a: round(fit.a, 6),
        b: round(fit.b, 8),
        residual_seconds: round(fit.residual_s, 3),
    })
}

fn no_machine(why: DubError) -> ProductionError {
    unfit(why.to_string(), why.hint())
}

fn round(value: f64, digits: i32) -> f64 {
    let ten = 10_f64.powi(digits);
    (value * ten).round() / ten
}

/// The rows of a form of two columns, the second in seconds.
fn pairs(path: &Path, first: &'static str) -> Result<Vec<(f64, f64)>, ProductionError> {
    pairs_of(Table::read(path, &[first, "seconds"])?, first)
}

/// Timings of a tape's counter out of the text of a form `count,seconds`.
///
/// # Errors
/// [`ProductionError::Import`] with every problem of the form.
pub(crate) fn timings_of_text(text: &str) -> Result<Vec<(f64, f64)>, ProductionError> {
    let (name, wanted) = (Path::new("timings"), ["count", "seconds"]);
    let table = Table::wanting(name, text.as_bytes().to_vec(), &wanted)?;
    pairs_of(table, "count")
}

fn pairs_of(mut table: Table, first: &'static str) -> Result<Vec<(f64, f64)>, ProductionError> {
    let mut problems = Vec::new();
    let number = |text: &str| {
        let read = text.trim().replace(',', ".").parse::<f64>();
        read.ok()
            .filter(|n| n.is_finite() && *n >= 0.0)
            .ok_or_else(|| format!("{text:?} is no number of 0 or more"))
    };
    let mut rows = Vec::new();
    for line in table.lines() {
        let one = line.parse(first, &mut problems, number);
        let two = line.parse("seconds", &mut problems, number);
        rows.extend(one.zip(two));
    }
    table.add_problems(problems);
    table.sound()?;
    Ok(rows)
}
