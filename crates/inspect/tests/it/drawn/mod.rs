//! Rolls drawn by the tests, whose breaks are therefore known.
//!
//! A roll is a list of takes. A take shows a set-up (a ground with shapes on
//! it, larger than the picture) in which figures walk; it may pan. Over
//! the picture lie flicker, weave, grain, dust and flashes; at the ends of the roll fog.
//! Levels stand for light by the exponent 2.2. Everything follows from a seed.

mod draw;
mod noise;

use draw::{Figure, Setup};
use noise::Noise;

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
        }
    }
}

/// A take as it was drawn.
#[derive(Debug, Clone, Copy)]
pub(crate) struct DrawnTake {
    pub(crate) from: u32,
    pub(crate) until: u32,
    /// Goes on with the set-up of the take before.
    pub(crate) same_setup: bool,
    /// Over-exposure of the first frame, in stops; 0 without a flash.
    pub(crate) flash_stops: f32,
}

struct Take {
    drawn: DrawnTake,
    setup: Setup,
    figures: Vec<Figure>,
    pan: (f32, f32),
    start: (f32, f32),
}

/// A roll that can be drawn frame by frame.
pub(crate) struct DrawnRoll {
    plan: RollPlan,
    takes: Vec<Take>,
    pub(crate) total: u32,
    disturbances: Vec<(u32, Disturbance)>,
}

#[derive(Debug, Clone, Copy)]
enum Disturbance {
    /// The whole picture over, in stops.
    Lightning(f32),
    /// A bright spot at a place.
    Spot(f32, f32),
    /// A frame of one level.
    Blank(f32),
}

impl DrawnRoll {
    pub(crate) fn new(plan: RollPlan) -> Self {
        let mut noise = Noise::new(plan.seed);
        let mut takes: Vec<Take> = Vec::new();
        let mut from = plan.fog;
        for _ in 0..plan.takes {
            let take = draw_take(&plan, from, takes.last(), &mut noise);
            from = take.drawn.until;
            takes.push(take);
        }
        let disturbances = disturb(&plan, &takes, &mut noise);
        Self {
            plan,
            takes,
            total: from + plan.fog,
            disturbances,
        }
    }

    /// The takes, in order.
    pub(crate) fn takes(&self) -> Vec<DrawnTake> {
        self.takes.iter().map(|take| take.drawn).collect()
    }

    /// First frames of all takes but the first.
    pub(crate) fn breaks(&self) -> Vec<u32> {
        self.takes
            .iter()
            .skip(1)
            .map(|take| take.drawn.from)
            .collect()
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
        let take = self
            .takes
            .iter()
            .find(|t| (t.drawn.from..t.drawn.until).contains(&number));
        let mut light = match take {
            Some(take) => self.exposed(take, number, &mut noise),
            None => self.fogged(number, &mut noise),
        };
        draw::dust(&mut light, self.plan.dust, &mut noise);
        draw::develop(&light, self.plan.grain, &mut noise)
    }

    fn exposed(&self, take: &Take, number: u32, noise: &mut Noise) -> Vec<f32> {
        let since = number - take.drawn.from;
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
        let flash = [1.0, 0.2].get(since as usize).copied().unwrap_or(0.0) * take.drawn.flash_stops;
        let mut stops = flash + self.plan.flicker * noise.signed();
        for (_, disturbance) in self.disturbances.iter().filter(|(at, _)| *at == number) {
            match *disturbance {
                Disturbance::Lightning(more) => stops += more,
                Disturbance::Spot(x, y) => draw::spot(&mut light, (x, y)),
                Disturbance::Blank(level) => light.fill(level),
            }
        }
        let gain = stops.exp2();
        light.iter_mut().for_each(|value| *value *= gain);
        light
    }

    /// Film without a picture, stray light from the sides.
    fn fogged(&self, number: u32, noise: &mut Noise) -> Vec<f32> {
        let inward = if number < self.plan.fog {
            (self.plan.fog - number) as f32
        } else {
            (number + 1 - (self.total - self.plan.fog)) as f32
        };
        let strength = 0.15 + 0.5 * inward / self.plan.fog as f32 + 0.08 * noise.signed();
        draw::leak(strength, noise)
    }
}

fn draw_take(plan: &RollPlan, from: u32, before: Option<&Take>, noise: &mut Noise) -> Take {
    let same = before.filter(|_| noise.below(10) < plan.same_setup_in_ten);
    let until = from + plan.lengths.0 + noise.below(plan.lengths.1 - plan.lengths.0 + 1);
    let flashes = noise.below(10) < plan.flash_starts_in_ten;
    let flash_stops = if flashes {
        0.5 + 0.9 * noise.unit()
    } else {
        0.0
    };
    let pans = noise.below(4) == 0;
    let pan = if pans {
        (noise.signed() * plan.pan, noise.signed() * plan.pan * 0.3)
    } else {
        (0.0, 0.0)
    };
    let setup = same.map_or_else(|| Setup::new(noise), |take| take.setup.clone());
    let (start, pan) = match same {
        // The camera stays where it stood.
        Some(take) => {
            let went = (take.drawn.until - take.drawn.from) as f32;
            (
                (
                    take.start.0 + take.pan.0 * went,
                    take.start.1 + take.pan.1 * went,
                ),
                (0.0, 0.0),
            )
        }
        None => ((noise.signed() * 20.0, noise.signed() * 20.0), pan),
    };
    let figures = match same {
        Some(take) => displaced(take, noise),
        None => (0..2 + noise.below(3))
            .map(|_| Figure::new(noise))
            .collect(),
    };
    let drawn = DrawnTake {
        from,
        until,
        same_setup: same.is_some(),
        flash_stops,
    };
    Take {
        drawn,
        setup,
        figures,
        pan,
        start,
    }
}

/// The figures of the take before, jumped so that a person would see it.
fn displaced(before: &Take, noise: &mut Noise) -> Vec<Figure> {
    /// Share of the picture that must differ at the stop.
    const SEEN: f32 = 0.012;
    let length = (before.drawn.until - before.drawn.from) as f32;
    loop {
        let figures: Vec<Figure> = before
            .figures
            .iter()
            .map(|figure| figure.elsewhere(length, noise))
            .collect();
        if draw::differing_share((&before.figures, length), (&figures, 0.0)) >= SEEN {
            return figures;
        }
    }
}

/// Frames between two disturbances.
const APART: u32 = 6;

/// Disturbances well inside takes, so that they cannot be meant as breaks.
fn disturb(plan: &RollPlan, takes: &[Take], noise: &mut Noise) -> Vec<(u32, Disturbance)> {
    let mut list: Vec<(u32, Disturbance)> = Vec::new();
    if plan.disturbed_one_in == 0 {
        return list;
    }
    for take in takes {
        for frame in take.drawn.from + 6..take.drawn.until.saturating_sub(7) {
            let near = list.last().is_some_and(|&(last, _)| frame < last + APART);
            if near || noise.below(plan.disturbed_one_in) != 0 {
                continue;
            }
            let kind = match noise.below(4) {
                0 | 1 => Disturbance::Lightning(0.5 + 1.2 * noise.unit()),
                2 => Disturbance::Spot(noise.unit(), noise.unit()),
                _ => Disturbance::Blank(if noise.below(2) == 0 { 0.9 } else { 0.01 }),
            };
            list.push((frame, kind));
            if noise.below(2) == 0 && !matches!(kind, Disturbance::Blank(_)) {
                list.push((frame + 1, kind));
            }
        }
    }
    list
}
