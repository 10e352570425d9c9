//! Flicker: light that jumps from frame to frame while nothing in the scene changed.

use onestrand_film::Fps;

use crate::{GreyPicture, Transfer};

/// Zones across and down. A zone is small enough that what moves in one leaves most
/// others alone, and large enough for grain to average out.
const ZONES: (usize, usize) = (8, 6);
const ALL_ZONES: usize = ZONES.0 * ZONES.1;

/// Frames looked at before and after, as seconds: the light of the take is what the middle
/// one of them has, so a fade, which goes one way, and a step, which stays, are kept.
const AROUND_SECONDS: f64 = 0.55;
/// The most light given or taken. Unit: log10 exposure; half a stop.
const MOST: f64 = std::f64::consts::LOG10_2 / 2.0;
/// From here on no flicker is believed: a lamp switched, a flash of the camera's start.
/// Unit: log10 exposure; one stop.
const NOT_FLICKER: f64 = std::f64::consts::LOG10_2;
/// A course that changes by more than twice this makes a step. Unit: log10 exposure.
const NO_STEP: f64 = 0.02;
/// Light below this, of 1, is too dark to tell: grain and the scanner's noise.
const DARK: f64 = 0.004;

/// What was found of one frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlickerFrame {
    /// How much lighter it is than its neighbours. Unit: log10 exposure.
    pub found: f64,
    /// How much light it is to be given. Unit: log10 exposure. Range: half a stop either way.
    pub given: f64,
}

/// The light of each zone of frame after frame.
#[derive(Debug, Clone)]
pub struct FlickerWatch {
    lights: [f64; 256],
    frames: Vec<Option<[f64; ALL_ZONES]>>,
}

impl FlickerWatch {
    /// For pictures of one transfer.
    #[must_use]
    pub fn new(transfer: Transfer) -> Self {
        Self {
            lights: std::array::from_fn(|n| transfer.light(n as f64 / 255.0)),
            frames: Vec::new(),
        }
    }

    /// Looks at the next frame; none for one without a picture.
    pub fn push(&mut self, picture: Option<&GreyPicture>) {
        let zones = picture.map(|picture| self.zones(picture));
        self.frames.push(zones);
    }

    /// log10 of the mean light of each zone; too dark ones say nothing.
    fn zones(&self, picture: &GreyPicture) -> [f64; ALL_ZONES] {
        let (width, height) = (picture.width(), picture.height());
        let mut sums = [(0.0, 0_u32); ALL_ZONES];
        for (y, line) in picture.grey().chunks_exact(width).enumerate() {
            let down = y * ZONES.1 / height;
            for (x, grey) in line.iter().enumerate() {
                let zone = &mut sums[down * ZONES.0 + x * ZONES.0 / width];
                zone.0 += self.lights[usize::from(*grey)];
                zone.1 += 1;
            }
        }
        sums.map(|(sum, count)| {
            let mean = sum / f64::from(count.max(1));
            if mean > DARK { mean.log10() } else { f64::NAN }
        })
    }

    /// What was found of each frame looked at.
    #[must_use]
    pub fn found(&self, speed: Fps) -> Vec<FlickerFrame> {
        flicker_of(&self.frames, speed)
    }
}

/// The light of each zone of a frame, log10; no number where a zone is too dark.
type Zones = [f64; ALL_ZONES];

/// Flicker of a take out of the light of its zones.
///
/// For each zone, how far a frame lies from the course of its light (the middle one of the
/// neighbours in time, smoothed over where it makes no step); of the zones, the middle one
/// again, as far as they agree.
#[must_use]
pub fn flicker_of(frames: &[Option<Zones>], speed: Fps) -> Vec<FlickerFrame> {
    let around = ((AROUND_SECONDS * speed.as_f64()).round() as usize).max(2);
    let rough: Vec<Zones> = (0..frames.len())
        .map(|at| std::array::from_fn(|zone| course(frames, at, around, zone)))
        .collect();
    (0..frames.len())
        .map(|at| match &frames[at] {
            Some(own) => judged(own, &smoothed(&rough, at, around / 2)),
            None => FlickerFrame {
                found: 0.0,
                given: 0.0,
            },
        })
        .collect()
}

