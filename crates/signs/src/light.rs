//! The light of a roll, frame by frame, told from what the pictures show.

use crate::movement::Step;
use crate::pyramid::Quarter;

/// Exponent between light and level.
pub(crate) const EXPONENT: f32 = 2.2;
/// Levels outside of these are too dark to tell light from grain, or clipped.
pub(crate) const USABLE: std::ops::RangeInclusive<u8> = 16..=243;
/// Steps of the histogram of differences in a stop, and steps that it reaches.
const STEPS: f32 = 32.0;
const MOST: i16 = 160;
const BINS: usize = 2 * MOST as usize + 1;
/// Neighbours that differ by this have an edge between them. Unit: levels.
const EDGE: u8 = 20;
/// Pixels nearer to the middle difference than this agree. Unit: steps.
const NEAR: usize = 4;
/// Least share of the picture that two frames must have in common.
const LEAST_COMMON: f32 = 0.12;
/// Below this share of agreeing pixels the kept picture has grown too old.
const OLD: f32 = 0.3;
/// From this share on, two frames show the same light.
const LIKE: f32 = 0.6;

/// Two quarters laid on each other.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Compared {
    /// Light of the second against the first. Unit: stops.
    pub(crate) stops: f32,
    /// Share of the usable pixels that changed by as much. Range: 0 to 1.
    pub(crate) alike: f32,
    /// The same of those pixels alone that lie at edges of things: two places
    /// have flat parts in common, but not their edges. Range: 0 to 1.
    pub(crate) edges_alike: f32,
}

/// Compares what two frames have in common when `to` has moved by `moved`.
/// `None` when that is too little.
pub(crate) fn compare(from: &Edged, to: &Edged, moved: Step) -> Option<Compared> {
    let mut counts = [0_u16; BINS];
    let mut at_edges = [0_u16; BINS];
    let (right, down) = (
        (moved.right / 4.0).round() as i32,
        (moved.down / 4.0).round() as i32,
    );
    let span = |length: usize, by: i32| {
        let skip = (by.unsigned_abs() as usize).min(length);
        let (a, b) = if by < 0 { (skip, 0) } else { (0, skip) };
        (a, b, length - skip)
    };
    let (ax, bx, wide) = span(Quarter::WIDTH, right);
    let (ay, by, high) = span(Quarter::HEIGHT, down);
    for row in 0..high {
        let a = &from.pixels[(ay + row) * Quarter::WIDTH + ax..][..wide];
        let b = &to.pixels[(by + row) * Quarter::WIDTH + bx..][..wide];
        for (a, b) in a.iter().zip(b) {
            if a.log > 0 && b.log > 0 {
                let apart = (b.log - a.log).clamp(-MOST, MOST) + MOST;
                counts[apart as usize] += 1;
                at_edges[apart as usize] += u16::from(a.edge | b.edge);
            }
        }
    }
    judged(&counts, &at_edges)
}

fn judged(counts: &[u16; BINS], at_edges: &[u16; BINS]) -> Option<Compared> {
    let sum_of = |counts: &[u16]| counts.iter().map(|&count| u32::from(count)).sum::<u32>();
    let total = sum_of(counts);
    if (total as f32) < LEAST_COMMON * (Quarter::WIDTH * Quarter::HEIGHT) as f32 {
        return None;
    }
    let mut below = 0;
    let middle = counts.iter().position(|&count| {
        below += u32::from(count);
        2 * below >= total
    })?;
    // About the middle one, the mean: finer than a step.
    let near = middle.saturating_sub(NEAR)..(middle + NEAR + 1).min(BINS);
    let (mut sum, mut number) = (0.0, 0.0);
    for bin in near.clone() {
        sum += bin as f32 * f32::from(counts[bin]);
        number += f32::from(counts[bin]);
    }
    Some(Compared {
        stops: (sum / number - f32::from(MOST)) / STEPS,
        alike: number / total as f32,
        edges_alike: sum_of(&at_edges[near]) as f32 / sum_of(at_edges).max(1) as f32,
    })
}

/// A quarter with what a comparison asks of each pixel.
#[derive(Debug, Clone)]
pub(crate) struct Edged {
    pixels: Vec<Pixel>,
}

