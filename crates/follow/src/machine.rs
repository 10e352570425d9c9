//! A projector as a filter carries it: frame, speed, warming up, lateness of the hand, count.
//!
//! State s = (x, v, c, b, o): running frame, speed, speed that is still to come as the motor
//! warms (c′ = −c/T, v′ = c/T), how late the hand taps in the mean, and the running frame at
//! count 0 of what is heard. Measures: a tap at cut q: q = x − v·b; a count n: n = x − o.
//! Kalman 1960, with the covariance renewed in Joseph's form, which stays symmetric.

use nalgebra::{SMatrix, SVector};

/// What is known of machine and hand before anything was seen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Habits {
    /// The speed written on the machine. Unit: frames a second.
    pub nominal: f64,
    /// How far the true speed lies off, one standard deviation. Unit: frames a second.
    pub off_nominal: f64,
    /// How far taps scatter, one standard deviation. Unit: seconds.
    pub hand: f64,
    /// How late taps come in the mean. Unit: seconds.
    pub late: f64,
    /// How far that may be off, one standard deviation. Unit: seconds.
    pub late_error: f64,
    /// By how much of itself the speed rises as the motor warms.
    pub warms: f64,
    /// How far that may be off, one standard deviation.
    pub warms_error: f64,
    /// In which time the warming falls to a third. Unit: seconds.
    pub warms_in: f64,
    /// What wanders besides, as a share of the speed a root of a second.
    pub wander: f64,
    /// From the switch on to 95 % of its speed. Unit: seconds.
    pub run_up: f64,
    /// One standard deviation of that. Unit: seconds.
    pub run_up_error: f64,
}

impl Habits {
    /// A motor-driven projector and a practised hand.
    #[must_use]
    pub const fn usual(nominal: f64) -> Self {
        Self {
            nominal,
            // 18 ± 1 and 24 ± 1 (the projection standard for 16 mm): even over that range.
            off_nominal: 0.6,
            hand: 0.06,
            late: 0.0,
            late_error: 0.015,
            warms: 0.008,
            warms_error: 0.006,
            warms_in: 120.0,
            wander: 0.000_04,
            run_up: 1.5,
            run_up_error: 0.3,
        }
    }
}

pub(crate) type State = SVector<f64, 5>;
pub(crate) type Spread = SMatrix<f64, 5, 5>;

pub(crate) const FRAME: usize = 0;
pub(crate) const SPEED: usize = 1;
const WARMS: usize = 2;
const LATE: usize = 3;
const COUNT: usize = 4;

/// Variance of what is not known at all. Unit: frames squared.
pub(crate) const UNKNOWN: f64 = 1e8;

/// A projector at a moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Machine {
    pub(crate) at: f64,
    pub(crate) state: State,
    pub(crate) spread: Spread,
}

/// How well a measure fits.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Fit {
    /// What was measured less what was expected. Unit: frames.
    pub(crate) off: f64,
    /// Variance of that.
    pub(crate) variance: f64,
}

impl Fit {
    /// Logarithm of its likelihood.
    pub(crate) fn log_likelihood(self) -> f64 {
        -0.5 * (self.off * self.off / self.variance
            + (2.0 * std::f64::consts::PI * self.variance).ln())
    }
}

impl Machine {
    /// Nothing is known but habits; the frame is anywhere.
    pub(crate) fn unknown(habits: &Habits, at: f64) -> Self {
        let nominal = habits.nominal;
        let state = State::new(0.0, nominal, nominal * habits.warms, habits.late, 0.0);
        let spread = Spread::from_diagonal(&State::new(
            UNKNOWN,
            habits.off_nominal.powi(2),
            (nominal * habits.warms_error).powi(2),
            habits.late_error.powi(2),
            UNKNOWN,
        ));
        Self { at, state, spread }
    }

    pub(crate) fn frame(&self) -> f64 {
        self.state[FRAME]
    }

    pub(crate) fn speed(&self) -> f64 {
        self.state[SPEED]
    }

    /// How much faster it will yet become. Unit: frames a second.
    pub(crate) fn still_to_come(&self) -> f64 {
        self.state[WARMS]
    }

    pub(crate) fn late(&self) -> (f64, f64) {
        (self.state[LATE], self.spread[(LATE, LATE)])
    }

    pub(crate) fn frame_variance(&self) -> f64 {
        self.spread[(FRAME, FRAME)]
    }

    pub(crate) fn speed_variance(&self) -> f64 {
        self.spread[(SPEED, SPEED)]
    }

    /// The running frame at count 0 of what is heard.
    pub(crate) fn count_from(&self) -> f64 {
        self.state[COUNT]
    }

    pub(crate) fn count_variance(&self) -> f64 {
        self.spread[(COUNT, COUNT)]
    }

