//! Trials: each kind of sign at six strengths, on drawn rolls.

use crate::drawn::{Camera, Fault, RollPlan};
use crate::reading::{ReadRoll, read};
use onestrand_signs::{Place, Sign, SignKind, SignLimits};
use std::ops::Range;

/// One kind of sign, planted at growing strength.
pub(crate) struct Trial {
    pub(crate) kind: SignKind,
    pub(crate) strengths: [f32; 6],
    /// From this strength on a person sees it.
    pub(crate) seen_from: f32,
    pub(crate) unit: &'static str,
    /// Which camera the takes are shot with.
    pub(crate) camera: Camera,
    /// The fault of a strength; the number varies place and tone.
    pub(crate) fault: fn(f32, u64) -> Fault,
    /// Which part of a take has it.
    pub(crate) part: Range<u32>,
}

/// Frames of a take in a trial.
pub(crate) const FRAMES: u32 = 84;

pub(crate) fn trials() -> Vec<Trial> {
    const MIDDLE: Range<u32> = 28..60;
    let trial = |kind, strengths, seen_from, unit, camera, fault, part| Trial {
        kind,
        strengths,
        seen_from,
        unit,
        camera,
        fault,
        part,
    };
    let stands = Camera::Stands;
    vec![
        trial(
            SignKind::Soft,
            [0.12, 0.25, 0.35, 0.5, 0.7, 1.0],
            0.25,
            "% of width, standard deviation of the spread",
            stands,
            |s, _| Fault::Blur(s),
            MIDDLE,
        ),
        trial(
            SignKind::Over,
            [0.2, 0.35, 0.5, 0.8, 1.2, 1.8],
            0.5,
            "stops",
            stands,
            |s, _| Fault::Stops(s),
            MIDDLE,
        ),
        trial(
            SignKind::Under,
            [0.2, 0.35, 0.5, 0.8, 1.2, 1.8],
            0.5,
            "stops",
            stands,
            |s, _| Fault::Stops(-s),
            MIDDLE,
        ),
        trial(
            SignKind::Shake,
            [0.15, 0.25, 0.4, 0.6, 1.0, 1.6],
            0.4,
            "% of width, root mean square",
            stands,
            |s, _| Fault::Shake(s),
            MIDDLE,
        ),
        trial(
            SignKind::Hair,
            [1.5, 3.0, 5.0, 7.0, 10.0, 14.0],
            3.0,
            "% of width long, 1 % thick",
            Camera::Pans(0.6, 0.3),
            |s, n| Fault::Hair(1.0, s, n),
            20..66,
        ),
        trial(
            SignKind::Scratch,
            [2.0, 3.5, 5.0, 8.0, 13.0, 20.0],
            5.0,
            "% of level, 0.5 % of width wide",
            stands,
            |s, n| Fault::Line(if n % 2 == 0 { s } else { -s }, 10.0 + (n * 37 % 80) as f32),
            20..66,
        ),
        trial(
            SignKind::Fog,
            [0.02, 0.04, 0.08, 0.15, 0.3, 0.6],
            0.08,
            "parts of full light at one side",
            stands,
            |s, n| Fault::Leak(s, n % 2 == 0),
            36..50,
        ),
        trial(
            SignKind::Flicker,
            [0.15, 0.25, 0.4, 0.6, 0.9, 1.3],
            0.4,
            "stops, peak to peak",
            stands,
            |s, _| Fault::Flicker(s),
            0..FRAMES,
        ),
        trial(
            SignKind::Dust,
            [3.0, 6.0, 12.0, 20.0, 35.0, 60.0],
            12.0,
            "specks a frame",
            stands,
            |s, _| Fault::Dust(s as u32),
            0..FRAMES,
        ),
        trial(
            SignKind::Black,
            [22.0, 20.0, 18.0, 16.0, 14.0, 8.0],
            8.0,
            "level of the blank frames",
            stands,
            |s, _| Fault::Blank(s as u8),
            40..44,
        ),
        trial(
            SignKind::Clear,
            [237.0, 239.0, 241.0, 243.0, 245.0, 251.0],
            251.0,
            "level of the blank frames",
            stands,
            |s, _| Fault::Blank(s as u8),
            40..44,
        ),
    ]
}

/// What became of one planted fault.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Outcome {
    pub(crate) strength: f32,
    /// The measure with all limits moved as low as they go.
    pub(crate) measure: f32,
    /// Whether it was told with the usual limits.
    pub(crate) found: bool,
    /// Frames by which its first frame and its end were missed.
    pub(crate) missed_by: Option<(i64, i64)>,
}

