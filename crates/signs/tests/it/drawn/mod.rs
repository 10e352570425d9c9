//! Rolls drawn for the tests, whose faults are therefore known.
//!
//! A roll is a list of takes of drawn places in which figures walk; some
//! pan, some are held by hand. Over all lie grain, flicker, weave and a little
//! dust; takes begin with a flash. Faults are planted where a test asks.

mod fault;
mod noise;
mod scene;

use noise::Noise;
use onestrand_inspect::{PLANE_BYTES, PLANE_WIDTH};
use scene::Scene;
use std::ops::Range;

pub(crate) use fault::{Fault, Planted};

/// How a take is shot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Camera {
    /// On legs.
    Stands,
    /// Goes on as the take before stood: only the figures are elsewhere.
    StandsOn,
    /// Pixels of the plane a frame, to the right and down.
    Pans(f32, f32),
}

/// How a roll is to look.
#[derive(Debug, Clone)]
pub(crate) struct RollPlan {
    pub(crate) seed: u64,
    /// Camera and frames of each take.
    pub(crate) takes: Vec<(Camera, u32)>,
    /// Grain, one standard deviation. Unit: levels.
    pub(crate) grain: f32,
    /// Flicker, greatest deviation. Unit: stops.
    pub(crate) flicker: f32,
    /// Weave, one standard deviation each way. Unit: pixels of the plane.
    pub(crate) weave: f32,
    /// Specks a frame, on the mean.
    pub(crate) dust: u32,
    pub(crate) planted: Vec<Planted>,
}

impl RollPlan {
    pub(crate) fn new(seed: u64, takes: &[(Camera, u32)]) -> Self {
        Self {
            seed,
            takes: takes.to_vec(),
            grain: 4.0,
            flicker: 0.05,
            weave: 0.15,
            dust: 1,
            planted: Vec::new(),
        }
    }

    /// An ordinary roll of some takes, of all cameras.
    pub(crate) fn ordinary(seed: u64, takes: u32) -> Self {
        let mut noise = Noise::new(seed ^ 0xABCD);
        let takes: Vec<(Camera, u32)> = (0..takes)
            .map(|take| {
                let camera = match noise.below(4) {
                    0 => Camera::Pans(1.2 * noise.signed(), 0.3 * noise.signed()),
                    1 if take > 0 => Camera::StandsOn,
                    _ => Camera::Stands,
                };
                (camera, 40 + noise.below(100))
            })
            .collect();
        Self::new(seed, &takes)
    }

    pub(crate) fn with(mut self, fault: Fault, span: Range<u32>) -> Self {
        self.planted.push(Planted { fault, span });
        self
    }
}

struct DrawnTake {
    span: Range<u32>,
    scene: Scene,
    start: (f32, f32),
    pan: (f32, f32),
    flash: f32,
}

/// A roll that can be drawn frame by frame.
pub(crate) struct DrawnRoll {
    plan: RollPlan,
    takes: Vec<DrawnTake>,
}

impl DrawnRoll {
    pub(crate) fn new(plan: RollPlan) -> Self {
        let mut noise = Noise::new(plan.seed);
        let mut takes: Vec<DrawnTake> = Vec::new();
        let mut from = 0;
        for &(camera, frames) in &plan.takes {
            let flash = if noise.below(2) == 0 {
                0.5 + 0.9 * noise.unit()
            } else {
                0.0
            };
            let before = takes.last().filter(|_| camera == Camera::StandsOn);
            let (scene, start) = match before {
                Some(take) => {
                    let went = take.span.len() as f32;
                    let at = (
                        take.start.0 + take.pan.0 * went,
                        take.start.1 + take.pan.1 * went,
                    );
                    (take.scene.later(&mut noise), at)
                }
                None => (
                    Scene::new(&mut noise),
                    (20.0 * noise.signed(), 20.0 * noise.signed()),
                ),
            };
            let pan = match camera {
                Camera::Pans(right, down) => (right, down),
                _ => (0.0, 0.0),
            };
            let span = from..from + frames;
            from = span.end;
            takes.push(DrawnTake {
                span,
                scene,
                start,
                pan,
                flash,
            });
        }
        let mut roll = Self { plan, takes };
        roll.lay_hairs_on_light();
        roll.lay_lines_apart();
        roll
    }

