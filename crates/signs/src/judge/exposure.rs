//! Light against the take's middle.

use super::flicker::{peak_to_peak, quick_part};
use crate::limits::SignLimits;
use crate::record::{SignRecord, Take};
use crate::sign::{Sign, SignKind};
use crate::spans::{RunRule, greatest, middle, middles, runs, share};

/// First frames of a take, which the camera's start lights: a flash is no
/// fault of exposure.
const START: usize = 3;
/// Frames to either side that steady the light: flicker is told apart.
const STEADY: usize = 2;

/// A change of exposure is at least this part of the take's flicker.
const OVER_FLICKER: f32 = 0.8;

pub(super) fn of_take(record: &SignRecord, take: &Take, limits: &SignLimits) -> Vec<Sign> {
    let first = (take.span.start + START).min(take.span.end);
    let span = first..take.span.end;
    let lights: Vec<f32> = record.frames[span.clone()]
        .iter()
        .map(|frame| frame.light)
        .collect();
    // Strong flicker must not look like a change of exposure.
    let flicker = peak_to_peak(&quick_part(&lights)).max(0.0);
    let limit = limits.stops_off.max(OVER_FLICKER * flicker);
    let lights = middles(&lights, STEADY);
    let usual = middle(lights.iter().copied());
    let off: Vec<f32> = lights.iter().map(|light| light - usual).collect();
    let rule = RunRule {
        enter: limit,
        stay: 0.6 * limit,
        gap: STEADY,
        shortest: limits.shortest_part as usize,
    };
    let mut signs = Vec::new();
    for (kind, sense) in [(SignKind::Over, 1.0), (SignKind::Under, -1.0)] {
        let this_way: Vec<f32> = off.iter().map(|off| sense * off).collect();
        for part in runs(&this_way, first, rule) {
            let of = |at: usize| this_way[at - first];
            let most = greatest(part.clone(), of);
            let near_middle = greatest(span.clone(), |at| -of(at).abs());
            // The brighter or darker half of the part.
            let measure = sense * share(part.clone().map(of), 0.67);
            let mut sign = Sign::new(kind, part, measure).beside(most, near_middle);
            sign.clipped = most
                .filter(|_| kind == SignKind::Over)
                .map(|at| record.frames[at].white);
            signs.push(sign);
        }
    }
    signs
}
