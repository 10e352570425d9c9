//! How much rather two outlines are of one gate than of two.

use crate::gate::GateOutline;
use crate::laid::lay;
use crate::median::median;

/// Two outlines of one gate differ at least so much: it is what light spreading in the
/// emulsion and the scanner's own focus leave. Unit: thousandths of the width.
const LEAST_FLOOR: f32 = 0.2;
/// Gates of two cameras differ about so much, all equally probable. Unit: as above.
const GATES_DIFFER: [f32; 4] = [0.5, 1.0, 2.0, 4.0];
/// Neighbouring places of an edge are not news to each other: of what they say together so
/// much is believed. Tuned on planted rolls.
const BELIEVED: f64 = 0.12;
/// One place says at most so much, so that a hair does not outvote the gate.
const MOST: f32 = 3.0;

/// How far outlines of one gate differ, beyond the error each place has of its own: out of
/// the two halves of each shot.
pub(crate) fn floor_of<'a>(halves: impl Iterator<Item = &'a (GateOutline, GateOutline)>) -> f32 {
    let mut floors = Vec::new();
    for (first, second) in halves {
        let Some(laid) = lay(first, second, LEAST_FLOOR) else {
            continue;
        };
        let mut squares: Vec<f32> = laid.rests.iter().map(|(rest, _)| rest * rest).collect();
        // The median of a squared normal deviation is 0.455 of its variance; two outlines
        // share it, and each half has half the frames.
        floors.push((median(&mut squares) / 0.455 / 2.0 / 2.0).sqrt());
    }
    median(&mut floors).max(LEAST_FLOOR)
}

/// How much rather two outlines are of one gate than of two, as a natural logarithm; nothing
/// where they have too little in common.
pub(crate) fn likeness_of(a: &GateOutline, b: &GateOutline, floor: f32) -> Option<f64> {
    let laid = lay(a, b, floor)?;
    let for_two = GATES_DIFFER.map(|differ| {
        let sum: f64 = laid
            .rests
            .iter()
            .map(|&(rest, v)| two(rest, v, differ))
            .sum();
        sum * BELIEVED
    });
    // The mean of what each way of being two says.
    let most = for_two.into_iter().fold(f64::MIN, f64::max);
    let mean = for_two.iter().map(|s| (s - most).exp()).sum::<f64>() / for_two.len() as f64;
    Some(-(most + mean.ln()))
}

/// How much rather one rest is of two gates that differ so much than of one.
fn two(rest: f32, variance: f32, differ: f32) -> f64 {
    let wide = variance + 2.0 * differ * differ;
    let gain = 0.5 * ((variance / wide).ln() + rest * rest * (1.0 / variance - 1.0 / wide));
    f64::from(gain.min(MOST))
}
