//! Takes: what stands before the camera, how each begins, and how long it runs.

use super::RollPlan;
use super::draw::Setup;
use super::figure::{Figure, differing_share};
use super::join::Join;
use super::noise::Noise;

/// A take as it was drawn.
#[derive(Debug, Clone, Copy)]
pub(crate) struct DrawnTake {
    /// First frame with any of its light.
    pub(crate) from: u32,
    /// First frame without.
    pub(crate) until: u32,
    /// Goes on with the set-up of the take before.
    pub(crate) same_setup: bool,
    /// Over-exposure of the first frame, in stops; 0 without a flash.
    pub(crate) flash_stops: f32,
    /// What the bench left where it is joined to the take before.
    pub(crate) join: Option<Join>,
    /// Frames over which its light comes up. Unit: frames; 0 at once.
    pub(crate) comes_up: u32,
    /// Frames over which its light goes down.
    pub(crate) goes_down: u32,
}

impl DrawnTake {
    /// Share of its full light in frame `number`: a shutter that opens and
    /// closes by the same amount each frame.
    pub(crate) fn weight(&self, number: u32) -> f32 {
        let part = |frames: u32, of: u32| {
            if of == 0 {
                1.0
            } else {
                ((frames as f32 + 0.5) / of as f32).min(1.0)
            }
        };
        part(number - self.from, self.comes_up) * part(self.until - 1 - number, self.goes_down)
    }
}

pub(super) struct Take {
    pub(super) drawn: DrawnTake,
    pub(super) setup: Setup,
    pub(super) figures: Vec<Figure>,
    pub(super) pan: (f32, f32),
    pub(super) start: (f32, f32),
    /// After how many frames some are lost, and how many.
    pub(super) lost: (u32, u32),
}

impl Take {
    /// Frames that the camera ran, lost ones counted.
    fn ran(&self) -> f32 {
        (self.drawn.until - self.drawn.from + self.lost.1) as f32
    }
}

/// All takes of a roll, from frame `from` on.
pub(super) fn draw_takes(plan: &RollPlan, mut from: u32, noise: &mut Noise) -> Vec<Take> {
    // What was added later is drawn from a stream of its own, so that rolls
    // without it stay what they were.
    let mut later = Noise::new(plan.seed ^ 0x6AD0);
    let mut takes: Vec<Take> = Vec::new();
    for _ in 0..plan.takes {
        let mut take = draw_take(plan, from, takes.last(), noise);
        if plan.leaps_in_ten > 0 && later.below(10) < plan.leaps_in_ten {
            let length = take.drawn.until - take.drawn.from;
            take.lost = (length / 3 + later.below(length / 3), 2 + later.below(3));
        }
        if let Some(before) = takes.last_mut() {
            pass_over(plan, &mut before.drawn, &mut take.drawn, &mut later);
        }
        from = take.drawn.until;
        takes.push(take);
    }
    takes
}

/// How one take follows the other: a dissolve, fades, a join, or nothing.
fn pass_over(plan: &RollPlan, before: &mut DrawnTake, take: &mut DrawnTake, noise: &mut Noise) {
    let long = |noise: &mut Noise| {
        plan.gradual_lengths.0 + noise.below(plan.gradual_lengths.1 - plan.gradual_lengths.0 + 1)
    };
    let shift = |take: &mut DrawnTake, by: i64| {
        take.from = (i64::from(take.from) + by) as u32;
        take.until = (i64::from(take.until) + by) as u32;
    };
    if plan.gradual_in_ten > 0 && !take.same_setup && noise.below(10) < plan.gradual_in_ten {
        take.flash_stops = 0.0;
        let kind = noise.below(5);
        if kind < 2 {
            let frames = long(noise);
            (before.goes_down, take.comes_up) = (frames, frames);
            shift(take, -i64::from(frames));
            return;
        }
        if kind != 2 {
            before.goes_down = long(noise);
        }
        if kind != 3 {
            take.comes_up = long(noise);
        }
        let black = if before.goes_down > 0 {
            noise.below(12)
        } else {
            0
        };
        shift(take, i64::from(black));
    } else if plan.joins_in_ten > 0
        && !take.same_setup
        && take.flash_stops <= 0.0
        && noise.below(10) < plan.joins_in_ten
    {
        take.join = Some(Join::new(noise));
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
            let went = take.ran();
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
        Some(take) => displaced(plan, take, noise),
        None => (0..2 + noise.below(3))
            .map(|_| Figure::new(plan.whims, noise))
            .collect(),
    };
    let drawn = DrawnTake {
        from,
        until,
        same_setup: same.is_some(),
        flash_stops,
        join: None,
        comes_up: 0,
        goes_down: 0,
    };
    Take {
        drawn,
        setup,
        figures,
        pan,
        start,
        lost: (0, 0),
    }
}

/// The figures of the take before, jumped so that a person would see it.
fn displaced(plan: &RollPlan, before: &Take, noise: &mut Noise) -> Vec<Figure> {
    /// Share of the picture that must differ at the stop.
    const SEEN: f32 = 0.012;
    let length = before.ran();
    loop {
        let figures: Vec<Figure> = before
            .figures
            .iter()
            .map(|figure| figure.elsewhere(length, plan.jump, noise))
            .collect();
        if differing_share((&before.figures, length), (&figures, 0.0)) >= SEEN {
            return figures;
        }
    }
}