#[derive(Debug, Clone, Copy)]
struct Pixel {
    /// Logarithm of the light in steps; 0 where it is too dark or clipped.
    log: i16,
    /// Whether things have an edge here.
    edge: bool,
}

impl Edged {
    pub(crate) fn of(quarter: &Quarter) -> Self {
        let logs = logs();
        let levels = &quarter.levels;
        let pixels = levels.iter().enumerate().map(|(at, &level)| {
            // Neighbours across the ends of a row lie in the gate.
            let near = |by: usize| {
                let after = levels.get(at + by).copied().unwrap_or(level);
                let before = levels.get(at.wrapping_sub(by)).copied().unwrap_or(level);
                after.abs_diff(before)
            };
            Pixel {
                log: logs[usize::from(level)],
                edge: near(1).max(near(Quarter::WIDTH)) >= EDGE,
            }
        });
        Self {
            pixels: pixels.collect(),
        }
    }

    /// Share of the pixels that can be compared at all.
    fn usable(&self) -> f32 {
        let usable = self.pixels.iter().filter(|pixel| pixel.log > 0).count();
        usable as f32 / self.pixels.len() as f32
    }
}

/// Of each level, the logarithm of its light in steps, 0 when it is of no use.
fn logs() -> &'static [i16; 256] {
    static LOGS: std::sync::LazyLock<[i16; 256]> = std::sync::LazyLock::new(|| {
        std::array::from_fn(|level| {
            let usable = USABLE.contains(&(level as u8));
            let log = STEPS * EXPONENT * (level.max(1) as f32).log2();
            if usable { log.round() as i16 } else { 0 }
        })
    });
    &LOGS
}

/// Edges this alike are those of one set-up.
pub(crate) const SAME: f32 = 0.35;

/// Follows the light along the roll.
///
/// Each frame is held against one kept picture, laid where the movement since
/// then puts it, so that nothing that walks in or out counts and errors do not
/// add up from frame to frame. When the camera has gone on, the newest frame is
/// kept instead.
#[derive(Debug, Default)]
pub(crate) struct LightPath {
    kept: Option<Kept>,
    before: Option<Edged>,
    light: f32,
}

#[derive(Debug)]
struct Kept {
    picture: Edged,
    light: f32,
    moved: Step,
}

/// What is known of the light of a frame.
#[derive(Debug, Clone, Copy)]
pub(crate) struct LightStep {
    /// Stops against an unknown beginning, the same as long as takes last.
    pub(crate) light: f32,
    /// How alike edges are to those of the frame before. Range: 0 to 1.
    pub(crate) alike: f32,
}

impl LightPath {
    pub(crate) fn push(&mut self, quarter: &Quarter, step: Step) -> LightStep {
        let quarter = Edged::of(quarter);
        let beside = self
            .before
            .as_ref()
            .and_then(|before| compare(before, &quarter, step));
        let alike = beside.map_or(0.0, |beside| beside.edges_alike);
        let kept = self.kept.as_mut().and_then(|kept| {
            kept.moved.right += step.right;
            kept.moved.down += step.down;
            let found = compare(&kept.picture, &quarter, kept.moved)?;
            Some((kept.light + found.stops, found.alike))
        });
        let known = kept.filter(|(_, alike)| *alike >= OLD);
        match (known, beside) {
            (Some((light, _)), _) => self.light = light,
            (None, Some(beside)) if beside.alike >= LIKE => self.light += beside.stops,
            _ => {}
        }
        let gone = self
            .kept
            .as_ref()
            .is_none_or(|kept| kept.moved.right.abs() > 48.0 || kept.moved.down.abs() > 36.0);
        // A frame that shows nothing is no picture to keep.
        let shows = quarter.usable() > 2.0 * LEAST_COMMON;
        if shows && (gone || known.is_none()) {
            self.kept = Some(Kept {
                picture: quarter.clone(),
                light: self.light,
                moved: Step::default(),
            });
        }
        self.before = Some(quarter);
        LightStep {
            light: self.light,
            alike,
        }
    }
}
