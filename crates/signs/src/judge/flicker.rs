//! Light that changes from frame to frame, take by take.

use crate::limits::SignLimits;
use crate::record::{SignRecord, Take};
use crate::sign::{Sign, SignKind};
use crate::spans::{greatest, middles, share};

/// Frames to either side whose middle is the light without flicker.
const SLOW: usize = 6;
/// First frames of a take, which the camera's start lights.
const START: usize = 3;
/// Shortest take that is asked.
const SHORTEST: usize = 18;
/// Share of the frames that may be anything at either end: lightning, a
/// hand.
const STRAY: f32 = 0.04;

/// Light without its slow changes.
pub(super) fn quick_part(lights: &[f32]) -> Vec<f32> {
    let slow = middles(lights, SLOW);
    lights.iter().zip(&slow).map(|(a, b)| a - b).collect()
}

/// From nearly the least to nearly the greatest.
pub(super) fn peak_to_peak(quick: &[f32]) -> f32 {
    let at = |part: f32| share(quick.iter().copied(), part);
    at(1.0 - STRAY) - at(STRAY)
}

pub(super) fn of_take(record: &SignRecord, take: &Take, limits: &SignLimits) -> Option<Sign> {
    let span = take.span.start + START..take.span.end;
    if span.len() < SHORTEST {
        return None;
    }
    let lights: Vec<f32> = record.frames[span.clone()]
        .iter()
        .map(|frame| frame.light)
        .collect();
    let quick = quick_part(&lights);
    let peaks = peak_to_peak(&quick);
    if peaks.is_nan() || peaks < limits.flicker_above {
        return None;
    }
    let of = |at: usize| quick[at - span.start];
    let lightest = greatest(span.clone(), of);
    let darkest = greatest(span.clone(), |at| -of(at));
    Some(Sign::new(SignKind::Flicker, take.span.clone(), peaks).beside(lightest, darkest))
}
