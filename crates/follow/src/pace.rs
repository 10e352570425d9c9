//! How fast something must be played that follows a projector.
//!
//! The rate is steered like a heavy wheel: what pulls is how far it is off and how much
//! faster the other runs, and the pull is bounded, so the rate has no steps and its slope is
//! never more than is allowed.

/// What is bounded. Rates are shares of the speed the sound was made for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pace {
    /// The rate changes by no more than this in a second. 0.001 is 0.1 %: a fifth of what the
    /// ear notices of a steady tone, and a third of the flutter of a projector itself
    /// (S048: 0.3 to 0.4 %), spread over a whole second.
    pub slope: f64,
    /// Off by a frame, and the rate goes towards so much more. Unit: a second.
    pub stiffness: f64,
    /// The lowest and highest rate.
    pub within: (f64, f64),
}

impl Default for Pace {
    fn default() -> Self {
        Self {
            slope: 0.001,
            stiffness: 0.18,
            within: (0.85, 1.15),
        }
    }
}

/// What is played back, as it runs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rate {
    /// Where it is. Unit: frames.
    pub frame: f64,
    /// How fast, as a share of the speed the sound was made for.
    pub rate: f64,
    /// The speed the sound was made for. Unit: frames a second.
    pub speed: f64,
}

impl Rate {
    /// The next moment: `dt` seconds on, when the projector is thought at `frame` running at
    /// `speed` frames a second at the end of it.
    #[must_use]
    pub fn after(self, pace: &Pace, dt: f64, frame: f64, speed: f64) -> Self {
        let wanted = speed / self.speed;
        let off = frame - (self.frame + self.rate * self.speed * dt);
        // Critically damped: off″ = −k²·off − 2k·off′.
        let k = pace.stiffness;
        let slope = k * k * off / self.speed + 2.0 * k * (wanted - self.rate);
        let slope = slope.clamp(-pace.slope, pace.slope);
        let rate = (self.rate + slope * dt).clamp(pace.within.0, pace.within.1);
        // The rate goes evenly from one to the other.
        let frame = self.frame + 0.5 * (self.rate + rate) * self.speed * dt;
        Self {
            frame,
            rate,
            ..self
        }
    }
}