    /// The same machine later.
    pub(crate) fn later(&self, habits: &Habits, to: f64) -> Self {
        if to <= self.at {
            // What was a moment ago: nothing is forgotten and nothing new is in doubt.
            let mut back = *self;
            back.state[FRAME] += (to - self.at) * self.speed();
            back.at = to;
            return back;
        }
        let dt = to - self.at;
        let warm = habits.warms_in;
        let falls = (-dt / warm).exp();
        let mut step = Spread::identity();
        step[(FRAME, SPEED)] = dt;
        step[(FRAME, WARMS)] = dt - warm * (1.0 - falls);
        step[(SPEED, WARMS)] = 1.0 - falls;
        step[(WARMS, WARMS)] = falls;
        // A speed that wanders: white noise of its slope.
        let wander = (habits.wander * habits.nominal).powi(2);
        let mut noise = Spread::zeros();
        noise[(FRAME, FRAME)] = wander * dt.powi(3) / 3.0;
        noise[(FRAME, SPEED)] = wander * dt.powi(2) / 2.0;
        noise[(SPEED, FRAME)] = wander * dt.powi(2) / 2.0;
        noise[(SPEED, SPEED)] = wander * dt;
        Self {
            at: self.at + dt,
            state: step * self.state,
            spread: step * self.spread * step.transpose() + noise,
        }
    }

    /// A tap at a cut: how it fits, and the machine after it.
    pub(crate) fn tapped(&self, habits: &Habits, cut: f64) -> (Fit, Self) {
        let mut row = State::zeros();
        row[FRAME] = 1.0;
        row[SPEED] = -self.state[LATE];
        row[LATE] = -self.speed();
        let expected = self.frame() - self.speed() * self.state[LATE];
        let variance = (self.speed() * habits.hand).powi(2);
        self.measured(&row, cut - expected, variance)
    }

    /// So many frames were counted by ear.
    pub(crate) fn counted(&self, count: f64, error: f64) -> (Fit, Self) {
        let mut row = State::zeros();
        row[FRAME] = 1.0;
        row[COUNT] = -1.0;
        let expected = self.frame() - self.state[COUNT];
        self.measured(&row, count - expected, error * error)
    }

    /// The motor goes on with a frame in the gate: x + v·τ = frame, τ what the run-up costs.
    pub(crate) fn switched_on(&self, habits: &Habits, frame: f64) -> Self {
        let cost = habits.run_up / 3.0;
        let mut row = State::zeros();
        row[FRAME] = 1.0;
        row[SPEED] = cost;
        let expected = row.dot(&self.state);
        let off = habits.run_up_error / 3.0;
        let variance = self.speed().powi(2) * (off * off + habits.hand * habits.hand);
        self.measured(&row, frame - expected, variance).1
    }

    /// The frame itself was read.
    pub(crate) fn read(&self, frame: f64, error: f64) -> (Fit, Self) {
        let mut row = State::zeros();
        row[FRAME] = 1.0;
        self.measured(&row, frame - self.frame(), error * error)
    }

    /// The frame at count 0 is known.
    pub(crate) fn counts_from(&self, from: f64, error: f64) -> (Fit, Self) {
        let mut row = State::zeros();
        row[COUNT] = 1.0;
        self.measured(&row, from - self.state[COUNT], error * error)
    }

    /// The count may have slipped.
    pub(crate) fn slipped(mut self, frames: f64) -> Self {
        if frames.is_finite() {
            self.spread[(COUNT, COUNT)] += frames * frames;
            return self;
        }
        for other in 0..5 {
            self.spread[(COUNT, other)] = 0.0;
            self.spread[(other, COUNT)] = 0.0;
        }
        self.spread[(COUNT, COUNT)] = UNKNOWN;
        self
    }

    /// Its frame is anywhere, all else as it was.
    pub(crate) fn astray(mut self) -> Self {
        for other in 0..5 {
            self.spread[(FRAME, other)] = 0.0;
            self.spread[(other, FRAME)] = 0.0;
        }
        self.spread[(FRAME, FRAME)] = UNKNOWN;
        // What was counted belonged to the frame that is not known any more.
        self.slipped(f64::INFINITY)
    }

    fn measured(&self, row: &State, off: f64, variance: f64) -> (Fit, Self) {
        let toward = self.spread * row;
        let total = row.dot(&toward) + variance;
        let gain = toward / total;
        let keep = Spread::identity() - gain * row.transpose();
        let after = Self {
            at: self.at,
            state: self.state + gain * off,
            spread: keep * self.spread * keep.transpose() + gain * gain.transpose() * variance,
        };
        let fit = Fit {
            off,
            variance: total,
        };
        (fit, after)
    }
}
