//! Several readings of the same taps: which cut was meant, or none.
//!
//! Each tap is read as every cut that it may have been, as a stray tap, and, rarely, as a sign
//! that the frame was not where it was thought. The unlikely readings are dropped.

use crate::event::{Event, Seen};
use crate::machine::{Habits, Machine};

/// One way to read what was seen.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Reading {
    pub(crate) machine: Machine,
    /// Its share of belief, 0 to 1.
    pub(crate) share: f64,
    /// The cut tapped last.
    pub(crate) last: Option<u32>,
    /// What each tap was taken for.
    pub(crate) taken: Vec<Option<u32>>,
    /// When and with which frame the motor was switched on.
    pub(crate) started: Option<f64>,
}

/// So many readings are carried on at once.
const MOST: usize = 12;
/// A reading of less belief is dropped.
const LEAST: f64 = 1e-4;
/// A tap in a hundred or two means nothing.
const STRAY: f64 = 0.015;
/// Over so many frames a stray tap may lie anywhere.
const STRAY_OVER: f64 = 120.0;
/// Three taps in ten thousand show that the frame was taken wrong.
const ASTRAY: f64 = 0.000_3;
/// So far from where it was thought it is looked for then.
const ASTRAY_OVER: f64 = 600.0;
/// A frame whose variance is above this is not known.
pub(crate) const NOWHERE: f64 = 1e6;
/// A measure by ear farther off than so many standard deviations is a slip of the ear.
const SLIP: f64 = 5.0;

impl Reading {
    pub(crate) fn fresh(habits: &Habits, at: f64) -> Self {
        Self {
            machine: Machine::unknown(habits, at),
            share: 1.0,
            last: None,
            taken: Vec::new(),
            started: None,
        }
    }

    pub(crate) fn is_somewhere(&self) -> bool {
        self.machine.frame_variance() < NOWHERE
    }

    /// So much of its speed the machine still lacks in frames, at a time of its run-up.
    pub(crate) fn still_behind(&self, habits: &Habits, at: f64) -> f64 {
        let Some(started) = self.started else {
            return 0.0;
        };
        let time = habits.run_up / 3.0;
        let since = (at - started).max(0.0);
        self.machine.speed() * time * (-since / time).exp()
    }

    fn read_as(&self, machine: Machine, log: f64, cut: Option<u32>) -> (f64, Self) {
        let mut taken = self.taken.clone();
        taken.push(cut);
        let reading = Self {
            machine,
            share: 0.0,
            last: cut.or(self.last),
            taken,
            started: self.started,
        };
        (self.share.ln() + log, reading)
    }
}

/// What all readings make of an event.
pub(crate) fn seen(
    before: &[Reading],
    event: &Event,
    cuts: &[u32],
    habits: &Habits,
) -> Vec<Reading> {
    match event.seen {
        Seen::Started { frame } => vec![started(habits, event.at, frame)],
        Seen::Tap { cut } => tapped(before, event.at, cut, cuts, habits),
        Seen::Counter { frame, error } => weighed(before, |reading| {
            let machine = reading.machine.later(habits, event.at);
            let (fit, after) = machine.read(frame, error);
            // Far outside of what can be: it was lost, and the counter finds it again.
            let found = if fit.off * fit.off > 25.0 * fit.variance {
                machine.astray().read(frame, error).1
            } else {
                after
            };
            (fit.log_likelihood().max(-12.0), found)
        }),
        Seen::Heard { count, error } => weighed(before, |reading| {
            let machine = reading.machine.later(habits, event.at);
            if runs_up(reading, habits, event.at) {
                return (0.0, machine);
            }
            let (fit, after) = machine.counted(count, error);
            if fit.off * fit.off > SLIP * SLIP * fit.variance {
                let anew = machine.slipped(f64::INFINITY).counted(count, error).1;
                return (0.0, anew);
            }
            (fit.log_likelihood(), after)
        }),
        Seen::Counts { from, shares } => counts(before, habits, event.at, from, &shares),
        Seen::Slipped { frames } => weighed(before, |reading| {
            (0.0, reading.machine.later(habits, event.at).slipped(frames))
        }),
    }
}

/// Within a frame, how well it is known where the count begins, one standard deviation.
const BEGINS: f64 = 0.1;

