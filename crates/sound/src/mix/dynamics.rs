//! Compressor, and a column that goes down while another speaks. What is slow is worked out
//! at every sixteenth sample of the mix and goes straight between, so that it does not
//! depend on how the mix is asked for.

use super::Compressor;
use crate::RATE;

/// Samples between two workings-out.
pub(super) const STEP: u64 = 16;

/// How fast something follows: the part of the way left after a step.
fn left_after(seconds: f64) -> f64 {
    (-(STEP as f64) / (seconds * f64::from(RATE))).exp()
}

/// Loudness of a column over about 10 ms: the mean square, followed.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Follower {
    sum: f64,
    mean: f64,
}

impl Follower {
    pub(super) fn hear(&mut self, loudest: f64) {
        self.sum += loudest * loudest;
    }

    /// The level since the last step, followed. Unit: dB.
    pub(super) fn step(&mut self) -> f64 {
        let now = self.sum / STEP as f64;
        self.sum = 0.0;
        let left = left_after(0.01);
        self.mean = left * self.mean + (1.0 - left) * now;
        10.0 * (self.mean + 1e-12).log10()
    }
}

const KNEE_DB: f64 = 6.0;
const UP_S: f64 = 0.01;
const DOWN_S: f64 = 0.15;

/// A compressor at work.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pressing {
    asked: Compressor,
    /// What is held back now. Unit: dB, 0 or more.
    held: f64,
}

impl Pressing {
    pub(super) const fn of(asked: Compressor) -> Self {
        Self { asked, held: 0.0 }
    }

    /// What a level is held back by when it stays. Unit: dB.
    fn wanted(&self, db: f64) -> f64 {
        let slope = 1.0 - 1.0 / self.asked.ratio.max(1.0);
        let over = db - self.asked.threshold_db;
        if over <= -KNEE_DB / 2.0 {
            0.0
        } else if over >= KNEE_DB / 2.0 {
            slope * over
        } else {
            slope * (over + KNEE_DB / 2.0).powi(2) / (2.0 * KNEE_DB)
        }
    }

    /// The gain from here on. Unit: dB.
    pub(super) fn step(&mut self, db: f64) -> f64 {
        let wanted = self.wanted(db);
        let left = left_after(if wanted > self.held { UP_S } else { DOWN_S });
        self.held = left * self.held + (1.0 - left) * wanted;
        self.asked.make_up_db - self.held
    }
}

/// From here on a column counts as speaking. Unit: dB below full scale.
const SPEAKS_DB: f64 = -42.0;
/// It still counts for so long: the breath between two words. Unit: seconds.
const HOLD_S: f64 = 0.35;
const DUCK_DOWN_S: f64 = 0.06;
const DUCK_UP_S: f64 = 0.5;

/// A column going down for another.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ducking {
    by_db: f64,
    hold: f64,
    now: f64,
}

impl Ducking {
    pub(super) const fn by(by_db: f64) -> Self {
        Self {
            by_db,
            hold: 0.0,
            now: 0.0,
        }
    }

    /// The gain from here on, with how loud the other is. Unit: dB.
    pub(super) fn step(&mut self, other_db: f64) -> f64 {
        let step_s = STEP as f64 / f64::from(RATE);
        self.hold = if other_db > SPEAKS_DB {
            HOLD_S
        } else {
            (self.hold - step_s).max(0.0)
        };
        let wanted = if self.hold > 0.0 { self.by_db } else { 0.0 };
        let left = left_after(if wanted > self.now {
            DUCK_DOWN_S
        } else {
            DUCK_UP_S
        });
        self.now = left * self.now + (1.0 - left) * wanted;
        -self.now
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn settled(mut of: impl FnMut() -> f64) -> f64 {
        (0..20_000).map(|_| of()).last().unwrap_or(0.0)
    }

    #[test]
    fn a_compressor_holds_back_by_its_ratio() {
        let asked = Compressor {
            threshold_db: -24.0,
            ratio: 3.0,
            make_up_db: 2.0,
        };
        let at = |db: f64| {
            let mut pressing = Pressing::of(asked);
            settled(|| pressing.step(db))
        };
        assert!((at(-60.0) - 2.0).abs() < 1e-6);
        assert!((at(-12.0) - (2.0 - 8.0)).abs() < 1e-3, "{}", at(-12.0));
        let knee = at(-24.0);
        assert!((knee - (2.0 - 0.5)).abs() < 1e-3, "{knee}");
    }

    #[test]
    fn music_goes_down_for_a_voice_and_comes_back() {
        let mut ducking = Ducking::by(12.0);
        assert!((settled(|| ducking.step(-20.0)) + 12.0).abs() < 1e-3);
        // A breath of 0.2 s keeps it down.
        let breath = (0..600).map(|_| ducking.step(-90.0)).last();
        assert!(breath.is_some_and(|db| (db + 12.0).abs() < 1e-3));
        assert!(settled(|| ducking.step(-90.0)).abs() < 1e-2);
    }
}
