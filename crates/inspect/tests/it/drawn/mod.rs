//! Rolls drawn by the tests, whose breaks are therefore known.
//!
//! A roll is a list of takes. A take shows a set-up (a ground with shapes on
//! it, larger than the picture) in which figures walk; it may pan. Over
//! the picture lie flicker, weave, grain, dust and flashes; at the ends of the roll fog.
//! Levels stand for light by the exponent 2.2. Everything follows from a seed.

mod disturb;
mod draw;
mod figure;
mod join;
mod noise;
mod take;

use disturb::{Disturbance, disturb, hands};
use noise::Noise;
use onestrand_inspect::{PLANE_HEIGHT, PLANE_WIDTH};
use take::{Take, draw_takes};

pub(crate) use take::DrawnTake;

/// How a roll is to look.
#[derive(Debug, Clone, Copy)]
pub(crate) struct RollPlan {
    pub(crate) seed: u64,
    /// Takes on the roll.
    pub(crate) takes: u32,
    /// Shortest and longest take. Unit: frames.
    pub(crate) lengths: (u32, u32),
    /// Of ten takes, how many go on with the set-up of the take before, so
    /// that only the figures jump.
    pub(crate) same_setup_in_ten: u32,
    /// Of ten takes, how many begin with a flash of +0.5 to +1.4 stop.
    pub(crate) flash_starts_in_ten: u32,
    /// Grain, one standard deviation at middle grey. Unit: levels.
    pub(crate) grain: f32,
    /// Flicker, greatest deviation. Unit: stops.
    pub(crate) flicker: f32,
    /// Weave, greatest deviation. Unit: pixels of the plane.
    pub(crate) weave: f32,
    /// Specks a frame.
    pub(crate) dust: u32,
    /// Fastest pan. Unit: pixels of the plane a frame.
    pub(crate) pan: f32,
    /// One frame in so many begins a disturbance that is no break: lightning
    /// of 1–2 frames, a bright spot of 1–2 frames, one white or black frame.
    pub(crate) disturbed_one_in: u32,
    /// Fogged frames at each end.
    pub(crate) fog: u32,
    /// Whether figures do this and that, or walk on at one pace.
    pub(crate) whims: bool,
    /// How far figures jump where the set-up goes on, least and most. Unit:
    /// heights of the figure.
    pub(crate) jump: (f32, f32),
    /// Whether a hand passes before the lens in each long take.
    pub(crate) hands: bool,
    /// Of ten takes, how many have lost 2 to 4 frames in the middle, at a tear or
    /// in the scanning machine: a leap, and no break.
    pub(crate) leaps_in_ten: u32,
    /// Of ten changes of set-up, how many are dissolves and fades.
    pub(crate) gradual_in_ten: u32,
    /// Shortest and longest of them. Unit: frames.
    pub(crate) gradual_lengths: (u32, u32),
    /// Of ten other changes of set-up without a flash, how many show that two
    /// pieces of film are joined there.
    pub(crate) joins_in_ten: u32,
    /// Leader joined on before the first frame: frames, and how much light it
    /// lets through.
    pub(crate) leader: (u32, f32),
}

impl RollPlan {
    /// An ordinary roll: some of everything.
    pub(crate) fn ordinary(seed: u64) -> Self {
        Self {
            seed,
            takes: 14,
            lengths: (30, 160),
            same_setup_in_ten: 4,
            flash_starts_in_ten: 7,
            grain: 4.0,
            flicker: 0.12,
            weave: 0.8,
            dust: 3,
            pan: 3.0,
            disturbed_one_in: 150,
            fog: 0,
            whims: false,
            jump: (0.5, 1.7),
            hands: false,
            leaps_in_ten: 0,
            gradual_in_ten: 0,
            gradual_lengths: (12, 48),
            joins_in_ten: 0,
            leader: (0, 1.0),
        }
    }
}

/// A dissolve or a fade as it was drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct DrawnGradual {
    /// `fade_in`, `fade_out` or `dissolve`.
    pub(crate) kind: &'static str,
    pub(crate) from: u32,
    pub(crate) until: u32,
}

/// A roll that can be drawn frame by frame.
pub(crate) struct DrawnRoll {
    plan: RollPlan,
    takes: Vec<Take>,
    pub(crate) total: u32,
    disturbances: Vec<(u32, Disturbance)>,
}

impl DrawnRoll {
    pub(crate) fn new(plan: RollPlan) -> Self {
        let mut noise = Noise::new(plan.seed);
        let takes = draw_takes(&plan, plan.leader.0 + plan.fog, &mut noise);
        let mut disturbances = disturb(&plan, &takes, &mut noise);
        if plan.hands {
            disturbances.extend(hands(&takes, &mut noise));
        }
        let total = takes.last().map_or(0, |take| take.drawn.until) + plan.fog;
        Self {
            plan,
            takes,
            total,
            disturbances,
        }
    }

    /// The takes, in order.
    pub(crate) fn takes(&self) -> Vec<DrawnTake> {
        self.takes.iter().map(|take| take.drawn).collect()
    }

