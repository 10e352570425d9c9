//! A projector that is heard: ticks of its claw, or pulses of its light.
//!
//! Sound becomes a line of rises, one value a millisecond. Over some seconds the speed is
//! looked for that makes them stand together; from then on the place within a frame is kept,
//! block by block, and with it the count of frames. Where the switch was pressed while one
//! listened, the run-up is fitted to what was heard of it, and the count begins at the frame
//! that lay in the gate.

mod comb;
mod rises;
mod run_up;

use std::collections::VecDeque;

use crate::error::{FollowError, positive};
use crate::event::{Event, Seen};
use rises::Rises;

/// What makes the sound.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Source {
    /// The claw of the machine, through a microphone: a tick a frame.
    Claw,
    /// The light on the screen through a cell, as sound: as many pulses a frame as the
    /// shutter has blades.
    Light {
        /// Blades of the shutter: 1 to 5.
        blades: u8,
    },
}

/// Rises are kept so long, to fit the run-up when the speed is found. Unit: milliseconds.
const KEPT: usize = 20_000;
/// Over so much the speed is looked for. Unit: milliseconds.
const LOOKED_AT: usize = 3_000;
/// From the switch on until the speed is looked for. Unit: seconds.
const RUNS_UP: f64 = 7.0;
/// The place within a frame is looked for anew over so much. Unit: milliseconds.
const BLOCK: usize = 330;
/// So long nothing is heard and the count is not trusted. Unit: blocks.
const DEAF: u32 = 12;
/// How well a block tells the place within a frame, one standard deviation. Unit: frames.
const TELLS: f64 = 0.08;

/// Listens to a projector.
#[derive(Debug, Clone)]
pub struct Listener {
    nominal: f64,
    /// Pulses a frame.
    pulses: f64,
    rises: Rises,
    line: VecDeque<f32>,
    /// The time of the first value of the line. Unit: seconds.
    begins: f64,
    /// Values that were looked at.
    looked: usize,
    held: Option<Held>,
    started: Option<(f64, f64)>,
    /// How late sound comes here. Unit: seconds.
    lag: f64,
}

/// The place within a frame as it is kept.
#[derive(Debug, Clone, Copy)]
struct Held {
    /// Pulses at the time.
    count: f64,
    at: f64,
    /// Pulses a second.
    speed: f64,
    variance: f64,
    speed_variance: f64,
    covariance: f64,
    deaf: u32,
}

impl Listener {
    /// Listens at a rate of samples, for a projector of about this speed; sound comes `lag`
    /// seconds late.
    ///
    /// # Errors
    /// [`FollowError::CannotBe`].
    pub fn new(source: Source, rate: f64, nominal: f64, lag: f64) -> Result<Self, FollowError> {
        positive("samples a second", rate.min((rate >= 2000.0).into()))?;
        positive("the speed of the projector", nominal)?;
        let pulses = match source {
            Source::Claw => 1.0,
            Source::Light { blades } => {
                positive("blades of the shutter", f64::from(blades))?;
                f64::from(blades.min(5))
            }
        };
        Ok(Self {
            nominal: nominal * pulses,
            pulses,
            rises: Rises::new(rate, source == Source::Claw),
            line: VecDeque::new(),
            begins: 0.0,
            looked: 0,
            held: None,
            started: None,
            lag,
        })
    }

    /// The motor was switched on at a time, with this frame in the gate.
    pub fn started(&mut self, at: f64, frame: f64) {
        self.started = Some((at, frame));
        self.held = None;
    }

    /// Whether the ticks stand out, so that they are followed now.
    #[must_use]
    pub fn hears(&self) -> bool {
        self.held.is_some_and(|held| held.deaf < 3)
    }

    /// Hears samples, the first of them at a time; gives what it makes of them.
    pub fn hear(&mut self, at: f64, samples: &[f32]) -> Vec<Event> {
        let mut events = Vec::new();
        let held_back = self.rises.held_back();
        let fresh = self.rises.of(samples);
        if fresh.is_empty() {
            return events;
        }
        // A hole between two pieces: what lies before belongs to another line.
        let first = at - self.lag - held_back;
        let expected = self.begins + self.line.len() as f64 / 1000.0;
        if self.line.is_empty() || (first - expected).abs() > 0.05 {
            self.line.clear();
            self.looked = 0;
            self.begins = first;
            if self.held.take().is_some() {
                events.push(slipped(first));
            }
        } else {
            // Two clocks drift: the line is drawn after the clock of the events.
            self.begins += 0.02 * (first - expected);
        }
        self.line.extend(fresh);
        while self.looked + BLOCK <= self.line.len() {
            self.block(&mut events);
        }
        while self.line.len() > KEPT {
            self.line.pop_front();
            self.begins += 0.001;
            self.looked -= 1;
        }
        events
    }

