//! How much rather shots are on one stock than on two.

use crate::stock::StockSeen;

/// Borders of one stock differ so much from shot to shot: development, the scanner's lamp.
/// Unit: levels.
const SAME: f64 = 1.6;
/// Borders of two stocks differ about so much. Unit: levels.
const TWO: f64 = 9.0;
/// Grain of one stock differs so much from shot to shot, and of two so much. Unit: natural
/// logarithm.
const GRAIN: (f64, f64) = (0.16, 0.5);
/// Of what all of it says so much is believed. Tuned on planted rolls.
const BELIEVED: f64 = 0.5;

/// How much rather two groups of shots are of one stock, as a natural logarithm.
pub(crate) fn stock_likeness(a: &[&StockSeen], b: &[&StockSeen]) -> Option<f64> {
    let tone = |group: &[&StockSeen], channel: usize| {
        mean(
            group
                .iter()
                .filter_map(|s| Some(f64::from(s.border?[channel]))),
        )
    };
    let error = |group: &[&StockSeen]| {
        let squares = group
            .iter()
            .map(|s| f64::from(s.border_error).powi(2) + SAME * SAME);
        squares.sum::<f64>() / (group.len() * group.len()) as f64
    };
    let mut sum = 0.0;
    for channel in 0..3 {
        let rest = tone(a, channel)? - tone(b, channel)?;
        sum += one(rest, error(a) + error(b), 2.0 * TWO * TWO);
    }
    let grain = |group: &[&StockSeen]| mean(group.iter().filter_map(|s| s.grain.map(f64::from)));
    if let Some(rest) = grain(a).zip(grain(b)).map(|(a, b)| a - b) {
        let (same, two) = (GRAIN.0 * GRAIN.0, GRAIN.1 * GRAIN.1);
        let shared = same / a.len() as f64 + same / b.len() as f64;
        sum += one(rest, shared, 2.0 * two);
    }
    Some(sum * BELIEVED)
}

fn mean(values: impl Iterator<Item = f64>) -> Option<f64> {
    let (sum, count) = values.fold((0.0, 0.0), |(sum, count), v| (sum + v, count + 1.0));
    (count > 0.0).then(|| sum / count)
}

/// How much rather a difference is of one stock than of two.
fn one(rest: f64, same: f64, two: f64) -> f64 {
    let wide = same + two;
    let gain = 0.5 * ((wide / same).ln() - rest * rest * (1.0 / same - 1.0 / wide));
    gain.max(-8.0)
}