    /// First frames of the takes that begin at once, but for the first of the
    /// roll.
    pub(crate) fn breaks(&self) -> Vec<u32> {
        let head = (self.plan.leader.0 > 0).then_some(self.plan.leader.0);
        let pairs = self
            .takes
            .windows(2)
            .map(|pair| (pair[0].drawn, pair[1].drawn));
        head.into_iter()
            .chain(
                pairs
                    .filter(|(_, take)| take.comes_up == 0)
                    .map(|(_, take)| take.from),
            )
            .collect()
    }

    /// Dissolves and fades, in order.
    pub(crate) fn gradual(&self) -> Vec<DrawnGradual> {
        let mut list = Vec::new();
        for (number, take) in self.takes.iter().enumerate() {
            let drawn = take.drawn;
            let dissolves = |other: Option<&Take>, at: u32| {
                other.is_some_and(|other| (other.drawn.from..other.drawn.until).contains(&at))
            };
            let of = |kind, from, until| DrawnGradual { kind, from, until };
            if drawn.comes_up > 0 {
                let before = number
                    .checked_sub(1)
                    .and_then(|before| self.takes.get(before));
                let kind = if dissolves(before, drawn.from) {
                    "dissolve"
                } else {
                    "fade_in"
                };
                list.push(of(kind, drawn.from, drawn.from + drawn.comes_up));
            }
            if drawn.goes_down > 0 && !dissolves(self.takes.get(number + 1), drawn.until - 1) {
                list.push(of("fade_out", drawn.until - drawn.goes_down, drawn.until));
            }
        }
        list
    }

    /// Lightning as drawn: first frame, frames, stops.
    pub(crate) fn lightning(&self) -> Vec<(u32, u32, f32)> {
        let mut list: Vec<(u32, u32, f32)> = Vec::new();
        for &(at, kind) in &self.disturbances {
            let Disturbance::Lightning(stops) = kind else {
                continue;
            };
            match list.last_mut() {
                Some((from, frames, _)) if *from + *frames == at => *frames += 1,
                _ => list.push((at, 1, stops)),
            }
        }
        list
    }

    /// The plane of frame `number`.
    pub(crate) fn plane(&self, number: u32) -> Vec<u8> {
        let mut noise = Noise::new(self.plan.seed ^ (u64::from(number) << 20) ^ 0xF1A7);
        let mut light: Option<Vec<f32>> = None;
        for take in &self.takes {
            if !(take.drawn.from..take.drawn.until).contains(&number) {
                continue;
            }
            let weight = take.drawn.weight(number);
            let mut exposed = self.exposed(take, number, &mut noise);
            if weight < 1.0 {
                exposed.iter_mut().for_each(|value| *value *= weight);
            }
            match &mut light {
                Some(light) => light
                    .iter_mut()
                    .zip(exposed)
                    .for_each(|(l, more)| *l += more),
                None => light = Some(exposed),
            }
        }
        let mut light = light.unwrap_or_else(|| self.without_picture(number, &mut noise));
        for take in self.takes.iter().map(|take| take.drawn) {
            if let Some(join) = take.join {
                join.lay_on(&mut light, i64::from(number) - i64::from(take.from));
            }
        }
        draw::dust(&mut light, self.plan.dust, &mut noise);
        draw::develop(&light, self.plan.grain, &mut noise)
    }

    fn exposed(&self, take: &Take, number: u32, noise: &mut Noise) -> Vec<f32> {
        let mut since = number - take.drawn.from;
        if since >= take.lost.0 {
            since += take.lost.1;
        }
        let weave = (
            noise.signed() * self.plan.weave,
            noise.signed() * self.plan.weave,
        );
        let at = (
            take.start.0 + take.pan.0 * since as f32 + weave.0,
            take.start.1 + take.pan.1 * since as f32 + weave.1,
        );
        let mut light = take.setup.seen_from(at);
        for figure in &take.figures {
            figure.draw(&mut light, since as f32, weave);
        }
        let flash = [1.0, 0.2]
            .get((number - take.drawn.from) as usize)
            .copied()
            .unwrap_or(0.0)
            * take.drawn.flash_stops;
        let mut stops = flash + self.plan.flicker * noise.signed();
        for (_, disturbance) in self.disturbances.iter().filter(|(at, _)| *at == number) {
            stops += disturbance.lay_on(&mut light);
        }
        let gain = stops.exp2();
        light.iter_mut().for_each(|value| *value *= gain);
        light
    }

    /// Leader, fog at the ends, and black between a fade out and a fade in.
    fn without_picture(&self, number: u32, noise: &mut Noise) -> Vec<f32> {
        let (leader, fog) = (self.plan.leader.0, self.plan.fog);
        let inward = if number < leader {
            return vec![self.plan.leader.1; PLANE_WIDTH * PLANE_HEIGHT];
        } else if number < leader + fog {
            leader + fog - number
        } else if number >= self.total - fog {
            number + 1 - (self.total - fog)
        } else {
            return vec![0.002; PLANE_WIDTH * PLANE_HEIGHT];
        };
        let strength = 0.15 + 0.5 * inward as f32 / fog as f32 + 0.08 * noise.signed();
        draw::leak(strength, noise)
    }
}