    fn block(&mut self, events: &mut Vec<Event>) {
        self.looked += BLOCK;
        let line = self.line.make_contiguous();
        let (begins, looked) = (self.begins, self.looked);
        let Some(held) = self.held else {
            let now = begins + looked as f64 / 1000.0;
            // While it runs up no speed stands.
            let runs_up = self.started.is_some_and(|(at, _)| now < at + RUNS_UP);
            if looked < LOOKED_AT || runs_up {
                return;
            }
            let part = &line[looked - LOOKED_AT..looked];
            let from = begins + (looked - LOOKED_AT) as f64 / 1000.0;
            let Some(found) = comb::find(part, self.nominal) else {
                return;
            };
            let at = begins + looked as f64 / 1000.0;
            let mut held = Held {
                count: (at - from) * found.speed - found.phase,
                at,
                speed: found.speed,
                variance: 0.01,
                speed_variance: 0.0025,
                covariance: 0.0,
                deaf: 0,
            };
            self.count_from_start(&mut held, events);
            self.held = Some(held);
            events.push(self.heard(&held));
            return;
        };
        let mut held = held.later(begins + looked as f64 / 1000.0);
        let part = &line[looked - BLOCK..looked];
        match comb::shift(part, held.count, held.speed) {
            Some(off) => {
                held.told(off, self.pulses);
                events.push(self.heard(&held));
            }
            None => held.deaf += 1,
        }
        self.held = Some(held);
        if held.deaf >= DEAF {
            self.held = None;
            events.push(slipped(held.at));
        }
    }

    /// Fits the run-up, so that pulses are counted from the frame in the gate on.
    fn count_from_start(&mut self, held: &mut Held, events: &mut Vec<Event>) {
        let Some((started, frame)) = self.started else {
            return;
        };
        let heard_from = self.begins;
        // Once: what is found anew later has no run-up.
        self.started = None;
        if heard_from > started - 0.1 || self.pulses > 1.0 {
            return;
        }
        let line = self.line.make_contiguous();
        let Some(found) = run_up::fit(line, heard_from, started, held.count, held.at, held.speed)
        else {
            return;
        };
        held.count += found.pulses;
        events.push(Event {
            at: held.at,
            seen: Seen::Counts {
                from: frame,
                shares: found.shares,
            },
        });
    }

    fn heard(&self, held: &Held) -> Event {
        Event {
            at: held.at,
            seen: Seen::Heard {
                count: held.count / self.pulses,
                error: TELLS / self.pulses,
            },
        }
    }
}

fn slipped(at: f64) -> Event {
    let frames = f64::INFINITY;
    Event {
        at,
        seen: Seen::Slipped { frames },
    }
}

impl Held {
    fn later(self, at: f64) -> Self {
        let dt = at - self.at;
        // The speed wanders by about 0.3 % of 18 within a second.
        let wander = 0.004 * dt;
        Self {
            count: self.count + self.speed * dt,
            at,
            variance: self.variance
                + 2.0 * dt * self.covariance
                + dt * dt * self.speed_variance
                + wander * dt * dt / 3.0,
            covariance: self.covariance + dt * self.speed_variance + wander * dt / 2.0,
            speed_variance: self.speed_variance + wander,
            ..self
        }
    }

    /// It lies so many pulses on from where it was thought.
    fn told(&mut self, off: f64, pulses: f64) {
        self.deaf = 0;
        let noise = TELLS.powi(2) * pulses;
        let total = self.variance + noise;
        let (gain, speed_gain) = (self.variance / total, self.covariance / total);
        self.count += gain * off;
        self.speed += speed_gain * off;
        self.speed_variance -= speed_gain * self.covariance;
        self.covariance *= 1.0 - gain;
        self.variance *= 1.0 - gain;
    }
}