/// What came of one roll of a trial.
pub(crate) struct Tried {
    pub(crate) outcomes: Vec<Outcome>,
    /// Signs told that were not planted.
    pub(crate) others: Vec<Sign>,
    pub(crate) frames: u32,
}

impl Trial {
    /// Whether a strength is one that a person sees.
    pub(crate) fn is_seen(&self, strength: f32) -> bool {
        if self.kind == SignKind::Black {
            strength <= self.seen_from
        } else {
            strength >= self.seen_from
        }
    }

    /// A roll with a take for each strength, and one without, read and judged.
    pub(crate) fn on_roll(&self, seed: u64) -> Tried {
        let takes = [(self.camera, FRAMES); 7];
        let mut plan = RollPlan::new(seed * 977 + self.kind as u64, &takes);
        for (place, &strength) in self.strengths.iter().enumerate() {
            let start = place as u32 * FRAMES;
            let part = start + self.part.start..start + self.part.end;
            plan = plan.with((self.fault)(strength, seed * 6 + place as u64), part);
        }
        let roll = read(plan);
        let told = roll.record.signs(&roll.takes, &SignLimits::default());
        let lowest = roll.record.signs(&roll.takes, &lowest());
        let outcomes = (0..6).map(|place| self.outcome(&roll, &told, &lowest, place));
        Tried {
            outcomes: outcomes.collect(),
            others: told
                .iter()
                .filter(|sign| !self.is_planted(&roll, sign))
                .copied()
                .collect(),
            frames: 7 * FRAMES,
        }
    }

    /// Whether a sign is of the kind and lies where one was planted.
    fn is_planted(&self, roll: &ReadRoll, sign: &Sign) -> bool {
        (0..6).any(|place| self.of_take(roll, sign, place))
    }

    fn of_take(&self, roll: &ReadRoll, sign: &Sign, place: usize) -> bool {
        let planted = &roll.planted[place];
        // An upright pole of the picture is no line that was planted.
        let at_place = match (planted.fault, sign.place) {
            (Fault::Line(_, planted), Some(Place::Line { x, .. })) => (x - planted).abs() < 1.5,
            _ => true,
        };
        at_place
            && sign.kind == self.kind
            && sign.from < planted.span.end
            && planted.span.start < sign.until
    }

    fn outcome(&self, roll: &ReadRoll, told: &[Sign], lowest: &[Sign], place: usize) -> Outcome {
        let found = told.iter().find(|sign| self.of_take(roll, sign, place));
        let start = roll.takes[place].start;
        let strongest = |signs: &[Sign]| {
            let of_take = signs.iter().filter(|sign| self.of_take(roll, sign, place));
            let measures = of_take.map(|sign| sign.measure);
            if self.kind == SignKind::Soft {
                measures.fold(1.0, f32::min)
            } else {
                measures.fold(
                    0.0,
                    |most: f32, next| {
                        if next.abs() > most.abs() { next } else { most }
                    },
                )
            }
        };
        Outcome {
            strength: self.strengths[place],
            measure: strongest(lowest),
            found: found.is_some(),
            missed_by: found.map(|sign| {
                (
                    i64::from(sign.from) - i64::from(start + self.part.start),
                    i64::from(sign.until) - i64::from(start + self.part.end),
                )
            }),
        }
    }
}

/// Limits moved as low as they go, to see what the measures say.
pub(crate) fn lowest() -> SignLimits {
    SignLimits {
        soft_below: 0.97,
        stops_off: 0.08,
        shake_above: 0.05,
        shake_over_weave: 1.1,
        weave_above: 0.05,
        hair_above: 0.0,
        scratch_above: 0.5,
        fog_above: 0.1,
        flicker_above: 0.02,
        dust_above: 0.2,
        blank_above: 0.01,
        ..SignLimits::default()
    }
}

/// Spearman's rank correlation; ties get their middle rank.
pub(crate) fn rank_correlation(pairs: &[(f32, f32)]) -> f32 {
    let ranks = |values: Vec<f32>| -> Vec<f32> {
        values
            .iter()
            .map(|value| {
                let below = values.iter().filter(|other| *other < value).count();
                let equal = values
                    .iter()
                    .filter(|other| other.total_cmp(value).is_eq())
                    .count();
                below as f32 + (equal as f32 + 1.0) / 2.0
            })
            .collect()
    };
    let a = ranks(pairs.iter().map(|pair| pair.0).collect());
    let b = ranks(pairs.iter().map(|pair| pair.1).collect());
    let mean = (pairs.len() as f32 + 1.0) / 2.0;
    let product = |x: &[f32], y: &[f32]| -> f32 {
        x.iter().zip(y).map(|(x, y)| (x - mean) * (y - mean)).sum()
    };
    product(&a, &b) / (product(&a, &a) * product(&b, &b)).sqrt()
}