    /// Moves every planted line to where it is seen: along an upright edge nobody
    /// sees it.
    fn lay_lines_apart(&mut self) {
        for at in 0..self.plan.planted.len() {
            let Planted { fault, span } = self.plan.planted[at].clone();
            let Fault::Line(contrast, first) = fault else {
                continue;
            };
            let Some(take) = self
                .takes
                .iter()
                .find(|take| take.span.contains(&span.start))
            else {
                continue;
            };
            let ground = take.scene.seen_from(take.start, 0.0);
            let places = (0..80).map(|more| 8.0 + (first - 8.0 + 7.0 * more as f32) % 84.0);
            let is_apart = |x: &f32| fault::edges_along(&ground, *x) < 0.25;
            let x = places.into_iter().find(is_apart).unwrap_or(first);
            self.plan.planted[at].fault = Fault::Line(contrast, x);
        }
    }

    /// Moves every planted hair to a place where it is seen: over what is dark
    /// nobody sees it.
    fn lay_hairs_on_light(&mut self) {
        for at in 0..self.plan.planted.len() {
            let Planted { fault, span } = self.plan.planted[at].clone();
            let Fault::Hair(thick, long, first) = fault else {
                continue;
            };
            let grounds: Vec<Vec<f32>> = self
                .takes
                .iter()
                .filter(|take| take.span.contains(&span.start))
                .flat_map(|take| {
                    let since = |at: u32| (at - take.span.start) as f32;
                    [span.start, (span.start + span.end) / 2, span.end - 1].map(|at| {
                        let went = since(at);
                        let corner = (
                            take.start.0 + take.pan.0 * went,
                            take.start.1 + take.pan.1 * went,
                        );
                        take.scene.seen_from(corner, went)
                    })
                })
                .collect();
            let is_seen = |seed: &u64| {
                let on_light = |light| fault::hair_on_light(light, (thick, long), *seed);
                grounds.iter().all(|light| on_light(light) > 0.8)
            };
            let seeds = (0..200).map(|more| first + 1000 * more);
            let seed = seeds.into_iter().find(is_seen).unwrap_or(first);
            self.plan.planted[at].fault = Fault::Hair(thick, long, seed);
        }
    }

    pub(crate) fn takes(&self) -> Vec<Range<u32>> {
        self.takes.iter().map(|take| take.span.clone()).collect()
    }

    /// The faults as they were laid.
    pub(crate) fn planted(&self) -> &[Planted] {
        &self.plan.planted
    }

