//! Tape: what its counter says, how fast it ran, how long a piece of spacing must be.
//!
//! A counter geared to a reel of radius r₀ under tape of thickness h, k counts a turn, at
//! speed v: N = C/k turns, L = 2πr₀N + πhN² of tape, T = L/v = aC + bC² (check values 2.4).

use std::f64::consts::PI;

use crate::DubError;
use crate::dub_error::positive;

/// A timing of the counter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Timing {
    /// What the counter said.
    pub count: f64,
    /// When, from count 0. Unit: seconds.
    pub seconds: f64,
}

/// A tape machine as its timings show it: T = aC + bC².
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TapeFit {
    /// Seconds a count on the bare hub.
    pub a: f64,
    /// Seconds a count more with every count. Unit: seconds a count squared.
    pub b: f64,
    /// How far the timings lie off. Unit: seconds, root of the mean square; 0 with two.
    pub residual_s: f64,
}

/// What a machine is made of, where it is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TapeMachine {
    /// The radius of the hub. Unit: mm.
    pub hub_mm: f64,
    /// The thickness of the tape. Unit: mm.
    pub thickness_mm: f64,
    /// Counts a turn.
    pub counts_a_turn: f64,
    /// The speed of the tape. Unit: cm a second.
    pub speed_cm_s: f64,
}

impl TapeMachine {
    /// Its law.
    ///
    /// # Errors
    /// [`DubError::NotPositive`].
    pub fn law(&self) -> Result<TapeFit, DubError> {
        let hub = positive("the radius of the hub, in mm,", self.hub_mm)?;
        let thick = positive("the thickness of the tape, in mm,", self.thickness_mm)?;
        let gear = positive("counts a turn", self.counts_a_turn)?;
        let speed = 10.0 * positive("the speed, in cm a second,", self.speed_cm_s)?;
        Ok(TapeFit {
            a: 2.0 * PI * hub / (gear * speed),
            b: PI * thick / (gear * gear * speed),
            residual_s: 0.0,
        })
    }
}

impl TapeFit {
    /// When the counter says so much. Unit: seconds.
    #[must_use]
    pub fn seconds(&self, count: f64) -> f64 {
        self.a * count + self.b * count * count
    }

    /// What the counter says then.
    #[must_use]
    pub fn count(&self, seconds: f64) -> f64 {
        if self.b.abs() < 1e-15 {
            return seconds / self.a;
        }
        // The root that is 0 at 0; written so that a thin tape loses no digits.
        let root = self
            .a
            .mul_add(self.a, 4.0 * self.b * seconds)
            .max(0.0)
            .sqrt();
        2.0 * seconds / (self.a + root)
    }

    /// How long one count lasts there. Unit: seconds.
    #[must_use]
    pub fn seconds_a_count(&self, count: f64) -> f64 {
        self.a + 2.0 * self.b * count
    }

    /// The hub in counts: R in T = ((C + R)² − R²)/K.
    #[must_use]
    pub fn hub_in_counts(&self) -> f64 {
        self.a / (2.0 * self.b)
    }

    /// K in T = ((C + R)² − R²)/K.
    #[must_use]
    pub fn counts_squared_a_second(&self) -> f64 {
        1.0 / self.b
    }
}

/// Fits a machine to timings by least squares through count 0.
///
/// # Errors
/// [`DubError::TooFew`] under two; [`DubError::WrongOrder`]; [`DubError::NoMachine`] where
/// what fits best stands still or runs backward inside the timings.
pub fn fit_tape(timings: &[Timing]) -> Result<TapeFit, DubError> {
    if timings.len() < 2 {
        let found = timings.len();
        return Err(DubError::TooFew { found, least: 2 });
    }
    let start = Timing {
        count: 0.0,
        seconds: 0.0,
    };
    let mut before = start;
    for (nth, timing) in timings.iter().enumerate() {
        if timing.count <= before.count || timing.seconds <= before.seconds {
            return Err(DubError::WrongOrder { nth: nth + 1 });
        }
        before = *timing;
    }
    // C and C² made square to each other: C² − mC.
    let sum = |of: &dyn Fn(&Timing) -> f64| timings.iter().map(of).sum::<f64>();
    let square = sum(&|t| t.count.powi(2));
    let m = sum(&|t| t.count.powi(3)) / square;
    let bent = |count: f64| count * count - m * count;
    let b = sum(&|t| bent(t.count) * t.seconds) / sum(&|t| bent(t.count).powi(2));
    let along = sum(&|t| t.count * t.seconds) / square;
    let a = along - b * m;
    let fit = TapeFit {
        a,
        b,
        residual_s: 0.0,
    };
    if a <= 0.0 || fit.seconds_a_count(before.count) <= 0.0 {
        return Err(DubError::NoMachine);
    }
    let off = sum(&|t| (t.seconds - fit.seconds(t.count)).powi(2));
    let free = timings.len() - 2;
    let residual_s = if free == 0 {
        0.0
    } else {
        (off / free as f64).sqrt()
    };
    Ok(TapeFit { residual_s, ..fit })
}

/// How much faster a tape must be played for a tone that is heard wrong: 440 heard at
/// 433.4 Hz is played × 1.0152.
///
/// # Errors
/// [`DubError::NotPositive`].
pub fn tape_play(true_hz: f64, heard_hz: f64) -> Result<f64, DubError> {
    Ok(positive("the true tone, in Hz,", true_hz)? / positive("the tone heard, in Hz,", heard_hz)?)
}

/// A piece of spacing between two sounds on one tape.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spacing {
    /// How long it lasts. Unit: seconds.
    pub seconds: f64,
    /// How long it is. Unit: cm.
    pub centimetres: f64,
}

/// The spacing for a gap of so many frames at the true speed of the projector.
///
/// # Errors
/// [`DubError::NotPositive`].
pub fn spacing_leader(frames: f64, true_speed: f64, tape_cm_s: f64) -> Result<Spacing, DubError> {
    let seconds = frames / positive("the speed of the projector", true_speed)?;
    let centimetres = seconds * positive("the speed of the tape, in cm a second,", tape_cm_s)?;
    Ok(Spacing {
        seconds,
        centimetres,
    })
}

/// A row of the counter table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CounterRow {
    /// The running frame.
    pub frame: f64,
    /// When. Unit: seconds.
    pub seconds: f64,
    /// What the counter says.
    pub count: f64,
    /// How many frames one count is there: for finding, not for hitting.
    pub frames_a_count: f64,
}

/// Frame, second and counter beside each other at the true speed of the projector.
///
/// # Errors
/// [`DubError::NotPositive`].
pub fn counter_table(
    law: &TapeFit,
    frames: impl IntoIterator<Item = f64>,
    true_speed: f64,
) -> Result<Vec<CounterRow>, DubError> {
    let speed = positive("the speed of the projector", true_speed)?;
    let row = |frame: f64| {
        let seconds = frame / speed;
        let count = law.count(seconds);
        CounterRow {
            frame,
            seconds,
            count,
            frames_a_count: law.seconds_a_count(count) * speed,
        }
    };
    Ok(frames.into_iter().map(row).collect())
}
