//! The run-up as it was heard: how many frames went by before the speed was there.
//!
//! x(t) = u + v(t − t₀ − τ(1 − e^(−(t − t₀)/τ))) with u between 0 and 1, as the claw stood.
//! Speed and phase are known from what is heard later; t₀ and τ are looked for. For each pair
//! u follows from the phase, so the whole number of frames is settled by what fits best.

/// What was found.
#[derive(Debug, Clone, Copy)]
pub(super) struct Found {
    /// Added to the count, it counts from the frame in the gate.
    pub(super) pulses: f64,
    /// How likely it is that two and one less should be added, so many, one and two more.
    pub(super) shares: [f64; 5],
}

/// The hand presses the switch that much sooner or later. Unit: seconds.
const HAND: f64 = 0.30;
/// One standard deviation of that. Unit: seconds.
const PRESSED: f64 = 0.08;
/// With a picture standing in the gate the claw is not pulling: of its turn so much is left.
const STANDS: f64 = 0.75;
/// The usual τ and its standard deviation. Unit: seconds.
const USUAL: f64 = 0.5;
const UNUSUAL: f64 = 0.2;
/// Times τ: a run-up of 0.75 to 2.4 s to 95 %.
const TIMES: (f64, f64) = (0.25, 0.80);
/// A place that is no tick has this much by chance. Unit: nepers.
const LEAST: f64 = 0.25;
/// What is fitted. Unit: seconds from the switch.
const LENGTH: f64 = 3.0;

/// Steps in which both are looked for. Unit: seconds.
const STEP: f64 = 0.004;
/// A tick is looked for so far to either side. Unit: milliseconds.
const AROUND: usize = 6;

/// Fits the run-up to a line that begins at `begins`; at `at` the count was `count`.
pub(super) fn fit(
    line: &[f32],
    begins: f64,
    started: f64,
    count: f64,
    at: f64,
    speed: f64,
) -> Option<Found> {
    let heard = Around::of(line, begins, started);
    let mut best: Vec<(i64, f64)> = Vec::new();
    let steps = |from: f64, to: f64| {
        let count = ((to - from) / STEP) as usize;
        (0..=count).map(move |nth| from + nth as f64 * STEP)
    };
    for pressed in steps(started - HAND, started + HAND) {
        for time in steps(TIMES.0, TIMES.1) {
            // Without the claw's own place, so much has gone by at `at`.
            let gone = speed * (at - pressed - time);
            // Pulses are whole where the count is: u makes both agree.
            let whole = (gone - count).ceil();
            let stood = count + whole - gone;
            if stood > STANDS {
                continue;
            }
            let doubt =
                ((pressed - started) / PRESSED).powi(2) + ((time - USUAL) / UNUSUAL).powi(2);
            let score = heard.score(pressed, time, speed, stood) - 0.5 * TELLS * doubt;
            let key = whole as i64;
            match best.iter_mut().find(|(one, _)| *one == key) {
                Some((_, most)) => *most = most.max(score),
                None => best.push((key, score)),
            }
        }
    }
    weighed(&best)
}

/// So much more under the ticks and a number of frames is e times as likely. A tick that
/// stands out well gives 2 to 3.
const TELLS: f64 = 0.8;

/// The likeliest number, and how likely it and its neighbours are.
fn weighed(all: &[(i64, f64)]) -> Option<Found> {
    let (best, most) = all.iter().copied().max_by(|a, b| a.1.total_cmp(&b.1))?;
    let weight = |whole: i64| {
        let score = all.iter().find(|one| one.0 == whole).map(|one| one.1);
        score.map_or(0.0, |score| ((score - most) / TELLS).exp())
    };
    // What is added to the count less by one is a frame less.
    let shares = [-2, -1, 0, 1, 2].map(|off| weight(best + off));
    let sum: f64 = shares.iter().sum();
    Some(Found {
        pulses: best as f64,
        shares: shares.map(|share| share / sum),
    })
}

/// The line about the start, each value the highest near it, less the farther it is.
struct Around {
    values: Vec<f64>,
    begins: f64,
}

impl Around {
    fn of(line: &[f32], begins: f64, started: f64) -> Self {
        let from = (((started - HAND - begins) * 1000.0).max(0.0)) as usize;
        let to = (((started + HAND + LENGTH - begins) * 1000.0).max(0.0)) as usize;
        let (from, to) = (from.min(line.len()), to.min(line.len()));
        let part = &line[from..to];
        let values = (0..part.len()).map(|nth| {
            let low = nth.saturating_sub(AROUND);
            let high = (nth + AROUND + 1).min(part.len());
            (low..high)
                .map(|other| {
                    let far = other.abs_diff(nth) as f64;
                    f64::from(part[other]) * (1.0 - far / (AROUND as f64 + 2.0))
                })
                .fold(0.0, f64::max)
        });
        Self {
            values: values.collect(),
            begins: begins + from as f64 / 1000.0,
        }
    }

    /// How much stands where ticks are expected, less what stands half-way between them.
    fn score(&self, pressed: f64, time: f64, speed: f64, stood: f64) -> f64 {
        let at = |since: f64| {
            let place = (pressed + since - self.begins) * 1000.0;
            self.values.get(place.max(0.0) as usize).copied()
        };
        let mut sum = 0.0;
        let (mut since, mut before) = (0.0_f64, 0.0);
        for frame in 1.. {
            since = when(f64::from(frame), since, time, speed, stood);
            let Some(value) = at(since).filter(|_| since < LENGTH) else {
                break;
            };
            let between = at(0.5 * (since + before)).unwrap_or(0.0);
            before = since;
            // One tick more must be heard to be worth it.
            sum += value - between - LEAST;
        }
        sum
    }
}

/// When a frame comes, after the switch, found from the one before by Newton's way.
fn when(frame: f64, from: f64, time: f64, speed: f64, stood: f64) -> f64 {
    let mut since = if from > 0.0 {
        from + 0.5 / speed
    } else {
        0.3 * time
    };
    for _ in 0..6 {
        let fallen = (-since / time).exp();
        let off = stood + speed * (since - time * (1.0 - fallen)) - frame;
        let step = off / (speed * (1.0 - fallen)).max(0.05 * speed);
        since = (since - step).max(from);
        if step.abs() < 2e-4 {
            break;
        }
    }
    since
}