    /// The planes, in order.
    pub(crate) fn planes(&self) -> impl Iterator<Item = Vec<u8>> + '_ {
        let total = self.takes.last().map_or(0, |take| take.span.end);
        (0..total).map(|at| self.plane(at))
    }

    /// The hand's place on a frame, so that its root mean square over the
    /// planted part is `percent` of the width.
    fn trembling(&self, at: u32, percent: f32) -> (f32, f32) {
        let part = self
            .plan
            .planted
            .iter()
            .find(|planted| planted.span.contains(&at));
        let span = part.map_or(at..at + 1, |planted| planted.span.clone());
        let places: Vec<(f32, f32)> = span.map(|at| trembling(self.plan.seed, at)).collect();
        let number = places.len() as f32;
        let middle = (
            places.iter().map(|at| at.0).sum::<f32>() / number,
            places.iter().map(|at| at.1).sum::<f32>() / number,
        );
        let squares = places
            .iter()
            .map(|at| (at.0 - middle.0).powi(2) + (at.1 - middle.1).powi(2));
        let scale = percent / 100.0 * PLANE_WIDTH as f32 / (squares.sum::<f32>() / number).sqrt();
        let here = trembling(self.plan.seed, at);
        (scale * (here.0 - middle.0), scale * (here.1 - middle.1))
    }

    fn plane(&self, at: u32) -> Vec<u8> {
        let Some(take) = self.takes.iter().find(|take| take.span.contains(&at)) else {
            return vec![0; PLANE_BYTES];
        };
        let mut noise = Noise::new(self.plan.seed ^ (u64::from(at) << 20));
        let weave = (
            self.plan.weave * noise.bell(),
            self.plan.weave * noise.bell(),
        );
        let since = (at - take.span.start) as f32;
        let mut stops = self.plan.flicker * noise.signed();
        stops += match at - take.span.start {
            0 => take.flash,
            1 => 0.2 * take.flash,
            _ => 0.0,
        };
        let specks = if self.plan.dust > 0 {
            noise.below(2 * self.plan.dust + 1)
        } else {
            0
        };
        let planted: Vec<Fault> = self
            .plan
            .planted
            .iter()
            .filter(|planted| planted.span.contains(&at))
            .map(|planted| planted.fault)
            .collect();
        let mut shake = (0.0, 0.0);
        for &fault in &planted {
            match fault {
                Fault::Stops(more) => stops += more,
                Fault::Flicker(peaks) => stops += 0.5 * peaks * noise.signed() / 0.92,
                Fault::Shake(percent) => shake = self.trembling(at, percent),
                _ => {}
            }
        }
        let corner = |since: f32| {
            (
                take.start.0 + take.pan.0 * since + shake.0 + weave.0,
                take.start.1 + take.pan.1 * since + shake.1 + weave.1,
            )
        };
        let mut light = take.scene.seen_from(corner(since), since);
        if take.pan.0.hypot(take.pan.1) > 0.5 {
            // The shutter is open for half of the time.
            let more = [0.17, 0.33, 0.5]
                .map(|part| take.scene.seen_from(corner(since + part), since + part));
            for (place, value) in light.iter_mut().enumerate() {
                *value = (*value + more[0][place] + more[1][place] + more[2][place]) / 4.0;
            }
        }
        for &fault in &planted {
            match fault {
                Fault::Blur(percent) => {
                    fault::spread(&mut light, percent / 100.0 * PLANE_WIDTH as f32);
                }
                Fault::Hair(thick, long, seed) => {
                    fault::hair(&mut light, (thick, long), seed, weave);
                }
                _ => {}
            }
        }
        let gain = stops.exp2();
        light.iter_mut().for_each(|value| *value *= gain);
        for &fault in &planted {
            match fault {
                Fault::Leak(strength, left) => fault::leak(&mut light, strength, left),
                Fault::Dust(specks) => fault::dust(&mut light, specks, &mut noise),
                _ => {}
            }
        }
        fault::dust(&mut light, specks, &mut noise);
        let mut levels: Vec<f32> = light.iter().map(|&light| level(light)).collect();
        for &fault in &planted {
            match fault {
                Fault::Line(contrast, x) => fault::line(&mut levels, contrast, x, at, &mut noise),
                Fault::Blank(level) => levels.fill(f32::from(level)),
                _ => {}
            }
        }
        levels
            .iter()
            .map(|level| {
                (level + self.plan.grain * noise.bell())
                    .clamp(0.0, 255.0)
                    .round() as u8
            })
            .collect()
    }
}

/// The level of a light; a table, because powers are slow.
fn level(light: f32) -> f32 {
    const STEPS: usize = 8192;
    static LEVELS: std::sync::LazyLock<Vec<f32>> = std::sync::LazyLock::new(|| {
        (0..=STEPS)
            .map(|step| 255.0 * (step as f32 / STEPS as f32).powf(1.0 / 2.2))
            .collect()
    });
    LEVELS[((light.max(0.0) * STEPS as f32) as usize).min(STEPS)]
}

/// Where a trembling hand holds the camera: sums of waves of 4 to 13 frames.
fn trembling(seed: u64, at: u32) -> (f32, f32) {
    let mut noise = Noise::new(seed ^ 0x7EED);
    let mut sum = (0.0, 0.0);
    for _ in 0..6 {
        let period = 4.0 + 9.0 * noise.unit();
        let turn = std::f32::consts::TAU;
        let phases = (turn * noise.unit(), turn * noise.unit());
        let angle = turn * at as f32 / period;
        sum.0 += (angle + phases.0).sin();
        sum.1 += (angle + phases.1).sin();
    }
    sum
}
