//! The film's speed, and the cycle that follows from it.

use onestrand_film::Fps;

use crate::finder::CadenceSettings;

/// Speeds at which film is run: those of the projectors and telecines, and the
/// slowed ones of 59.94 fields (the-job.md's check values C001 to C050).
const USUAL: [(u64, u64); 11] = [
    (16, 1),
    (50, 3),
    (18, 1),
    (20, 1),
    (24, 1),
    (24_000, 1001),
    (18_000, 1001),
    (16_000, 1001),
    (25, 1),
    (15, 1),
    (12, 1),
];

/// How far positions may be off a straight line where a speed is even: whole
/// turns are by 0.29. Unit: film frames.
const EVEN: f64 = 0.32;
/// How far a usual speed may lead astray over all positions. Unit: film frames.
const ASTRAY: f64 = 0.25;
/// Longest cycle that is told. Unit: film frames.
const CYCLE_MOST: u64 = 64;
/// Film frames told where there is no cycle.
const NO_CYCLE: usize = 32;

/// Film frames a file frame over a stretch of positions. A usual speed is taken
/// where they lie on a straight line and it fits as well.
pub(crate) fn settled_step(positions: &[f64], settings: &CadenceSettings) -> f64 {
    let (slope, off) = line(positions);
    let close = (ASTRAY / positions.len().max(1) as f64).max(2e-5);
    let usual = candidates(settings)
        .map(|candidate| (candidate.1, (candidate.1 - slope).abs()))
        .filter(|(_, far)| *far < close)
        .min_by(|a, b| a.1.total_cmp(&b.1));
    match usual {
        Some((step, _)) if off < EVEN => step,
        _ => slope,
    }
}

/// The film's speed of a step: a usual one where it is as near as a roll can
/// tell, else to a hundredth.
pub(crate) fn film_speed(step: f64, settings: &CadenceSettings) -> Option<Fps> {
    let rate = settings.file_rate?.as_f64();
    let usual = candidates(settings)
        .filter(|(_, candidate)| (candidate - step).abs() < 5e-5)
        .min_by(|a, b| (a.1 - step).abs().total_cmp(&(b.1 - step).abs()));
    match usual {
        Some((speed, _)) => Some(speed),
        None => Fps::new((step * rate * 100.0).round() as u64, 100).ok(),
    }
}

fn candidates(settings: &CadenceSettings) -> impl Iterator<Item = (Fps, f64)> {
    let rate = settings.file_rate.map(Fps::as_f64);
    let usual = USUAL
        .iter()
        .filter_map(|(num, den)| Fps::new(*num, *den).ok());
    settings
        .film_speed
        .into_iter()
        .chain(usual)
        .filter_map(move |speed| Some((speed, speed.as_f64() / rate?)))
}

/// The slope of the line through positions, and how far they are off it (root
/// of the mean square).
fn line(positions: &[f64]) -> (f64, f64) {
    let count = positions.len() as f64;
    if positions.len() < 2 {
        return (1.0, 0.0);
    }
    let middle = (count - 1.0) / 2.0;
    let mean = positions.iter().sum::<f64>() / count;
    let along = |k: usize| k as f64 - middle;
    let spread: f64 = (0..positions.len()).map(|k| along(k) * along(k)).sum();
    let shared: f64 = positions
        .iter()
        .enumerate()
        .map(|(k, p)| along(k) * (p - mean))
        .sum();
    let slope = shared / spread;
    let off = positions
        .iter()
        .enumerate()
        .map(|(k, p)| (p - mean - slope * along(k)).powi(2))
        .sum::<f64>();
    (slope, (off / count).sqrt())
}

/// File frames of each film frame over one cycle, from those counted; where
/// there is no cycle, of the first film frames.
pub(crate) fn cadence(step: f64, settings: &CadenceSettings, counted: &[u32]) -> Vec<u32> {
    let Some(length) = cycle_length(step, settings) else {
        return counted.iter().copied().take(NO_CYCLE).collect();
    };
    let turns = |from: usize| counted.get(from..from + 2 * length);
    let is_cycle = |from: &usize| turns(*from).is_some_and(|two| two[..length] == two[length..]);
    let from = (0..counted.len()).find(is_cycle).unwrap_or(0);
    counted.iter().copied().skip(from).take(length).collect()
}

/// Film frames after which file and film are in step again.
fn cycle_length(step: f64, settings: &CadenceSettings) -> Option<usize> {
    let rate = settings.file_rate?;
    let (speed, candidate) =
        candidates(settings).min_by(|a, b| (a.1 - step).abs().total_cmp(&(b.1 - step).abs()))?;
    if (candidate - step).abs() > 5e-5 {
        return None;
    }
    let num = u64::from(speed.num()) * u64::from(rate.den());
    let den = u64::from(speed.den()) * u64::from(rate.num());
    let cycle = num / divisor(num, den);
    (cycle <= CYCLE_MOST).then_some(cycle as usize)
}

fn divisor(a: u64, b: u64) -> u64 {
    if b == 0 { a } else { divisor(b, a % b) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(rate: &str) -> CadenceSettings {
        CadenceSettings {
            file_rate: rate.parse().ok(),
            film_speed: None,
        }
    }

    #[test]
    fn a_usual_speed_is_taken_where_it_fits() {
        let positions: Vec<f64> = (0..600).map(|k| 0.72003 * f64::from(k)).collect();
        assert!((settled_step(&positions, &at("25")) - 0.72).abs() < 1e-12);
        assert_eq!(film_speed(0.72, &at("25")), Some(Fps::EIGHTEEN));
        let wall = film_speed(17.64 / 29.97, &at("30000/1001")).unwrap();
        assert_eq!(wall.to_string(), "441/25");
    }

    #[test]
    fn a_cycle_is_told_from_where_it_begins() {
        let counted = [1, 2, 1, 1, 2, 1, 1, 2];
        let told = cadence(0.75, &at("24"), &counted);
        assert_eq!(told, [1, 2, 1]);
        let counted: Vec<u32> = [3].into_iter().chain((0..60).map(|k| 1 + k % 2)).collect();
        assert_eq!(cadence(2.0 / 3.0, &at("25"), &counted).len(), 2);
    }
}