/// The count begins at one of several frames: each is carried on.
fn counts(
    before: &[Reading],
    habits: &Habits,
    at: f64,
    from: f64,
    shares: &[f64; 5],
) -> Vec<Reading> {
    let mut all = Vec::new();
    for reading in before {
        // The run-up was fitted about the same switch: its word is not asked twice.
        let machine = reading.machine.later(habits, at).astray();
        for (nth, share) in shares.iter().enumerate().filter(|(_, share)| **share > 0.0) {
            // Two pulses fewer in the count: it began two frames later.
            let here = from + 2.0 - nth as f64;
            let (_, after) = machine.counts_from(here, BEGINS);
            let after = Reading {
                machine: after,
                ..reading.clone()
            };
            all.push((reading.share.ln() + share.ln(), after));
        }
    }
    kept(all)
}

fn runs_up(reading: &Reading, habits: &Habits, at: f64) -> bool {
    reading
        .started
        .is_some_and(|started| at - started < 2.0 * habits.run_up)
}

/// The motor goes on, and what was tapped before belongs to another run: as though it had run at full speed since, less what the run-up costs.
fn started(habits: &Habits, at: f64, frame: f64) -> Reading {
    let mut fresh = Reading::fresh(habits, at);
    fresh.started = Some(at);
    fresh.machine = fresh.machine.switched_on(habits, frame);
    fresh
}

fn weighed(before: &[Reading], each: impl Fn(&Reading) -> (f64, Machine)) -> Vec<Reading> {
    let told = before.iter().map(|reading| {
        let (log, machine) = each(reading);
        let after = Reading {
            machine,
            ..reading.clone()
        };
        (reading.share.ln() + log, after)
    });
    kept(told.collect())
}

fn tapped(
    before: &[Reading],
    at: f64,
    named: Option<u32>,
    cuts: &[u32],
    habits: &Habits,
) -> Vec<Reading> {
    let mut all = Vec::new();
    for reading in before {
        let machine = reading.machine.later(habits, at);
        let ahead = cuts
            .iter()
            .copied()
            .filter(|cut| reading.last.is_none_or(|last| *cut > last));
        let meant: Vec<u32> = match named {
            Some(cut) => ahead.filter(|one| *one == cut).collect(),
            None => ahead.collect(),
        };
        if !reading.is_somewhere() {
            first_taps(reading, &machine, &meant, habits, &mut all);
            continue;
        }
        for cut in &meant {
            let (fit, after) = machine.tapped(habits, f64::from(*cut));
            all.push(reading.read_as(after, fit.log_likelihood(), Some(*cut)));
            if fit.off.abs() < ASTRAY_OVER {
                let after = machine.astray().tapped(habits, f64::from(*cut)).1;
                let log = (ASTRAY / ASTRAY_OVER).ln();
                all.push(reading.read_as(after, log, Some(*cut)));
            }
        }
        let stray = (STRAY / STRAY_OVER).ln();
        all.push(reading.read_as(machine, stray, None));
    }
    kept(all)
}

/// The first tap: the first of the cuts that may be meant, or one of the next.
fn first_taps(
    reading: &Reading,
    machine: &Machine,
    meant: &[u32],
    habits: &Habits,
    all: &mut Vec<(f64, Reading)>,
) {
    for (nth, cut) in meant.iter().take(3).enumerate() {
        let after = machine.tapped(habits, f64::from(*cut)).1;
        let log = [0.9_f64, 0.07, 0.03][nth].ln();
        all.push(reading.read_as(after, log, Some(*cut)));
    }
    if meant.is_empty() {
        all.push(reading.read_as(*machine, 0.0, None));
    }
}

/// The likely ones, their shares made to sum to 1, the likeliest first.
fn kept(mut all: Vec<(f64, Reading)>) -> Vec<Reading> {
    all.sort_by(|a, b| b.0.total_cmp(&a.0));
    let most = all.first().map_or(0.0, |one| one.0);
    let mut readings: Vec<Reading> = Vec::new();
    for (log, reading) in all {
        let share = (log - most).exp();
        if share < LEAST {
            break;
        }
        let same = readings.iter().position(|one| says_the_same(one, &reading));
        if let Some(nth) = same {
            readings[nth].share += share;
        } else if readings.len() < MOST {
            readings.push(Reading { share, ..reading });
        }
    }
    let sum: f64 = readings.iter().map(|reading| reading.share).sum();
    for reading in &mut readings {
        reading.share /= sum;
    }
    readings.sort_by(|a, b| b.share.total_cmp(&a.share));
    readings
}

fn says_the_same(one: &Reading, other: &Reading) -> bool {
    one.last == other.last
        && (one.machine.frame() - other.machine.frame()).abs() < 0.3
        && (one.machine.speed() - other.machine.speed()).abs() < 0.01
        && (one.machine.count_from() - other.machine.count_from()).abs() < 0.3
}
