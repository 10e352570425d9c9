//! What the user's bench has, and how long things take there.

use onestrand_film::Gauge;

/// How a roll may be wound.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Winding {
    /// One pass a roll, heads to tail; it may be taken off and put on again
    /// where it stands.
    #[default]
    OnePass,
    /// Also from the tail, one direction a roll: it is then wound through once,
    /// all of it, and worked on the way back.
    Tails,
    /// To and fro as the work wants it.
    ToAndFro,
}

impl Winding {
    /// Every way, the gentlest to the film first; each allows what the one
    /// before it allows.
    pub const ALL: [Self; 3] = [Self::OnePass, Self::Tails, Self::ToAndFro];

    /// The word in commands and files.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::OnePass => "one_pass",
            Self::Tails => "tails",
            Self::ToAndFro => "to_and_fro",
        }
    }
}

/// How long the acts take: the user's own times, once they are known.
///
/// Source of the usual ones: a beginner's time with gloves on, common practice,
/// from memory; not measured by us.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BenchTimes {
    /// To find a place and cut there. Unit: seconds.
    pub cut_seconds: u32,
    /// To make one join. Unit: seconds.
    pub join_seconds: u32,
    /// To put a roll on the rewinds. Unit: seconds.
    pub mount_seconds: u32,
    /// To wind one foot, with care. Unit: seconds.
    pub foot_seconds: u32,
}

impl Default for BenchTimes {
    fn default() -> Self {
        Self {
            cut_seconds: 30,
            join_seconds: 120,
            mount_seconds: 60,
            foot_seconds: 1,
        }
    }
}

impl BenchTimes {
    /// Minutes for so many acts. A foot begun counts by its frames.
    #[must_use]
    pub(crate) fn minutes(&self, acts: &ActCount, gauge: Gauge) -> f64 {
        let whole = acts.cuts as f64 * f64::from(self.cut_seconds)
            + acts.joins as f64 * f64::from(self.join_seconds)
            + acts.mountings as f64 * f64::from(self.mount_seconds);
        let feet = acts.wound as f64 / f64::from(gauge.spec().frames_per_foot);
        (whole + feet * f64::from(self.foot_seconds)) / 60.0
    }
}

/// What is to be done, counted.
#[derive(Debug, Clone, Copy)]
pub(crate) struct ActCount {
    pub(crate) cuts: usize,
    pub(crate) joins: usize,
    pub(crate) mountings: usize,
    pub(crate) wound: u64,
}

/// The bench as the user has it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct BenchHabits {
    /// Pins in the trim bin.
    pub pins: u32,
    /// How a roll may be wound.
    pub winding: Winding,
    /// How long things take.
    pub times: BenchTimes,
}