/// The light that a zone has here, jumps left out.
fn course(frames: &[Option<Zones>], at: usize, around: usize, zone: usize) -> f64 {
    // As many before as after, so that a fade has its middle here.
    let reach = around.min(at).min(frames.len() - 1 - at);
    if reach >= 2 {
        return middle_in_time(&frames[at - reach..=at + reach], zone).unwrap_or(f64::NAN);
    }
    // The first and last two frames have no neighbours on one side: a straight line through
    // those on the other stands for them.
    let near: Vec<usize> = if at < frames.len() / 2 {
        (at + 1..(at + 1 + around).min(frames.len())).collect()
    } else {
        (at.saturating_sub(around)..at).collect()
    };
    if near.len() < 4 {
        return f64::NAN;
    }
    line_at(frames, &near, at, zone).unwrap_or(f64::NAN)
}

/// A course without the waves that the middle one leaves: the mean of it and of pairs as
/// far before as after, where their mean lies near enough to be no step.
fn smoothed(rough: &[Zones], at: usize, around: usize) -> Zones {
    let reach = around.min(at).min(rough.len() - 1 - at);
    std::array::from_fn(|zone| {
        let own = rough[at][zone];
        let (mut sum, mut count) = (own, 1.0);
        for far in 1..=reach {
            let pair = f64::midpoint(rough[at - far][zone], rough[at + far][zone]);
            if (pair - own).abs() <= NO_STEP {
                sum += 2.0 * pair;
                count += 2.0;
            }
        }
        sum / count
    })
}

/// Where a line through the light of other frames stands at one (H. Theil, 1950: the middle
/// one of all slopes).
fn line_at(frames: &[Option<Zones>], near: &[usize], at: usize, zone: usize) -> Option<f64> {
    let points: Vec<(f64, f64)> = near
        .iter()
        .filter_map(|n| Some((*n as f64 - at as f64, frames[*n].as_ref()?[zone])))
        .filter(|(_, light)| light.is_finite())
        .collect();
    let mut slopes = Vec::new();
    for (n, a) in points.iter().enumerate() {
        slopes.extend(points[n + 1..].iter().map(|b| (b.1 - a.1) / (b.0 - a.0)));
    }
    let slope = middle(&mut slopes)?;
    let mut here: Vec<f64> = points.iter().map(|(x, light)| light - slope * x).collect();
    middle(&mut here)
}

fn middle_in_time(near: &[Option<Zones>], zone: usize) -> Option<f64> {
    let mut lights: Vec<f64> = near
        .iter()
        .flatten()
        .map(|zones| zones[zone])
        .filter(|light| light.is_finite())
        .collect();
    middle(&mut lights)
}

fn middle(values: &mut [f64]) -> Option<f64> {
    if values.is_empty() {
        return None;
    }
    let at = values.len() / 2;
    let is_even = values.len().is_multiple_of(2);
    let (below, upper, _) = values.select_nth_unstable_by(at, f64::total_cmp);
    let upper = *upper;
    if !is_even {
        return Some(upper);
    }
    let lower = below.iter().copied().fold(f64::MIN, f64::max);
    Some(f64::midpoint(lower, upper))
}

/// The zones' word on a frame.
fn judged(own: &Zones, course: &Zones) -> FlickerFrame {
    let mut off: Vec<f64> = (0..ALL_ZONES)
        .map(|zone| own[zone] - course[zone])
        .filter(|off| off.is_finite())
        .collect();
    let found = middle(&mut off).unwrap_or(0.0);
    // A quarter of the zones must be light enough to speak.
    if off.len() < ALL_ZONES / 4 {
        return FlickerFrame { found, given: 0.0 };
    }
    let mut apart: Vec<f64> = off.iter().map(|o| (o - found).abs()).collect();
    let apart = 1.4826 * middle(&mut apart).unwrap_or(0.0);
    // A shadow that crosses the picture moves some zones and not others.
    let agreed = found * found / (found * found + apart * apart + 1e-12);
    let believed = ((NOT_FLICKER - found.abs()) / (NOT_FLICKER - MOST)).clamp(0.0, 1.0);
    let given = -(found * agreed * believed).clamp(-MOST, MOST);
    FlickerFrame { found, given }
}

#[cfg(test)]
mod tests;
